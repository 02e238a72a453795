package org.steadyshaft.compare;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
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

    private static final List<Measure> TESTED = List.of(Measure.RIPPLE, Measure.SWING, Measure.WANDER);

    private final List<Group> groups;
    private final List<Sag> sags;

    PairTests(List<Group> groups, List<Sag> sags) {
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
        for (int i = 0; i < groups.size(); i++) {
            for (int j = i + 1; j < groups.size(); j++) {
                Group first = groups.get(i);
                Group second = groups.get(j);
                if (first.band().equals(second.band()) && first.load().equals(second.load())) {
                    addTests(first, second, tests);
                }
            }
        }
        double[] adjusted =
                HolmCorrection.adjusted(tests.stream().mapToDouble(Test::p).toArray());
        List<Difference> differences = new ArrayList<>();
        for (int i = 0; i < adjusted.length; i++) {
            differences.add(difference(tests.get(i), adjusted[i], tests.size()));
        }
        differences.sort(Comparator.comparing(d -> d.verdict() == Difference.Verdict.UNDECIDED));
        return differences;
    }

    private void addTests(Group first, Group second, List<Test> tests) {
        for (Measure measure : TESTED) {
            Optional<Estimate> a = first.estimate(measure);
            Optional<Estimate> b = second.estimate(measure);
            if (a.isPresent() && b.isPresent()) {
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

    private static Difference difference(Test test, double adjusted, int all) {
        boolean decided = adjusted <= LEVEL && test.left.mean() != test.right.mean();
        Difference.Verdict verdict = !decided
                ? Difference.Verdict.UNDECIDED
                : test.left.mean() < test.right.mean()
                        ? Difference.Verdict.FIRST_BETTER
                        : Difference.Verdict.SECOND_BETTER;
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
                decided ? Optional.empty() : moreMinutes(test, all));
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
