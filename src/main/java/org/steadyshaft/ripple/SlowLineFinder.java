package org.steadyshaft.ripple;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.function.IntToDoubleFunction;
import org.apache.commons.statistics.distribution.GammaDistribution;
import org.hipparchus.optim.MaxEval;
import org.hipparchus.optim.nonlinear.scalar.GoalType;
import org.hipparchus.optim.univariate.BrentOptimizer;
import org.hipparchus.optim.univariate.SearchInterval;
import org.hipparchus.optim.univariate.UnivariateObjectiveFunction;
import org.steadyshaft.numeric.RealTransform;
import org.steadyshaft.numeric.Robust;
import org.steadyshaft.numeric.Turns;
import org.steadyshaft.numeric.Window;
import org.steadyshaft.published.CosineWindow;
import org.steadyshaft.signal.DoubleSeries;
import org.steadyshaft.signal.SpeedTrack;
import org.steadyshaft.signal.Stretch;

/**
 * Finds slow lines in the cycles: the steady stretches are cut into Hann-weighted sections that overlap by half; the averaged power of an
 * evenly resampled copy shows where lines stand clear of the noise, then frequency and amplitude of each come from the cycle values
 * themselves at their own times. A value is a mean over its cycle, which shrinks a line at f by sinc(f / fc); that is made good.
 */
final class SlowLineFinder {
    /** Longest section: 16 s tell lines 0.1 Hz apart; more would smear a mains that wanders. */
    private static final double SECTION_SECONDS = 16;

    /** The slowest lines, below this frequency, are sought in sections of up to so long, if that is clearly longer. */
    private static final double SLOWEST_TO_HZ = 0.25;

    private static final double LONG_SECTION_SECONDS = 160;
    private static final double LEAST_LONGER = 2;

    /** A swing takes so many periods of a section to be told from a wander, and this size to matter: our own figures. */
    private static final int FIRST_LONG_BIN = 8;

    private static final double SMALLEST_SLOWEST_PERCENT = 0.1;

    /** The median of fewer than {@value #FLOOR_BINS} bins may be low by chance: half of what it stands for. */
    private static final double FEW_BINS = 2;

    /** Chance that noise alone shows a line anywhere in one recording's spectrum. */
    private static final double FALSE_LINE_CHANCE = 0.001;

    /** The floor under a line is judged over this share of its frequency to either side, but over 12 bins at least. */
    private static final double FLOOR_REACH = 0.15;

    private static final int FLOOR_BINS = 12;
    private static final int FIRST_BIN = 3;
    private static final int LINE_HALF_WIDTH_BINS = 3;
    private static final int MOST_LINES = 24;

    /** The peak of a line is sought within a bin to either side, in a table of so many steps. */
    private static final int LINE_STEPS = 24;

    private static final int TABLE_POINTS = 12;

    /** Between two bins of a spectrum a line shows by 1.5 dB less at most: what is far too small for a line there need not be looked at. */
    private static final double SURELY = 4;

    /**
     * Smaller lines are left out: against the largest, since filters and resampling leave traces a thousand times
     * smaller, and altogether, since nothing of that size matters to a shaft. Our own figures.
     */
    private static final double SMALLEST_SHARE = 0.003;

    private static final double SMALLEST_PERCENT = 0.005;

    private static final double LIMITED_TO_SIGMA = 3;

    private final double toHz;

    /** Sought somewhat beyond the frequency from which on the waveform tells: a line right there may be seen by one of both only. */
    private static final double OVERLAP = 1.1;

    /** @param toHz lines are sought below this frequency and somewhat beyond; faster ones are in no value any more */
    SlowLineFinder(double toHz) {
        this.toHz = toHz;
    }

    /**
     * What was found.
     *
     * @param tones the lines, largest first
     * @param frequencyHz frequencies of the spectrum
     * @param amplitudePercent amplitude of a line at each
     * @param binHz resolution
     */
    record Found(List<Tone> tones, DoubleSeries frequencyHz, DoubleSeries amplitudePercent, double binHz) {
        static final Found NOTHING = new Found(List.of(), DoubleSeries.EMPTY, DoubleSeries.EMPTY, 0);
    }

    /**
     * A line without a cause.
     *
     * @param hz where it stands
     * @param percent its amplitude
     * @param expandedPercent expanded uncertainty of that, k = 2
     */
    record Tone(double hz, double percent, double expandedPercent) {}

