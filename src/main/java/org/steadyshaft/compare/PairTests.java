package org.steadyshaft.compare;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.IdentityHashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import org.steadyshaft.numeric.ConfidenceInterval;
import org.steadyshaft.numeric.DecisionTime;
import org.steadyshaft.numeric.HolmCorrection;
import org.steadyshaft.numeric.MeanEstimate;
import org.steadyshaft.numeric.PoissonRates;
import org.steadyshaft.numeric.TimedError;
import org.steadyshaft.numeric.TwoMeans;

/**
 * Tests every pair of circuits that ran at nearly one speed with one load: ripple, swing, wander and settling by Welch's test on
 * logarithms, blips of one smallest size by the exact test of two Poisson rates, the others by their uncertainties. A difference counts
 * when its chance among equals, after Holm's correction for all tests of the batch, is at most one in twenty.
 */
final class PairTests {
    private static final double CONFIDENCE = 0.95;
    private static final double LEVEL = 0.05;

    /** Nobody records longer than this to decide. */
    private static final double MOST_MINUTES = 600;

    /** A difference below this share of the tightest limit matters to no work. */
    private static final double MATTERS = 0.2;

    private static final List<Measure> OF_SECONDS =
            List.of(Measure.RIPPLE, Measure.SWING, Measure.TWICE_MAINS, Measure.WANDER);

    private final List<Work> works;
    private final List<Test> tests = new ArrayList<>();
    private final List<Difference> unlike = new ArrayList<>();
    private final Set<Group> matched = Collections.newSetFromMap(new IdentityHashMap<>());
    private final List<Group> groups;
    private final List<String> circuits;

    PairTests(List<String> circuits, List<Group> groups, List<Sag> sags, List<Work> works) {
        this.works = works;
        this.groups = groups;
        this.circuits = circuits;
        for (int i = 0; i < circuits.size(); i++) {
            for (int j = i + 1; j < circuits.size(); j++) {
                match(circuits.get(i), circuits.get(j));
                matchSags(of(sags, circuits.get(i)), of(sags, circuits.get(j)));
            }
        }
    }

    /**
     * A test before the correction.
     *
     * @param p its chance among equals
     * @param difference limits of first less second
     */
    private record Test(
            Measure measure,
            String load,
            Difference.Side first,
            Difference.Side second,
            double fromPercent,
            MeanEstimate left,
            MeanEstimate right,
            double leftMinutes,
            double rightMinutes,
            double p,
            ConfidenceInterval difference) {}

    private static List<Sag> of(List<Sag> sags, String circuit) {
        return sags.stream().filter(s -> s.circuit().equals(circuit)).toList();
    }

    private void match(String first, String second) {
        Map<String, List<Group>> byLoad = new LinkedHashMap<>();
        groups.forEach(
                g -> byLoad.computeIfAbsent(g.load(), l -> new ArrayList<>()).add(g));
        byLoad.values()
                .forEach(of -> NearestPairs.of(
                                of.stream()
                                        .filter(g -> g.circuit().equals(first))
                                        .toList(),
                                of.stream()
                                        .filter(g -> g.circuit().equals(second))
                                        .toList(),
                                Group::meanRpm)
                        .forEach(pair -> {
                            matched.add(pair.first());
                            matched.add(pair.second());
                            compare(pair.first(), pair.second());
                        }));
    }

    private void compare(Group first, Group second) {
        OF_SECONDS.forEach(measure -> compare(measure, first, second, 0));
        double smallest =
                Math.max(GroupMeter.smallestBlipPercent(first.runs()), GroupMeter.smallestBlipPercent(second.runs()));
        for (Work work : works) {
            boolean both = work.applies(first) && work.applies(second);
            smallest = both ? Math.max(smallest, work.blipPercent().orElse(0)) : smallest;
        }
        compare(Measure.BLIPS, first, second, smallest);
        if (first.estimate(Measure.SETTLING).isPresent()
                && second.estimate(Measure.SETTLING).isPresent()) {
            compare(Measure.SETTLING, first, second, 0);
        }
        if (hunts(first) && second.estimate(Measure.HUNTING).isPresent()
                || hunts(second) && first.estimate(Measure.HUNTING).isPresent()) {
            compare(Measure.HUNTING, first, second, 0);
        }
    }

    private static boolean hunts(Group group) {
        return group.estimate(Measure.HUNTING).filter(e -> e.value() > 0).isPresent();
    }

