package org.steadyshaft.voltage;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.function.DoublePredicate;
import org.apache.commons.statistics.distribution.GammaDistribution;
import org.steadyshaft.numeric.Robust;

/**
 * The rest of all pieces over frequency, twice: as lines of the speed and as tones in the recording. Each is scaled so that its mean is
 * the variance of the noise where there is only white noise; so heights of both can be compared.
 */
final class RestSpectrum {
    /** The noise at a frequency is judged over this share of it to either side, but over some bins at least. */
    private static final double REACH_SHARE = 0.1;

    private static final double REACH_WIDTHS = 16;

    private final double binHz;
    private final double widthHz;
    private final double[] speed;
    private final double[] tone;
    private final double[] toPercent;
    private final double alongSquare;
    private final double acrossSquare;
    private final double looks;
    private final double medianShare;

    private RestSpectrum(
            double binHz,
            double widthHz,
            double[] speed,
            double[] tone,
            double[] toPercent,
            double[] squares,
            double looks) {
        this.binHz = binHz;
        this.widthHz = widthHz;
        this.speed = speed;
        this.tone = tone;
        this.toPercent = toPercent;
        this.alongSquare = squares[0];
        this.acrossSquare = squares[1];
        this.looks = looks;
        this.medianShare = GammaDistribution.of(looks, 1 / looks).inverseCumulativeProbability(0.5);
    }

    /** @param rests what the model leaves of each piece [volts] */
    static RestSpectrum of(List<AnglePiece> pieces, TurnVoltage turn, List<double[]> rests, double topHz) {
        int longest = pieces.stream().mapToInt(AnglePiece::samples).max().orElse(1);
        double rateHz = 1 / pieces.get(0).stepSeconds;
        int group = PieceSpectrum.group(rateHz, topHz);
        int points = org.steadyshaft.numeric.RealTransform.powerOfTwoFrom(2.0 * longest / group + 2);
        List<PieceSpectrum> parts = new ArrayList<>();
        for (int i = 0; i < pieces.size(); i++) {
            parts.add(new PieceSpectrum(pieces.get(i), turn, rests.get(i), topHz, points, group));
        }
        int bins = parts.get(0).speedScore.length;
        double[] speed = new double[bins];
        double[] tone = new double[bins];
        double[] toPercent = new double[bins];
        double weights = 0;
        double squares = 0;
        for (PieceSpectrum part : parts) {
            weights += part.weightSquares;
            squares += part.weightSquares * part.weightSquares;
        }
        double binHz = parts.get(0).binHz;
        for (int k = 1; k < bins; k++) {
            double scores = 0;
            double energies = 0;
            double tones = 0;
            double heights = 0;
            for (PieceSpectrum part : parts) {
                double energy = part.energy(k * binHz);
                scores += part.speedScore[k];
                energies += part.weightSquares * energy;
                tones += part.toneScore[k];
                heights += part.weightSum * energy * part.weightSum * energy;
            }
            speed[k] = scores / energies;
            tone[k] = tones / weights;
            toPercent[k] = 100 * 2 * Math.sqrt(energies / heights);
        }
        double[] energy = new double[2];
        for (PieceSpectrum part : parts) {
            double speed2 = part.radPerSecond * part.radPerSecond;
            energy[0] += speed2 * part.alongSquare * part.weightSquares / weights;
            energy[1] += speed2 * part.acrossSquare * part.weightSquares / weights;
        }
        double width =
                1 / pieces.stream().mapToDouble(AnglePiece::seconds).max().orElse(1);
        return new RestSpectrum(binHz, width, speed, tone, toPercent, energy, weights * weights / squares);
    }

    double binHz() {
        return binHz;
    }

    /** One over the length of the longest piece: half the half-width of a line. */
    double widthHz() {
        return widthHz;
    }

    int bins() {
        return speed.length;
    }

    double topHz() {
        return (speed.length - 2) * binHz;
    }