    /** @param leftOut stretches, in order, which count as standing at the mean */
    Found find(SpeedTrack track, List<Stretch> steady, List<Stretch> leftOut) {
        SteadySpeed speed = new SteadySpeed(track, steady);
        leftOut.forEach(event -> speed.level(event.fromSeconds(), event.toSeconds()));
        List<Section> sections = sections(speed, SECTION_SECONDS);
        if (sections.isEmpty()) {
            return Found.NOTHING;
        }
        double seconds = sections.get(0).seconds;
        double cycleHz = speed.meanCycleHz();
        double[] power = averagePower(sections, cycleHz);
        int bins = (int) Math.min(power.length, Math.ceil(OVERLAP * toHz * seconds) + 1);
        double[] hz = new double[bins];
        double[] amplitude = new double[bins];
        for (int k = 0; k < bins; k++) {
            hz[k] = k / seconds;
            amplitude[k] = Math.sqrt(power[k]) / averaging(hz[k] / cycleHz);
        }
        List<Tone> tones = lines(sections, power, k -> floor(power, k), cycleHz, FIRST_BIN, bins);
        List<Section> longer = sections(speed, LONG_SECTION_SECONDS);
        if (!longer.isEmpty() && longer.get(0).seconds >= LEAST_LONGER * seconds) {
            tones = joined(slowest(longer, cycleHz), tones);
        }
        return new Found(tones, DoubleSeries.of(hz), DoubleSeries.of(amplitude), 1 / seconds);
    }

    /** Lines below {@link #SLOWEST_TO_HZ}, from longer sections. */
    private static List<Tone> slowest(List<Section> sections, double cycleHz) {
        double[] power = averagePower(sections, cycleHz);
        int bins = (int) Math.min(power.length, Math.ceil(SLOWEST_TO_HZ * sections.get(0).seconds));
        IntToDoubleFunction floor = k -> (k < FLOOR_BINS + LINE_HALF_WIDTH_BINS ? FEW_BINS : 1) * floor(power, k);
        return lines(sections, power, floor, cycleHz, FIRST_LONG_BIN, bins).stream()
                .filter(t -> t.percent >= SMALLEST_SLOWEST_PERCENT)
                .toList();
    }

    /** Both, largest first; below the frequency up to which the longer sections tell, theirs alone. */
    private static List<Tone> joined(List<Tone> slowest, List<Tone> others) {
        List<Tone> all = new ArrayList<>(slowest);
        others.stream().filter(t -> t.hz >= SLOWEST_TO_HZ).forEach(all::add);
        all.sort((a, b) -> Double.compare(b.percent, a.percent));
        return all;
    }

    /** What the mean over one sample interval leaves of a line at {@code share} of the sample frequency: sinc. */
    static double averaging(double share) {
        return share < 1e-9 ? 1 : Math.sin(Math.PI * share) / (Math.PI * share);
    }

    /** A section: the cycle values of one stretch between two times. */
    static final class Section {
        final double fromSeconds;
        final double seconds;
        final double[] timeSeconds;
        final double[] value;
        final double[] weight;
        private final double[] weighted;

        Section(SteadySpeed.Piece piece, double fromSeconds, double seconds, double limit) {
            this.fromSeconds = fromSeconds;
            this.seconds = seconds;
            int from = piece.firstNotBefore(fromSeconds);
            int to = piece.firstNotBefore(fromSeconds + seconds);
            this.timeSeconds = Arrays.copyOfRange(piece.timeSeconds, from, to);
            this.value = new double[to - from];
            this.weight = new double[to - from];
            double sum = 0;
            double total = 0;
            for (int i = 0; i < value.length; i++) {
                double turn = (timeSeconds[i] - fromSeconds) / seconds;
                weight[i] = piece.leftOut[from + i]
                        ? 0
                        : piece.weightSeconds[from + i] * (0.5 - 0.5 * Math.cos(2 * Math.PI * turn));
                value[i] = Math.max(-limit, Math.min(limit, piece.deviationPercent[from + i]));
                sum += weight[i] * value[i];
                total += weight[i];
            }
            this.weighted = new double[value.length];
            for (int i = 0; i < value.length; i++) {
                value[i] -= sum / total;
                weight[i] /= total;
                weighted[i] = weight[i] * value[i];
            }
        }

        /** Squared amplitude of a line at a frequency, from the values at their own times. */
        double power(double hz) {
            double[] cosine = new double[value.length];
            double[] sine = new double[value.length];
            Turns.of(timeSeconds, 0, value.length, fromSeconds, hz, cosine, sine);
            return power(cosine, sine);
        }

        private double power(double[] cosine, double[] sine) {
            double real = product(weighted, cosine);
            double imaginary = product(weighted, sine);
            return 4 * (real * real + imaginary * imaginary);
        }

        /** Four sums side by side: each waits for its last addition. */
        private static double product(double[] a, double[] b) {
            double first = 0;
            double second = 0;
            double third = 0;
            double fourth = 0;
            int i = 0;
            for (; i + 3 < a.length; i += 4) {
                first += a[i] * b[i];
                second += a[i + 1] * b[i + 1];
                third += a[i + 2] * b[i + 2];
                fourth += a[i + 3] * b[i + 3];
            }
            for (; i < a.length; i++) {
                first += a[i] * b[i];
            }
            return first + second + third + fourth;
        }