    private void compare(Measure measure, Group first, Group second, double fromPercent) {
        Optional<Estimate> a = estimate(measure, first, fromPercent);
        Optional<Estimate> b = estimate(measure, second, fromPercent);
        Difference.Side left = side(first, a);
        Difference.Side right = side(second, b);
        Optional<String> reason = LikeWithLike.reason(measure, first, second);
        if (reason.isPresent()) {
            unlike.add(notComparable(measure, first, left, right, reason.get()));
            return;
        }
        ConfidenceInterval difference = difference(
                new Span(a.get().value(), a.get().low95(), a.get().high95()),
                new Span(b.get().value(), b.get().low95(), b.get().high95()));
        tests.add(new Test(
                measure,
                first.load(),
                left,
                right,
                fromPercent,
                a.get().scaled(),
                b.get().scaled(),
                a.get().minutes(),
                b.get().minutes(),
                pValue(measure, a.get(), b.get()),
                difference));
    }

    private static Optional<Estimate> estimate(Measure measure, Group group, double fromPercent) {
        return measure == Measure.BLIPS ? GroupMeter.blips(group.runs(), fromPercent) : group.estimate(measure);
    }

    private static double pValue(Measure measure, Estimate a, Estimate b) {
        return measure == Measure.BLIPS
                ? new PoissonRates(a.count().orElse(0), a.minutes(), b.count().orElse(0), b.minutes()).pValue()
                : TwoMeans.of(a.scaled(), b.scaled()).pValue();
    }

    private static Difference.Side side(Group group, Optional<Estimate> estimate) {
        return new Difference.Side(group.circuit(), group.meanRpm(), estimate.map(Estimate::value), group.doubtful());
    }

    private static Difference notComparable(
            Measure measure, Group group, Difference.Side first, Difference.Side second, String reason) {
        return new Difference(
                measure,
                group.load(),
                first,
                second,
                0,
                Optional.empty(),
                Optional.empty(),
                Difference.Verdict.NOT_COMPARABLE,
                Optional.empty(),
                reason);
    }

    /** A value and its limits. */
    private record Span(double value, double low, double high) {}

    /**
     * Limits of a difference from those of both sides, which need not be symmetrical: the square root of the sum of squares of the
     * distances to the limits that face each other (G. Y. Zou, A. Donner, Statistics in Medicine 27 (2008) 1693-1702, from memory).
     */
    private static ConfidenceInterval difference(Span a, Span b) {
        double middle = a.value - b.value;
        return new ConfidenceInterval(
                middle - Math.hypot(a.value - a.low, b.high - b.value),
                middle + Math.hypot(a.high - a.value, b.value - b.low),
                CONFIDENCE);
    }

    private void matchSags(List<Sag> firsts, List<Sag> seconds) {
        for (String load : firsts.stream().map(Sag::load).distinct().toList()) {
            NearestPairs.of(
                            firsts.stream().filter(s -> s.load().equals(load)).toList(),
                            seconds.stream().filter(s -> s.load().equals(load)).toList(),
                            Sag::loadedRpm)
                    .forEach(pair -> compare(pair.first(), pair.second()));
        }
    }

    private void compare(Sag first, Sag second) {
        MeanEstimate left = first.estimate();
        MeanEstimate right = second.estimate();
        tests.add(new Test(
                Measure.SAG,
                first.load(),
                side(first),
                side(second),
                0,
                left,
                right,
                0,
                0,
                TwoMeans.of(left, right).pValue(),
                difference(span(first), span(second))));
    }

    private static Difference.Side side(Sag sag) {
        return new Difference.Side(
                sag.circuit(),
                sag.loadedRpm(),
                Optional.of(sag.regulation().percent()),
                sag.runs().stream().filter(r -> r.trust().isDoubtful()).toList());
    }

    private static Span span(Sag sag) {
        return new Span(sag.regulation().percent(), sag.low95(), sag.high95());
    }

    /** The proven differences first, those that matter most at the top. */
    List<Difference> differences() {
        double[] adjusted =
                HolmCorrection.adjusted(tests.stream().mapToDouble(Test::p).toArray());
        List<Difference> differences = new ArrayList<>();
        for (int i = 0; i < adjusted.length; i++) {
            differences.add(difference(tests.get(i), adjusted[i]));
        }
        differences.addAll(unlike);
        differences.sort(Comparator.comparing((Difference d) -> d.better().isEmpty())
                .thenComparing(d -> d.better().isEmpty() ? 0 : -d.shareOfLimit()));
        return differences;
    }

