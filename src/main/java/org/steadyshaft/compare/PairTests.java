package org.steadyshaft.compare;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import org.steadyshaft.numeric.DecisionTime;
import org.steadyshaft.numeric.HolmCorrection;
import org.steadyshaft.numeric.MeanEstimate;
import org.steadyshaft.numeric.PoissonRates;
import org.steadyshaft.numeric.TimedError;
import org.steadyshaft.numeric.TwoMeans;

/**
 * Tests every pair of circuits that ran in the same band with the same load: ripple, swing and wander by Welch's test on
 * logarithms, blips by the exact test of two Poisson rates, sag by its uncertainties. A difference counts when its chance among equals,
 * after Holm's correction for all tests of the batch, is at most one in twenty.
 */
final class PairTests {
    private static final double LEVEL = 0.05;

    /** Nobody records longer than this to decide. */
    private static final double MOST_MINUTES = 600;

    private static final List<Measure> TESTED =
            List.of(Measure.RIPPLE, Measure.SWING, Measure.TWICE_MAINS, Measure.WANDER);

    /** What holds the lines of the mains, and is comparable only where both sides tell them. */
    private static final Set<Measure> WITH_LINES = Set.of(Measure.RIPPLE, Measure.SWING);

    /** What slow swings take part in, which a short record or one full of jumps does not tell. */
    private static final Set<Measure> SLOW = Set.of(Measure.RIPPLE, Measure.WANDER);

    /** Bands that begin within this ratio of each other are one. */
    private static final double ONE_BEGIN = 4;

    /** Bands within this factor are one: nothing of size stands at their upper ends. */
    private static final double ONE_BAND = 1.1;

    /** A difference below this share of the tightest limit matters to no work. */
    private static final double MATTERS = 0.2;

    private final List<Group> groups;
    private final List<Sag> sags;
    private final List<Work> works;

    PairTests(List<Group> groups, List<Sag> sags, List<Work> works) {
        this.works = works;
        this.groups = groups;
        this.sags = sags;
    }

    /** A test before the correction: the difference on the tested scale, what it is made of and its p-value. */
    private record Test(
            Measure measure,
            Group first,
            Group second,
            double a,
            double b,
            MeanEstimate left,
            MeanEstimate right,
            double p) {}

    List<Difference> differences() {
        List<Test> tests = new ArrayList<>();
        List<Difference> unlike = new ArrayList<>();
        for (int i = 0; i < groups.size(); i++) {
            for (int j = i + 1; j < groups.size(); j++) {
                Group first = groups.get(i);
                Group second = groups.get(j);
                if (first.band().equals(second.band()) && first.load().equals(second.load())) {
                    addTests(first, second, tests, unlike);
                }
            }
        }
        double[] adjusted =
                HolmCorrection.adjusted(tests.stream().mapToDouble(Test::p).toArray());
        List<Difference> differences = new ArrayList<>();
        for (int i = 0; i < adjusted.length; i++) {
            differences.add(difference(tests.get(i), adjusted[i], tests.size()));
        }
        differences.addAll(unlike);
        differences.sort(Comparator.comparing(d -> d.better().isEmpty()));
        return differences;
    }

    private void addTests(Group first, Group second, List<Test> tests, List<Difference> unlike) {
        for (Measure measure : TESTED) {
            Optional<Estimate> a = first.estimate(measure);
            Optional<Estimate> b = second.estimate(measure);
            Optional<String> reason = unlike(measure, first, second);
            if (reason.isPresent()) {
                unlike.add(notComparable(measure, first, second, reason.get()));
            } else if (a.isPresent() && b.isPresent()) {
                MeanEstimate left = a.get().scaled();
                MeanEstimate right = b.get().scaled();
                double p = TwoMeans.of(left, right).pValue();
                tests.add(new Test(
                        measure, first, second, a.get().value(), b.get().value(), left, right, p));
            }
        }
        Optional<Estimate> a = first.estimate(Measure.BLIPS);
        Optional<Estimate> b = second.estimate(Measure.BLIPS);
        if (a.isPresent() && b.isPresent()) {
            double p = new PoissonRates(
                            a.get().count().orElse(0),
                            a.get().minutes(),
                            b.get().count().orElse(0),
                            b.get().minutes())
                    .pValue();
            tests.add(new Test(
                    Measure.BLIPS,
                    first,
                    second,
                    a.get().value(),
                    b.get().value(),
                    a.get().scaled(),
                    b.get().scaled(),
                    p));
        }
        sag(first, second, tests);
    }

