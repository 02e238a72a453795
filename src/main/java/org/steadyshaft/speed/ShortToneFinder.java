package org.steadyshaft.speed;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.apache.commons.statistics.distribution.FDistribution;
import org.apache.commons.statistics.distribution.TDistribution;
import org.steadyshaft.numeric.PeriodicFit;
import org.steadyshaft.numeric.PeriodicFit.Model;
import org.steadyshaft.numeric.RealTransform;
import org.steadyshaft.signal.DoubleSeries;

/**
 * Finds the tacho's tone in a record too short for spectra in frames: a few cycles in some hundred to some ten thousand samples. The
 * strongest lines of a padded spectrum are first guesses for sine fits; the best is refined with harmonics, an offset that creeps
 * and an even change of speed, each only where it lessens the residuals beyond chance.
 */
public final class ShortToneFinder {
    /** Fewer cycles than this tell a tone from a creeping offset only by luck. */
    public static final double FEWEST_CYCLES = 3;

    /** A record ends within a cycle: three whole cycles may count a little less by the fit's own uncertainty. */
    private static final double CYCLES_SLACK = 0.05;

    /**
     * What a few cycles cannot show: pick-up of 1 % of the level near the tone, or a swing of the speed by 0.3 % about as slow as the
     * record is long, turns the phase by so many cycles from end to end (standard deviation, measured over 3 to 20 cycles; such pick-up and
     * swings are usual, practice).
     */
    private static final double UNSEEN_CYCLES = 0.0025;

    /** And by so much the fit, which weighs the middle most, then differs from the mean over the record, as a share. */
    private static final double UNSEEN_SHARE = 1.5e-4;

    private static final int FEWEST_SAMPLES = 16;
    private static final int MOST_DEGREE = 2;
    private static final int PADDING = 4;
    private static final int GUESSES = 6;
    private static final int MOST_HARMONICS = 12;

    /** So many harmonics beyond the last that counted are tried: pulses leave out every second or third. */
    private static final int HARMONICS_AHEAD = 3;

    /** Chance of taking a parameter in that nothing supports. */
    private static final double FALSE_TERM = 0.001;

    /** What the fit must explain of the record without what creeps: 6 dB of tone over all the rest. */
    private static final double LEAST_EXPLAINED = 0.8;

    /** A lower tone counts as the fundamental of the strongest from this share of its amplitude on. */
    private static final double LEAST_FUNDAMENTAL = 0.25;

    /** The strongest line may be this harmonic of the tone, or one below. */
    private static final int LOWEST_PART = 3;

    /** Samples a cycle below which a sine is no more than guessed. */
    private static final double FEWEST_SAMPLES_A_CYCLE = 3;

    private final double rateHz;
    private final double step;

    /**
     * @param rateHz samples a second
     * @param step distance of neighbouring values of the recorder, in the unit of the samples; 0 where unknown
     */
    public ShortToneFinder(double rateHz, double step) {
        if (!(rateHz > 0) || !(step >= 0)) {
            throw new IllegalArgumentException(rateHz + " samples a second in steps of " + step);
        }
        this.rateHz = rateHz;
        this.step = step;
    }

    /**
     * Looks for a tone of few cycles in a whole record. Where the strongest line stands so high that its third is above the limit,
     * with a constant offset and with one that creeps, there can be none, and nothing is fitted.
     *
     * @param mostCycles more cycles than this are not asked for
     */
    public Optional<ShortTone> find(double[] values, double mostCycles) {
        double[] centred = PeriodicFit.withoutMean(values);
        double all = Arrays.stream(centred).map(v -> v * v).sum();
        if (values.length < FEWEST_SAMPLES || all == 0) {
            return Optional.of(new ShortTone.NoTone(0));
        }
        PaddedSpectrum level = new PaddedSpectrum(centred);
        PaddedSpectrum creeping = new PaddedSpectrum(PeriodicFit.withoutParabola(centred));
        double least = (mostCycles + 1) * LOWEST_PART / seconds(values);
        return level.strongestHz() > least && creeping.strongestHz() > least
                ? Optional.empty()
                : Optional.of(find(values, centred, level, creeping));
    }