    private Difference difference(Test test, double adjusted) {
        Optional<Double> limit = limit(test);
        boolean decided = adjusted <= LEVEL && test.left.mean() != test.right.mean();
        Optional<String> small = limit.flatMap(most -> tooSmall(test, most, decided));
        Difference.Verdict verdict = small.isPresent()
                ? Difference.Verdict.NO_MATTER
                : decided ? better(test) : Difference.Verdict.UNDECIDED;
        return new Difference(
                test.measure,
                test.load,
                test.first,
                test.second,
                test.fromPercent,
                Optional.of(new Difference.Test(
                        test.difference.low(), test.difference.high(), test.p, Math.max(test.p, adjusted))),
                limit,
                verdict,
                verdict == Difference.Verdict.UNDECIDED ? moreMinutes(test) : Optional.empty(),
                small.orElse(""));
    }

    private static Difference.Verdict better(Test test) {
        return test.left.mean() < test.right.mean()
                ? Difference.Verdict.FIRST_BETTER
                : Difference.Verdict.SECOND_BETTER;
    }

    /** The tightest limit on this measure of the works that both sides ran for. */
    private Optional<Double> limit(Test test) {
        return works.stream()
                .filter(w -> w.applies(test.first.meanRpm(), test.load) && w.applies(test.second.meanRpm(), test.load))
                .flatMap(w -> w.limit(test.measure).stream())
                .min(Comparator.naturalOrder());
    }

    /** Why a difference is too small to matter: proven as it may be, or with limits that leave no larger one. */
    private static Optional<String> tooSmall(Test test, double most, boolean decided) {
        double allowed = MATTERS * most;
        double found =
                Math.abs(test.first.value().orElse(0.0) - test.second.value().orElse(0.0));
        double farthest = Math.max(Math.abs(test.difference.low()), Math.abs(test.difference.high()));
        if (decided ? found < allowed : farthest < allowed) {
            return Optional.of(String.format(
                    Locale.ROOT,
                    "%s less than a fifth of the limit of %s %s",
                    decided ? "proven, but" : "whatever it is, it is",
                    plain(most),
                    test.measure.unit()));
        }
        return Optional.empty();
    }

    private static String plain(double value) {
        return new BigDecimal(value)
                .round(new MathContext(3))
                .stripTrailingZeros()
                .toPlainString();
    }

    /** The level is that of the hardest step of Holm's procedure: a twentieth shared among all tests. */
    private Optional<Double> moreMinutes(Test test) {
        if (!(test.leftMinutes > 0) || !(test.rightMinutes > 0)) {
            return Optional.empty();
        }
        OptionalDouble seconds = new DecisionTime(DecisionTime.sigmas(LEVEL / tests.size()), 60 * MOST_MINUTES)
                .moreSeconds(
                        test.left.mean() - test.right.mean(),
                        new TimedError(test.left.standardError(), 60 * test.leftMinutes),
                        new TimedError(test.right.standardError(), 60 * test.rightMinutes));
        return seconds.isPresent() && seconds.getAsDouble() > 0
                ? Optional.of(seconds.getAsDouble() / 60)
                : Optional.empty();
    }

    /** Groups that no other circuit ran near enough to, with the nearest where there is one. */
    List<Comparison.Unmatched> unmatched() {
        List<Comparison.Unmatched> alone = new ArrayList<>();
        for (Group group : groups) {
            if (circuits.size() > 1 && !matched.contains(group)) {
                String nearest = groups.stream()
                        .filter(g ->
                                g.load().equals(group.load()) && !g.circuit().equals(group.circuit()))
                        .min(Comparator.comparingDouble(g -> Math.abs(Math.log(g.meanRpm() / group.meanRpm()))))
                        .map(g ->
                                String.format(Locale.ROOT, "; the nearest is %s at %.0f rpm", g.circuit(), g.meanRpm()))
                        .orElse("");
                alone.add(new Comparison.Unmatched(
                        group,
                        String.format(
                                Locale.ROOT,
                                "no other circuit ran within %.0f %% of its speed with this load%s",
                                100 * (NearestPairs.MOST_RATIO - 1),
                                nearest)));
            }
        }
        return alone;
    }
}