    /** Why two groups do not mean the same by a measure. */
    private static Optional<String> unlike(Measure measure, Group first, Group second) {
        if (SLOW.contains(measure)) {
            double shorter = Math.max(first.bandFromHz(), second.bandFromHz());
            double longer = Math.min(first.bandFromHz(), second.bandFromHz());
            if (shorter > ONE_BEGIN * longer) {
                return Optional.of(String.format(
                        Locale.ROOT, "one tells swings from %.2g Hz on, the other from %.2g Hz on", shorter, longer));
            }
        }
        if (!WITH_LINES.contains(measure) && measure != Measure.TWICE_MAINS) {
            return Optional.empty();
        }
        if (first.estimate(Measure.RIPPLE).isEmpty()
                || second.estimate(Measure.RIPPLE).isEmpty()) {
            return Optional.empty();
        }
        boolean bothTell = first.estimate(Measure.TWICE_MAINS).isPresent()
                && second.estimate(Measure.TWICE_MAINS).isPresent();
        if (measure == Measure.TWICE_MAINS) {
            return bothTell ? Optional.empty() : first.untold().or(second::untold);
        }
        double low = Math.min(first.bandToHz(), second.bandToHz());
        double high = Math.max(first.bandToHz(), second.bandToHz());
        return first.untold()
                .or(second::untold)
                .or(() -> high > ONE_BAND * low
                        ? Optional.of(String.format(
                                Locale.ROOT, "one is seen up to %.0f Hz, the other up to %.0f Hz", low, high))
                        : Optional.empty());
    }

    private static Difference notComparable(Measure measure, Group first, Group second, String reason) {
        return new Difference(
                measure,
                first.band(),
                first.load(),
                first.circuit(),
                second.circuit(),
                first.estimate(measure).map(Estimate::value).orElse(0.0),
                second.estimate(measure).map(Estimate::value).orElse(0.0),
                1,
                Difference.Verdict.NOT_COMPARABLE,
                Optional.empty(),
                reason);
    }

    /** Whether a proven difference is too small to matter to any work that the circuits ran for. */
    private boolean isTooSmall(Test test) {
        double tightest = Double.POSITIVE_INFINITY;
        for (Work work : works) {
            boolean ran = work.applies(test.first.meanRpm(), test.first.load());
            tightest = ran ? Math.min(tightest, work.most().getOrDefault(test.measure, tightest)) : tightest;
        }
        return Math.abs(test.a - test.b) < MATTERS * tightest && Double.isFinite(tightest);
    }

    private void sag(Group first, Group second, List<Test> tests) {
        Optional<Sag> a = Comparer.sagOf(sags, first.circuit(), first.band(), first.load());
        Optional<Sag> b = Comparer.sagOf(sags, second.circuit(), second.band(), second.load());
        if (a.isPresent() && b.isPresent()) {
            MeanEstimate left = a.get().estimate();
            MeanEstimate right = b.get().estimate();
            double p = TwoMeans.of(left, right).pValue();
            tests.add(new Test(Measure.SAG, first, second, left.mean(), right.mean(), left, right, p));
        }
    }

    private Difference difference(Test test, double adjusted, int all) {
        boolean decided = adjusted <= LEVEL && test.left.mean() != test.right.mean();
        Difference.Verdict verdict = !decided
                ? Difference.Verdict.UNDECIDED
                : isTooSmall(test) ? Difference.Verdict.NO_MATTER : better(test);
        return new Difference(
                test.measure,
                test.first.band(),
                test.first.load(),
                test.first.circuit(),
                test.second.circuit(),
                test.a,
                test.b,
                adjusted,
                verdict,
                decided ? Optional.empty() : moreMinutes(test, all),
                "");
    }

    private static Difference.Verdict better(Test test) {
        return test.left.mean() < test.right.mean()
                ? Difference.Verdict.FIRST_BETTER
                : Difference.Verdict.SECOND_BETTER;
    }

    /** The level is that of the hardest step of Holm's procedure: a twentieth shared among all tests. */
    private static Optional<Double> moreMinutes(Test test, int all) {
        Optional<Estimate> a = test.first.estimate(test.measure);
        Optional<Estimate> b = test.second.estimate(test.measure);
        if (a.isEmpty() || b.isEmpty() || !(a.get().minutes() > 0) || !(b.get().minutes() > 0)) {
            return Optional.empty();
        }
        OptionalDouble seconds = new DecisionTime(DecisionTime.sigmas(LEVEL / all), 60 * MOST_MINUTES)
                .moreSeconds(
                        test.left.mean() - test.right.mean(),
                        new TimedError(test.left.standardError(), 60 * a.get().minutes()),
                        new TimedError(test.right.standardError(), 60 * b.get().minutes()));
        return seconds.isPresent() && seconds.getAsDouble() > 0
                ? Optional.of(seconds.getAsDouble() / 60)
                : Optional.empty();
    }
}