    /** Looks for a tone in a whole record; cost grows as samples times harmonics squared, a few milliseconds for 2,500. */
    public ShortTone find(double[] values) {
        return find(values, Double.POSITIVE_INFINITY).orElseThrow();
    }

    private ShortTone find(double[] values, double[] centred, PaddedSpectrum level, PaddedSpectrum creeping) {
        Optional<PeriodicFit> first = strongest(centred, level, 0);
        // an offset that creeps by more than the tone is high would pass for a slower tone
        Optional<PeriodicFit> beside = strongest(centred, creeping, MOST_DEGREE)
                .filter(f -> f.frequencyHz() * seconds(values) >= FEWEST_CYCLES);
        if (beside.isPresent() && (first.isEmpty() || betters(first.get(), beside.get()))) {
            first = beside;
        }
        if (first.isEmpty()) {
            return new ShortTone.NoTone(0);
        }
        PeriodicFit fit = refined(centred, lowered(centred, first.get()));
        double cycles = fit.frequencyHz() * seconds(values);
        double explained = explained(centred, fit);
        if (explained < LEAST_EXPLAINED) {
            return new ShortTone.NoTone(Math.max(0, explained));
        }
        if (cycles < FEWEST_CYCLES - CYCLES_SLACK) {
            return new ShortTone.TooFewCycles(cycles);
        }
        return found(values, fit, cycles);
    }

    private ShortTone found(double[] values, PeriodicFit fit, double cycles) {
        return new ShortTone.Found(
                fit.frequencyHz(),
                fit.standardErrorHz(step / Math.sqrt(12)),
                Math.hypot(UNSEEN_CYCLES / seconds(values), UNSEEN_SHARE * fit.frequencyHz()),
                cycles,
                fit.amplitude(1),
                Math.sqrt(fit.variance()),
                risings(values.length, fit),
                fit.model().changing() ? Optional.of(fit.changeHzPerSecond()) : Optional.empty());
    }

    /** Every rising passage in the record. */
    private DoubleSeries risings(int count, PeriodicFit fit) {
        double middle = 0.5 * (count - 1) / rateHz;
        double half = 0.5 * rateHz / fit.frequencyHz();
        int most = (int) Math.ceil(fit.frequencyHz() * count / rateHz);
        DoubleSeries.Builder risings = new DoubleSeries.Builder();
        double before = Double.NEGATIVE_INFINITY;
        for (int cycle = -most; cycle <= most; cycle++) {
            double at = (middle + fit.risingSeconds(cycle)) * rateHz;
            if (at >= 0 && at <= count - 1.0) {
                int from = (int) Math.max(0, Math.ceil(at - half));
                int to = (int) Math.min(count, Math.ceil(at + half));
                double late = at / rateHz + fit.delaySeconds(from, to);
                if (late > before) {
                    risings.add(late);
                    before = late;
                }
            }
        }
        return risings.build();
    }

    private double seconds(double[] values) {
        return values.length / rateHz;
    }

    /** The single sine that leaves least beside a polynomial, from the strongest lines of the spectrum without that. */
    private Optional<PeriodicFit> strongest(double[] values, PaddedSpectrum spectrum, int degree) {
        return spectrum.peaks().stream()
                .sorted(Comparator.comparingDouble(k -> -spectrum.power[k]))
                .limit(GUESSES)
                .flatMap(k -> fit(values, k * spectrum.binHz, new Model(1, degree, false)).stream())
                .min(Comparator.comparingDouble(PeriodicFit::squares));
    }

    /** Power of a record. */
    private final class PaddedSpectrum {
        private final double[] power;
        private final double binHz;
        private final int first;

        PaddedSpectrum(double[] values) {
            int length = RealTransform.powerOfTwoFrom(PADDING * values.length);
            double[] padded = Arrays.copyOf(values, length);
            RealTransform transform = new RealTransform(length);
            transform.forward(padded);
            power = new double[length / 2 + 1];
            transform.power(padded, power);
            binHz = rateHz / length;
            first = Math.max(2, (int) (0.7 / seconds(values) / binHz));
        }