    /** Amplitude of a speed line as the spectrum has it [% of the mean, 0 to peak], noise included. */
    double amplitudePercent(int bin) {
        return toPercent[bin] * Math.sqrt(speed[bin]);
    }

    /** Mean square of the two columns of a line together, over all pieces. */
    double energy(double hz) {
        return angleEnergy(hz) + levelEnergy();
    }

    /** Of that, what the angle's part gives. */
    double angleEnergy(double hz) {
        double turns = 2 * Math.PI * hz;
        return alongSquare / (turns * turns);
    }

    /** Of that, what the level's part gives. */
    double levelEnergy() {
        return acrossSquare;
    }

    double speedHeight(int bin) {
        return speed[bin];
    }

    double speedHeight(double hz) {
        return at(speed, hz);
    }

    double toneHeight(double hz) {
        return at(tone, hz);
    }

    private double at(double[] values, double hz) {
        double place = Math.abs(hz) / binHz;
        int bin = (int) Math.max(1, Math.min(values.length - 2.0, place));
        double share = Math.max(0, Math.min(1, place - bin));
        return values[bin] + share * (values[bin + 1] - values[bin]);
    }

    /** Frequency of the highest point of a speed line within a reach, between bins by a parabola through the logarithms. */
    double speedPeakHz(double hz, double reachHz) {
        return peakHz(speed, hz, reachHz);
    }

    double tonePeakHz(double hz, double reachHz) {
        return peakHz(tone, hz, reachHz);
    }

    private double peakHz(double[] values, double hz, double reachHz) {
        int from = (int) Math.max(2, Math.floor((hz - reachHz) / binHz));
        int to = (int) Math.min(values.length - 2.0, Math.ceil((hz + reachHz) / binHz));
        int best = Math.min(from, to);
        for (int k = from; k <= to; k++) {
            best = values[k] > values[best] ? k : best;
        }
        double left = Math.log(values[best - 1] + Double.MIN_NORMAL);
        double middle = Math.log(values[best] + Double.MIN_NORMAL);
        double right = Math.log(values[best + 1] + Double.MIN_NORMAL);
        double bend = left - 2 * middle + right;
        double shift = bend < 0 ? Math.max(-0.5, Math.min(0.5, 0.5 * (left - right) / bend)) : 0;
        return (best + shift) * binHz;
    }

    /**
     * Variance of the noise as lines of the speed see it around a frequency: the median beside it.
     *
     * @param taken frequencies at which something stands that is no noise
     */
    double speedNoise(double hz, DoublePredicate taken) {
        return noise(speed, hz, taken);
    }

    double toneNoise(double hz, DoublePredicate taken) {
        return noise(tone, hz, taken);
    }

    private double noise(double[] values, double hz, DoublePredicate taken) {
        double reach = Math.max(REACH_WIDTHS * widthHz, REACH_SHARE * hz);
        int step = (int) Math.max(1, Math.floor(0.5 * widthHz / binHz));
        double[] around = new double[(int) (2 * reach / (step * binHz)) + 3];
        int count = 0;
        int from = (int) Math.max(2, (hz - reach) / binHz);
        int to = (int) Math.min(values.length - 1.0, (hz + reach) / binHz);
        for (int k = from; k <= to && count < around.length; k += step) {
            if (!taken.test(k * binHz)) {
                around[count++] = values[k];
            }
        }
        if (count < 4) {
            return allNoise(values);
        }
        return Robust.median(Arrays.copyOf(around, count)) / medianShare;
    }

    private double allNoise(double[] values) {
        return Robust.median(Arrays.copyOfRange(values, 1, values.length)) / medianShare;
    }

    /** How many times the noise a height must be, to come from noise alone with this chance at any one of all frequencies. */
    double clear(double chance) {
        double independent = Math.max(1, speed.length * binHz / widthHz);
        return GammaDistribution.of(looks, 1 / looks).inverseSurvivalProbability(chance / independent);
    }
}
