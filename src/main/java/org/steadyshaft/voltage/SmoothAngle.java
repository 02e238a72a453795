package org.steadyshaft.voltage;

import org.steadyshaft.signal.CycleTimes;

/**
 * The shaft's angle over an unbroken row of cycles, smooth in time: a cubic spline with evenly spaced knots, by least squares through the
 * middles of whole turns (the mean of as many crossings as there are pole pairs, from which the poles' spacing drops out). It follows the
 * speed up to about half a swing a knot distance; what is faster is left to the lines that are read from the waveform.
 */
final class SmoothAngle {
    private static final double TURN = 2 * Math.PI;

    /** Keeps coefficients bounded where a knot interval holds no point; a share of one point's weight. */
    private static final double RIDGE = 1e-9;

    private static final int ORDER = 4;

    private final double fromSeconds;
    private final double toSeconds;
    private final double knotSeconds;
    private final double meanRadPerSecond;
    private final double[] coefficient;
    private final double restCycles;

    private SmoothAngle(
            double fromSeconds,
            double toSeconds,
            double knotSeconds,
            double meanRadPerSecond,
            double[] coefficient,
            double restCycles) {
        this.fromSeconds = fromSeconds;
        this.toSeconds = toSeconds;
        this.knotSeconds = knotSeconds;
        this.meanRadPerSecond = meanRadPerSecond;
        this.coefficient = coefficient;
        this.restCycles = restCycles;
    }

    /**
     * @param first index of the first crossing of the row
     * @param crossings how many there are, at least four more than pole pairs
     * @param knotSeconds distance of the knots; above 0
     */
    static SmoothAngle through(CycleTimes cycles, int first, int crossings, int polePairs, double knotSeconds) {
        int turns = crossings - polePairs + 1;
        double[] middle = new double[turns];
        double sum = 0;
        for (int i = 0; i < crossings; i++) {
            sum += cycles.timeSeconds(first + i);
            if (i >= polePairs - 1) {
                middle[i - polePairs + 1] = sum / polePairs;
                sum -= cycles.timeSeconds(first + i - polePairs + 1);
            }
        }
        double from = middle[0];
        double to = middle[turns - 1];
        double perCycle = TURN / polePairs;
        double mean = perCycle * (turns - 1) / (to - from);
        int intervals = (int) Math.max(1, Math.ceil((to - from) / knotSeconds));
        double knot = (to - from) / intervals;
        BandedFit fit = new BandedFit(intervals + ORDER - 1);
        double[] basis = new double[ORDER];
        for (int i = 0; i < turns; i++) {
            int at = basis(middle[i] - from, knot, intervals, basis);
            fit.add(at, basis, perCycle * i - mean * (middle[i] - from));
        }
        double[] coefficient = fit.solve();
        double squares = 0;
        for (int i = 0; i < turns; i++) {
            int at = basis(middle[i] - from, knot, intervals, basis);
            double rest = perCycle * i - mean * (middle[i] - from);
            for (int j = 0; j < ORDER; j++) {
                rest -= basis[j] * coefficient[at + j];
            }
            squares += rest * rest;
        }
        double restCycles = Math.sqrt(squares / turns) / perCycle;
        return new SmoothAngle(from, to, knot, mean, coefficient, restCycles);
    }

    /** The four cubic B-splines that are not 0 at a time after the start. */
    private static int basis(double after, double knot, int intervals, double[] basis) {
        double place = after / knot;
        int at = (int) Math.max(0, Math.min(intervals - 1.0, Math.floor(place)));
        double u = place - at;
        double v = 1 - u;
        basis[0] = v * v * v / 6;
        basis[1] = (3 * u * u * u - 6 * u * u + 4) / 6;
        basis[2] = (3 * v * v * v - 6 * v * v + 4) / 6;
        basis[3] = u * u * u / 6;
        return at;
    }

    double fromSeconds() {
        return fromSeconds;
    }

    double toSeconds() {
        return toSeconds;
    }

    double knotSeconds() {
        return knotSeconds;
    }

    double meanRadPerSecond() {
        return meanRadPerSecond;
    }

    /** Root mean square of what the spline leaves of the turns' middles, in cycles of the tacho. */
    double restCycles() {
        return restCycles;
    }

    /**
     * Angle [rad] and its change [rad/s] at even times inside the row.
     *
     * @param firstSeconds time of index 0
     */
    void fill(double firstSeconds, double stepSeconds, double[] angle, double[] radPerSecond) {
        int intervals = coefficient.length - ORDER + 1;
        for (int i = 0; i < angle.length; i++) {
            double after = firstSeconds + i * stepSeconds - fromSeconds;
            double place = after / knotSeconds;
            int at = (int) Math.max(0, Math.min(intervals - 1.0, place));
            double u = place - at;
            double c0 = coefficient[at];
            double c1 = coefficient[at + 1];
            double c2 = coefficient[at + 2];
            double c3 = coefficient[at + 3];
            double a0 = (c0 + 4 * c1 + c2) / 6;
            double a1 = 0.5 * (c2 - c0);
            double a2 = 0.5 * (c0 - 2 * c1 + c2);
            double a3 = (c3 - c0 + 3 * (c1 - c2)) / 6;
            angle[i] = meanRadPerSecond * after + a0 + u * (a1 + u * (a2 + u * a3));
            radPerSecond[i] = meanRadPerSecond + (a1 + u * (2 * a2 + 3 * a3 * u)) / knotSeconds;
        }
    }

    /** Normal equations of a cubic spline: four diagonals, by Cholesky's method. */
    private static final class BandedFit {
        private final int size;
        private final double[][] band;
        private final double[] right;

        BandedFit(int size) {
            this.size = size;
            this.band = new double[size][ORDER];
            this.right = new double[size];
        }

        void add(int at, double[] basis, double value) {
            for (int i = 0; i < ORDER; i++) {
                right[at + i] += basis[i] * value;
                for (int j = 0; j <= i; j++) {
                    band[at + i][ORDER - 1 - i + j] += basis[i] * basis[j];
                }
            }
        }

        /** Entry (i, i - 3 + j) stands in band[i][j]. */
        double[] solve() {
            for (int i = 0; i < size; i++) {
                band[i][ORDER - 1] += RIDGE;
                for (int j = Math.max(0, i - ORDER + 1); j <= i; j++) {
                    double sum = band[i][j - i + ORDER - 1];
                    for (int k = Math.max(0, i - ORDER + 1); k < j; k++) {
                        if (k >= j - ORDER + 1) {
                            sum -= band[i][k - i + ORDER - 1] * band[j][k - j + ORDER - 1];
                        }
                    }
                    band[i][j - i + ORDER - 1] = j < i ? sum / band[j][ORDER - 1] : Math.sqrt(Math.max(sum, RIDGE));
                }
            }
            double[] x = right.clone();
            for (int i = 0; i < size; i++) {
                for (int k = Math.max(0, i - ORDER + 1); k < i; k++) {
                    x[i] -= band[i][k - i + ORDER - 1] * x[k];
                }
                x[i] /= band[i][ORDER - 1];
            }
            for (int i = size - 1; i >= 0; i--) {
                for (int k = i + 1; k < Math.min(size, i + ORDER); k++) {
                    x[i] -= band[k][i - k + ORDER - 1] * x[k];
                }
                x[i] /= band[i][ORDER - 1];
            }
            return x;
        }
    }
}