        /** Frequency of the strongest line; 0 where there is none. */
        double strongestHz() {
            return peaks().stream()
                    .max(Comparator.comparingDouble(k -> power[k]))
                    .map(k -> k * binHz)
                    .orElse(0.0);
        }

        /** Bins of the local maxima. */
        List<Integer> peaks() {
            int last = (int) Math.min(power.length - 2.0, rateHz / FEWEST_SAMPLES_A_CYCLE / binHz);
            List<Integer> peaks = new ArrayList<>();
            for (int k = first; k <= last; k++) {
                if (power[k] >= power[k - 1] && power[k] > power[k + 1]) {
                    peaks.add(k);
                }
            }
            return peaks;
        }
    }

    private Optional<PeriodicFit> fit(double[] values, double hz, Model model) {
        return PeriodicFit.of(values, rateHz, hz, model)
                .filter(f -> Math.abs(f.frequencyHz() - hz) * seconds(values) < 1);
    }

    /** Half or a third of the frequency, where a tone there is strong and the higher one fits as its harmonic. */
    private PeriodicFit lowered(double[] values, PeriodicFit sine) {
        for (int part = 2; part <= LOWEST_PART; part++) {
            double hz = sine.frequencyHz() / part;
            Optional<PeriodicFit> lower = hz * seconds(values) < FEWEST_CYCLES - CYCLES_SLACK
                    ? Optional.empty()
                    : fit(values, hz, new Model(part + 1, sine.model().degree(), false));
            boolean strong = lower.isPresent()
                    && lower.get().amplitude(1)
                            > LEAST_FUNDAMENTAL * lower.get().amplitude(part)
                    && betters(sine, lower.get());
            if (strong) {
                return lower.get();
            }
        }
        return sine;
    }

    /** Takes in what lessens the residuals beyond chance: what creeps, harmonics one by one, a change of speed. */
    private PeriodicFit refined(double[] values, PeriodicFit start) {
        PeriodicFit best = start;
        for (int round = 0; round < 2; round++) {
            for (int degree = best.model().degree() + 1; degree <= MOST_DEGREE; degree++) {
                best = better(
                        values,
                        best,
                        new Model(best.model().harmonics(), degree, best.model().changing()));
            }
            int last = Math.min(MOST_HARMONICS, best.model().harmonics() + HARMONICS_AHEAD);
            for (int h = best.model().harmonics() + 1; h <= last; h++) {
                best = better(
                        values,
                        best,
                        new Model(h, best.model().degree(), best.model().changing()));
            }
        }
        if (best.model().changing()) {
            return best;
        }
        Model changing = new Model(best.model().harmonics(), best.model().degree(), true);
        Optional<PeriodicFit> other = fit(values, best.frequencyHz(), changing);
        double limit = TDistribution.of(values.length - changing.size()).inverseSurvivalProbability(0.5 * FALSE_TERM);
        boolean clear = other.isPresent()
                && Math.abs(other.get().changeHzPerSecond())
                        > limit * other.get().changeErrorHzPerSecond();
        return clear ? other.get() : best;
    }

    private PeriodicFit better(double[] values, PeriodicFit best, Model model) {
        return fit(values, best.frequencyHz(), model)
                .filter(f -> betters(best, f))
                .orElse(best);
    }

    /** F-test of the added parameters (ratio of residual variances, normal residuals). */
    private static boolean betters(PeriodicFit smaller, PeriodicFit larger) {
        int added = larger.model().size() - smaller.model().size();
        double gain = (smaller.squares() - larger.squares()) / added;
        double freedom = larger.squares() / larger.variance();
        return gain > 0
                && FDistribution.of(added, Math.max(1, freedom))
                                .survivalProbability(gain / Math.max(Double.MIN_NORMAL, larger.variance()))
                        < FALSE_TERM;
    }

    /** Share of the variance, without what creeps, that the tone and its harmonics explain. */
    private static double explained(double[] values, PeriodicFit fit) {
        double tone = 0;
        for (int h = 1; h <= fit.model().harmonics(); h++) {
            tone += 0.5 * fit.amplitude(h) * fit.amplitude(h) * values.length;
        }
        return tone / (tone + fit.squares());
    }
}
