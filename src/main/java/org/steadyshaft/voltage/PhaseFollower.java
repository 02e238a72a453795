package org.steadyshaft.voltage;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.steadyshaft.numeric.Moments;

/**
 * Follows the mains' phase through the pieces by the strongest of what the mains makes in the recording, be it pick-up or ripple, block by
 * block: the supply's frequency wanders, and a long record would see its lines smeared and too small.
 */
final class PhaseFollower {
    /** Blocks of these lengths are tried; the shortest that tells the phase well is used. */
    private static final double[] BLOCK_SECONDS = {1, 2, 4};

    /** A block's phase should be known this well [rad]. */
    private static final double WELL_RAD = 0.07;

    /** A smaller wander [rad of the followed line, root mean square] is left alone: it takes a thousandth off a line. */
    private static final double WORTH_RAD = 0.05;

    /** A wander turns the phase so many times as much as the size sways. Our own figure. */
    private static final double TO_SWAY = 2.5;

    private final VoltageFit fit;
    private final FitPlan plan;

    PhaseFollower(VoltageFit fit, FitPlan plan) {
        this.fit = fit;
        this.plan = plan;
    }

    /** A pair of columns that shows the mains, and the blocks in which it does. */
    private record Shown(int column, int multiple, double blockSeconds) {}

    /** Gives each piece its mains' phase, of pick-up by the strongest tone and of the speed by the strongest line. Whether any was worth it. */
    boolean follow() {
        int[] tones = new int[plan.mainsHum()];
        int[] toneMultiple = new int[tones.length];
        for (int j = 0; j < tones.length; j++) {
            tones[j] = fit.columns().hum(j);
            toneMultiple[j] = plan.humMultiple(j);
        }
        int[] lines = new int[fit.columns().lineHz().size()];
        int[] lineMultiple = new int[lines.length];
        for (int j = 0; j < lines.length; j++) {
            lines[j] = fit.columns().line(j);
            lineMultiple[j] = plan.lineMultiple(j);
        }
        Optional<Shown> tone = strongest(tones, toneMultiple);
        Optional<Shown> line = strongest(lines, lineMultiple);
        List<Optional<MainsPhase>> ofTones = phases(tone);
        List<Optional<MainsPhase>> ofLines = phases(line);
        boolean any = false;
        for (int p = 0; p < fit.pieces().size(); p++) {
            ofTones.get(p).ifPresent(fit.pieces().get(p)::followTones);
            ofLines.get(p).ifPresent(fit.pieces().get(p)::followLines);
            any |= ofTones.get(p).isPresent() || ofLines.get(p).isPresent();
        }
        return any;
    }

    private Optional<Shown> strongest(int[] column, int[] multiple) {
        for (double seconds : BLOCK_SECONDS) {
            Optional<Shown> best = Optional.empty();
            double least = Double.POSITIVE_INFINITY;
            for (int j = 0; j < column.length; j++) {
                double unsure = multiple[j] == 0 ? WELL_RAD : unsureRad(column[j], seconds);
                if (unsure < WELL_RAD && unsure / multiple[j] < least) {
                    least = unsure / multiple[j];
                    best = Optional.of(new Shown(column[j], multiple[j], seconds));
                }
            }
            if (best.isPresent()) {
                return best;
            }
        }
        return Optional.empty();
    }

    private List<Optional<MainsPhase>> phases(Optional<Shown> shown) {
        List<Optional<MainsPhase>> phases = new ArrayList<>();
        for (int p = 0; p < fit.pieces().size(); p++) {
            int piece = p;
            phases.add(shown.flatMap(s -> phase(piece, s.column, s.multiple, s.blockSeconds)));
        }
        return phases;
    }

    /** How badly a block tells the phase of a pair of columns [rad]: the worst piece counts. */
    private double unsureRad(int column, double blockSeconds) {
        double worst = 0;
        for (int p = 0; p < fit.pieces().size(); p++) {
            double amplitude = Math.hypot(fit.coefficient(p, column), fit.coefficient(p, column + 1));
            double variance = fit.restVariance()
                    * fit.variance(p, column)
                    * fit.pieces().get(p).seconds()
                    / blockSeconds;
            worst = Math.max(worst, Math.sqrt(variance) / Math.max(amplitude, Double.MIN_NORMAL));
        }
        return worst;
    }

    private Optional<MainsPhase> phase(int index, int column, int multiple, double blockSeconds) {
        AnglePiece piece = fit.pieces().get(index);
        int blocks = (int) Math.floor(piece.seconds() / blockSeconds);
        if (blocks < 3) {
            return Optional.empty();
        }
        double[] sizes = new double[blocks];
        double[] phases = phases(index, column, sizes);
        double mean = 0;
        for (int b = 1; b < blocks; b++) {
            phases[b] -= 2 * Math.PI * Math.rint((phases[b] - phases[b - 1]) / (2 * Math.PI));
        }
        for (double phase : phases) {
            mean += phase / blocks;
        }
        double squares = 0;
        double[] ahead = new double[blocks];
        for (int b = 0; b < blocks; b++) {
            squares += (phases[b] - mean) * (phases[b] - mean) / blocks;
            ahead[b] = -(phases[b] - mean) / multiple;
        }
        double step = piece.seconds() / blocks;
        // a second line nearby turns the phase too, but sways the size as much
        boolean isWander = Math.sqrt(squares) > TO_SWAY * sway(sizes);
        return Math.sqrt(squares) < WORTH_RAD || !isWander
                ? Optional.empty()
                : Optional.of(new MainsPhase(piece.firstSeconds + 0.5 * step, step, ahead));
    }

    /** Phase of the pair of columns in each block, by least squares of the rest with the pair put back. */
    private double[] phases(int index, int column, double[] sizes) {
        int blocks = sizes.length;
        AnglePiece piece = fit.pieces().get(index);
        double[] rest = fit.rests().get(index);
        double known0 = fit.coefficient(index, column);
        double known1 = fit.coefficient(index, column + 1);
        double[][] sums = new double[blocks][5];
        ColumnBlock block = new ColumnBlock(piece, fit.turn(), fit.columns());
        for (int from = 0; from < rest.length; from += Columns.BLOCK) {
            int count = block.fill(from);
            for (int i = 0; i < count; i++) {
                double a = block.column[column][i];
                double b = block.column[column + 1][i];
                double left = rest[from + i] + known0 * a + known1 * b;
                double[] into = sums[(int) ((long) (from + i) * blocks / rest.length)];
                into[0] += a * a;
                into[1] += a * b;
                into[2] += b * b;
                into[3] += a * left;
                into[4] += b * left;
            }
        }
        double[] phases = new double[blocks];
        for (int b = 0; b < blocks; b++) {
            double[] s = sums[b];
            double c = s[2] * s[3] - s[1] * s[4];
            double d = s[0] * s[4] - s[1] * s[3];
            phases[b] = Math.atan2(d, c);
            sizes[b] = Math.hypot(c, d) / Math.max(s[0] * s[2] - s[1] * s[1], Double.MIN_NORMAL);
        }
        return phases;
    }

    /** Relative standard deviation. */
    private static double sway(double[] sizes) {
        Moments moments = new Moments();
        for (double size : sizes) {
            moments.add(size);
        }
        return moments.deviation() / moments.mean();
    }
}