        /**
         * Adds the powers at evenly stepped frequencies: from one to the next each angle turns on by its own step, so sine and cosine are
         * computed twice only. The turning loop has no branch and becomes vector code.
         */
        void addPowers(double fromHz, double stepHz, double[] sums) {
            int count = value.length;
            double[] cosine = new double[count];
            double[] sine = new double[count];
            double[] cosineStep = new double[count];
            double[] sineStep = new double[count];
            Turns.of(timeSeconds, 0, count, fromSeconds, fromHz, cosine, sine);
            Turns.of(timeSeconds, 0, count, fromSeconds, stepHz, cosineStep, sineStep);
            for (int k = 0; k < sums.length; k++) {
                sums[k] += power(cosine, sine);
                for (int i = 0; i < count; i++) {
                    double was = cosine[i];
                    cosine[i] = was * cosineStep[i] - sine[i] * sineStep[i];
                    sine[i] = was * sineStep[i] + sine[i] * cosineStep[i];
                }
            }
        }
    }

    private static List<Section> sections(SteadySpeed speed, double most) {
        double longest = speed.pieces().stream()
                .mapToDouble(p -> p.stretch.durationSeconds())
                .max()
                .orElse(0);
        double seconds = Math.min(most, longest);
        List<Section> sections = new ArrayList<>();
        for (SteadySpeed.Piece piece : speed.pieces()) {
            double length = piece.stretch.durationSeconds();
            int steps = (int) Math.floor((length - seconds) / (0.5 * seconds) + 1e-9);
            double limit = LIMITED_TO_SIGMA * Robust.sigma(piece.deviationPercent);
            for (int i = 0; i <= steps; i++) {
                double slack = steps == 0 ? 0 : (length - seconds) / steps;
                sections.add(new Section(piece, piece.stretch.fromSeconds() + i * slack, seconds, limit));
            }
        }
        sections.removeIf(s -> s.value.length < 2 * FLOOR_BINS);
        return sections;
    }

    /** Mean squared amplitude at k / seconds for frequencies up to half the tacho frequency. */
    private static double[] averagePower(List<Section> sections, double cycleHz) {
        double seconds = sections.get(0).seconds;
        int points = RealTransform.powerOfTwoFrom(Math.max(64, seconds * cycleHz));
        RealTransform transform = new RealTransform(points);
        Window window = Window.of(CosineWindow.HANN, points);
        double[] even = new double[points];
        double[] power = new double[points / 2 + 1];
        double[] mean = new double[(int) Math.min(points / 2 + 1, Math.floor(0.5 * cycleHz * seconds) + 1)];
        double scale = 4 / (window.sum() * window.sum() * sections.size());
        for (Section section : sections) {
            resample(section, even);
            window.apply(even.clone(), 0, 0, even);
            transform.forward(even);
            transform.power(even, power);
            for (int k = 0; k < mean.length; k++) {
                mean[k] += scale * power[k];
            }
        }
        return mean;
    }

    /** Values at even times by the cubic through the four nearest cycles. */
    private static void resample(Section section, double[] even) {
        double[] t = section.timeSeconds;
        double[] v = section.value;
        int right = 1;
        for (int i = 0; i < even.length; i++) {
            double at = section.fromSeconds + i * section.seconds / even.length;
            while (right < t.length - 1 && t[right] < at) {
                right++;
            }
            int a = Math.max(0, Math.min(t.length - 4, right - 2));
            double clamped = Math.max(t[0], Math.min(t[t.length - 1], at));
            double sum = 0;
            for (int j = a; j < a + 4; j++) {
                double term = v[j];
                for (int m = a; m < a + 4; m++) {
                    term *= m == j ? 1 : (clamped - t[m]) / (t[j] - t[m]);
                }
                sum += term;
            }
            even[i] = sum;
        }
    }

    /**
     * The noise under a bin: the median beside it, to the left or to the right, whichever is higher, so that the slope
     * of a wander that grows towards low frequencies is not taken for a line.
     */
    private static double floor(double[] power, int bin) {
        int reach = Math.max(FLOOR_BINS, (int) (FLOOR_REACH * bin));
        double left = side(power, bin - LINE_HALF_WIDTH_BINS - reach, bin - LINE_HALF_WIDTH_BINS + 1);
        double right = side(power, bin + LINE_HALF_WIDTH_BINS, bin + LINE_HALF_WIDTH_BINS + reach + 1);
        return Math.max(left, right);
    }

