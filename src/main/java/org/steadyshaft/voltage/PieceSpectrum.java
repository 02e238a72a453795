package org.steadyshaft.voltage;

import org.steadyshaft.numeric.RealTransform;

/**
 * What a piece's rest says of a speed line, or of a tone, at each of evenly spaced frequencies. The score of a line is the product of the
 * rest with d/dt [W cos] and d/dt [W sin]: a matched filter over all its sidebands at once. Two transforms give it for all frequencies.
 * The rest is Hann-weighted, and summed in groups first where its rate is far above what is asked for.
 */
final class PieceSpectrum {
    /** Rate of the groups over the highest frequency: at that frequency the sum over a group takes off 10 %. */
    private static final double GROUPS = 4;

    final double binHz;
    final double[] speedScore;
    final double[] toneScore;

    /** Sum of squares of the window: a score's mean for noise of variance 1 is this times {@link #energy}. */
    final double weightSquares;

    final double weightSum;
    final double alongSquare;
    final double acrossSquare;
    final double radPerSecond;

    /**
     * @param rest one value a sample [volts]
     * @param points length of the transforms; more than twice the groups, so that peaks lie close to a bin
     * @param topHz highest frequency that is asked for
     */
    PieceSpectrum(AnglePiece piece, TurnVoltage turn, double[] rest, double topHz, int points, int group) {
        double[] along = new double[points];
        double[] across = new double[points];
        double[] tone = new double[points];
        double alongSum = 0;
        double acrossSum = 0;
        double weights = 0;
        double squares = 0;
        double[] angle = new double[Columns.BLOCK];
        double[] value = new double[Columns.BLOCK];
        double[] slope = new double[Columns.BLOCK];
        HannWeights hann = new HannWeights(piece.samples());
        for (int from = 0; from < piece.samples(); from += Columns.BLOCK) {
            int count = Math.min(Columns.BLOCK, piece.samples() - from);
            System.arraycopy(piece.angle, from, angle, 0, count);
            turn.fill(angle, value, slope, count);
            for (int i = 0; i < count; i++) {
                double weight = hann.next();
                double left = weight * rest[from + i];
                double lean = piece.radPerSecond[from + i] * slope[i];
                int at = (from + i) / group;
                along[at] += left * lean;
                across[at] += left * value[i];
                tone[at] += left;
                alongSum += lean * lean;
                acrossSum += value[i] * value[i];
                weights += weight;
                squares += weight * weight;
            }
        }
        this.weightSum = weights;
        this.weightSquares = squares;
        this.alongSquare = alongSum / piece.samples();
        this.acrossSquare = acrossSum / piece.samples();
        this.radPerSecond = piece.meanRadPerSecond;
        this.binHz = 1 / (points * group * piece.stepSeconds);
        RealTransform transform = new RealTransform(points);
        transform.forward(along);
        transform.forward(across);
        transform.forward(tone);
        int bins = (int) Math.min(points / 2 - 1.0, topHz / binHz + 2);
        this.speedScore = new double[bins];
        this.toneScore = new double[bins];
        for (int k = 1; k < bins; k++) {
            double share = share(k * binHz);
            double re = share * along[2 * k] + radPerSecond * across[2 * k + 1];
            double im = share * along[2 * k + 1] - radPerSecond * across[2 * k];
            speedScore[k] = re * re + im * im;
            toneScore[k] = tone[2 * k] * tone[2 * k] + tone[2 * k + 1] * tone[2 * k + 1];
        }
    }

    /** Samples to a group, so that frequencies up to the highest are hardly weakened. */
    static int group(double rateHz, double topHz) {
        return (int) Math.max(1, Math.floor(rateHz / (GROUPS * topHz)));
    }

    private double share(double hz) {
        return radPerSecond / (2 * Math.PI * hz);
    }

    /** Mean square of the two columns of a line together. */
    double energy(double hz) {
        double share = share(hz);
        return share * share * alongSquare + radPerSecond * radPerSecond * acrossSquare;
    }

    /** Hann weights in order, by turning a phasor; begun afresh every 1024 samples. */
    private static final class HannWeights {
        private final double step;
        private final double stepCos;
        private final double stepSin;
        private int at;
        private double cos;
        private double sin;

        HannWeights(int count) {
            this.step = 2 * Math.PI / count;
            this.stepCos = Math.cos(step);
            this.stepSin = Math.sin(step);
        }

        double next() {
            if (at % 1024 == 0) {
                cos = Math.cos(step * (at + 0.5));
                sin = Math.sin(step * (at + 0.5));
            } else {
                double next = cos * stepCos - sin * stepSin;
                sin = sin * stepCos + cos * stepSin;
                cos = next;
            }
            at++;
            return 0.5 - 0.5 * cos;
        }
    }
}
