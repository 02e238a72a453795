package org.steadyshaft.blip;

import java.util.ArrayList;
import java.util.List;
import org.steadyshaft.numeric.OrthogonalFit;
import org.steadyshaft.numeric.Robust;

/**
 * How much a kink with return at each place would explain of the angle, for nine shapes, the level following as a polynomial of fifth
 * degree: its size and its likelihood ratio in units of the local noise. One product of the window's length for each shape and place; the
 * noise is only summed where the size could matter.
 */
final class KinkSearch {
    private static final double[] RISES = {0.008, 0.02, 0.035};
    private static final double[] RETURNS = {0.04, 0.15, 3};
    private static final int DEGREE = 5;

    /** Places looked at for the usual spread of the ratio. */
    private static final int SPREAD_LOOKS = 2000;

    private static final double LEAST_SPREAD = 0.3;

    /** Places taken together: sizes and angles stay in the nearest cache. */
    private static final int BLOCK = 1024;

    private final AngleGrid grid;
    private final int before;
    private final int after;
    private final double[][] kernels;
    private final double[][] squares;
    private final double percentAngle;

    /** @param percentAngle angular speed that is one per cent [rad/s] */
    KinkSearch(AngleGrid grid, double beforeSeconds, double afterSeconds, double percentAngle) {
        this.grid = grid;
        this.percentAngle = percentAngle;
        this.before = (int) (beforeSeconds / grid.stepSeconds);
        this.after = (int) (afterSeconds / grid.stepSeconds);
        this.kernels = new double[RISES.length * RETURNS.length][];
        this.squares = new double[kernels.length][];
        for (int s = 0; s < kernels.length; s++) {
            kernels[s] = kernel(RISES[s / RETURNS.length], RETURNS[s % RETURNS.length]);
            squares[s] = new double[kernels[s].length];
            for (int i = 0; i < squares[s].length; i++) {
                squares[s][i] = kernels[s][i] * kernels[s][i];
            }
        }
    }

    private double[] kernel(double rise, double back) {
        int n = before + after + 1;
        double[] shape = new double[n];
        OrthogonalFit smooth = new OrthogonalFit(shape);
        for (int degree = 0; degree <= DEGREE; degree++) {
            double[] power = new double[n];
            for (int i = 0; i < n; i++) {
                power[i] = Math.pow((i - before) / (double) after, degree);
            }
            smooth.add(power);
        }
        for (int i = 0; i < n; i++) {
            shape[i] = percentAngle * Kink.bend((i - before) * grid.stepSeconds, rise, back);
        }
        smooth.clear(shape);
        double energy = OrthogonalFit.dot(shape, shape);
        for (int i = 0; i < n; i++) {
            shape[i] /= energy;
        }
        return shape;
    }

    /** Sizes [%] of every shape at every place; 0 beside the ends. */
    double[][] sizes(double[] rest) {
        double[][] all = new double[kernels.length][];
        for (int shape = 0; shape < all.length; shape++) {
            all[shape] = sizes(shape, rest);
        }
        return all;
    }

    /** The products of one tap with all places together, block by block: a loop without a sum that would wait for itself. */
    private double[] sizes(int shape, double[] rest) {
        double[] kernel = kernels[shape];
        double[] size = new double[rest.length];
        int end = rest.length - after;
        for (int from = before; from < end; from += BLOCK) {
            int to = Math.min(end, from + BLOCK);
            for (int j = 0; j + 1 < kernel.length; j += 2) {
                addTaps(size, rest, from, to, j - before, kernel[j], kernel[j + 1]);
            }
            if (kernel.length % 2 == 1) {
                addTaps(size, rest, from, to, after - 1, 0, kernel[kernel.length - 1]);
            }
        }
        return size;
    }

    private static void addTaps(
            double[] size, double[] rest, int from, int to, int shift, double first, double second) {
        for (int i = from; i < to; i++) {
            size[i] += first * rest[i + shift] + second * rest[i + shift + 1];
        }
    }

    /** Standard deviation of a shape's size at a place that the local noise makes [%]. */
    double noise(int shape, int place) {
        double[] square = squares[shape];
        double sum = 0;
        for (int j = 0; j < square.length; j++) {
            sum += square[j] * grid.variance[place - before + j];
        }
        return Math.sqrt(sum);
    }

    /**
     * What a shape's sizes usually are beside what the local noise makes of them: the drive's own wander, which does not grow where the noise
     * does.
     *
     * @param share of the noise, 1 or less
     * @param variance of the wander [% squared]
     */
    record Spread(double share, double variance) {}

    /** The spread of every shape. */
    List<Spread> spread(double[][] sizes) {
        List<Spread> spreads = new ArrayList<>();
        for (int s = 0; s < shapes(); s++) {
            double[] size = sizes[s];
            int places = size.length - before - after;
            int looks = Math.min(SPREAD_LOOKS, places);
            double[] ratio = new double[Math.max(1, looks)];
            double[] noise = new double[ratio.length];
            for (int i = 0; i < looks; i++) {
                int place = before + (int) ((long) i * places / looks);
                noise[i] = noise(s, place);
                ratio[i] = Math.abs(size[place]) / noise[i];
            }
            double usual = Robust.median(ratio) / 0.6745;
            double typical = Robust.median(noise);
            spreads.add(new Spread(
                    Math.max(LEAST_SPREAD, Math.min(1, usual)), Math.max(0, usual * usual - 1) * typical * typical));
        }
        return spreads;
    }

    /** A size at a place in units of what noise and wander make there. */
    double ratio(int shape, int place, double size, Spread spread) {
        double noise = spread.share * noise(shape, place);
        return Math.abs(size) / Math.sqrt(noise * noise + spread.variance);
    }

    int shapes() {
        return kernels.length;
    }

    int firstPlace() {
        return before;
    }

    int endPlace(int size) {
        return size - after;
    }
}