    private static double side(double[] power, int from, int to) {
        int first = Math.max(1, from);
        int end = Math.min(power.length, to);
        return end > first ? Robust.median(Arrays.copyOfRange(power, first, end)) : 0;
    }

    private static List<Tone> lines(
            List<Section> sections, double[] power, IntToDoubleFunction floor, double cycleHz, int firstBin, int bins) {
        double clear = clearOfNoise(sections.size(), power.length);
        List<Integer> peaks = new ArrayList<>();
        for (int k = firstBin; k < Math.min(bins, power.length - 1); k++) {
            if (power[k] > power[k - 1] && power[k] >= power[k + 1] && power[k] > clear * floor.applyAsDouble(k)) {
                peaks.add(k);
            }
        }
        peaks.sort((a, b) -> Double.compare(power[b], power[a]));
        List<Integer> taken = new ArrayList<>();
        List<Tone> lines = new ArrayList<>();
        for (int k : peaks) {
            if (lines.size() < MOST_LINES && taken.stream().noneMatch(other -> hides(power, other, k))) {
                taken.add(k);
                double about = SURELY * Math.sqrt(power[k]) / averaging(k / (2.0 * power.length));
                if (lines.isEmpty() || about >= least(lines.get(0).percent)) {
                    lines.add(line(sections, k, floor.applyAsDouble(k), cycleHz));
                }
            }
        }
        lines.sort((a, b) -> Double.compare(b.percent, a.percent));
        double least = lines.isEmpty() ? 0 : least(lines.get(0).percent);
        lines.removeIf(line -> line.percent < least);
        return lines;
    }

    private static double least(double largestPercent) {
        return Math.max(SMALLEST_PERCENT, SMALLEST_SHARE * largestPercent);
    }

    /** Whether peak k may be a side lobe of a larger one: those of the Hann window fall with the cube of the distance. */
    private static boolean hides(double[] power, int other, int k) {
        double away = Math.abs(other - k);
        double sideLobe = 0.06 * Math.pow(2.5 / away, 3);
        return away < LINE_HALF_WIDTH_BINS || power[k] < sideLobe * sideLobe * power[other];
    }

    /** How many medians of averaged noise power a peak must exceed; overlapping sections count for about two thirds. */
    private static double clearOfNoise(int sections, int bins) {
        double independent = independent(sections);
        GammaDistribution averaged = GammaDistribution.of(independent, 1 / independent);
        return averaged.inverseSurvivalProbability(FALSE_LINE_CHANCE / bins)
                / averaged.inverseCumulativeProbability(0.5);
    }

    /** Sections that overlap by half count for about two thirds each. */
    private static double independent(int sections) {
        return sections == 1 ? 1 : 1 + (sections - 1) * 0.67;
    }

    private static Tone line(List<Section> sections, int peak, double floor, double cycleHz) {
        double binHz = 1 / sections.get(0).seconds;
        double fromHz = (peak - 1.0) * binHz;
        double stepHz = 2 * binHz / LINE_STEPS;
        double[] power = new double[LINE_STEPS + 1];
        sections.forEach(section -> section.addPowers(fromHz, stepHz, power));
        double hz = new BrentOptimizer(1e-9, 1e-6)
                .optimize(
                        GoalType.MAXIMIZE,
                        new UnivariateObjectiveFunction(f -> between(power, (f - fromHz) / stepHz)),
                        new SearchInterval(fromHz, (peak + 1.0) * binHz, peak * binHz),
                        new MaxEval(100))
                .getPoint();
        double squared = Math.max(0, meanPower(sections, hz) - floor);
        double looks = independent(sections.size());
        double scale = averaging(hz / cycleHz);
        return new Tone(hz, Math.sqrt(squared) / scale, 2 * Math.sqrt(0.5 * floor / looks) / scale);
    }

    /**
     * A value between those of an even table: Lagrange's polynomial through its {@value #TABLE_POINTS} neighbours, in barycentric form. A
     * power over frequency is band-limited by the length of its section, and the table has twelve values a bin.
     */
    private static double between(double[] table, double place) {
        int first = (int) Math.floor(place) - TABLE_POINTS / 2 + 1;
        first = Math.max(0, Math.min(table.length - TABLE_POINTS, first));
        double over = 0;
        double under = 0;
        double weight = 1;
        for (int k = 0; k < TABLE_POINTS; k++) {
            double away = place - (first + k);
            if (away == 0) {
                return table[first + k];
            }
            over += weight / away * table[first + k];
            under += weight / away;
            weight *= -(TABLE_POINTS - 1.0 - k) / (k + 1);
        }
        return over / under;
    }

    static double meanPower(List<Section> sections, double hz) {
        return sections.stream().mapToDouble(s -> s.power(hz)).average().orElse(0);
    }
}
