package org.steadyshaft.compare;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.steadyshaft.analysis.CaptureLabel;
import org.steadyshaft.blip.BlipCause;
import org.steadyshaft.ripple.Hunting;
import org.steadyshaft.ripple.Untold;
import org.steadyshaft.signal.FindingCode;
import org.steadyshaft.signal.Grade;
import org.steadyshaft.stability.Alarm;

/** What is matched, what is compared, what is not and why; and what a limit says of a circuit. */
class LikeWithLikeTest {
    private final Random random = MadeRuns.random(5);

    private Run run(String name, String circuit, String load, double rpm) {
        return new MadeRuns(0.2, 0.05, 0, 0.3, 0, 0).run(name, MadeRuns.label(circuit, "mid", load), rpm, 130, random);
    }

    /** The same run with other parts; what is left out stays. */
    private static Run with(
            Run run, Run.Trust trust, Run.Jumps jumps, Optional<Run.Hunts> hunting, List<Double> steps) {
        return new Run(
                run.name(),
                run.label(),
                trust,
                run.meanRpm(),
                run.dataRpm(),
                run.blocks(),
                run.ripple(),
                run.lines(),
                jumps,
                hunting,
                Optional.of(true),
                steps,
                run.trace(),
                run.spectrum());
    }

    private static Comparison compare(Run... runs) {
        return new Comparer(LimitsReader.startingPoints(), false).compare(List.of(runs));
    }

    private static List<Difference> of(Comparison comparison, Measure measure) {
        return comparison.differences().stream()
                .filter(d -> d.measure() == measure)
                .toList();
    }

    @Test
    void speedsOnBothSidesOfAnOldEdgeAndLoadsInOtherWordsAreMatched() {
        Comparison comparison = compare(
                run("a", "RC and diac", "none", 560),
                run("b", "pulses", "", 564),
                run("c", "rc and  diac", "No load", 561));

        assertEquals(List.of("RC and diac", "pulses"), comparison.circuits());
        assertEquals(2, comparison.groups().size());
        assertEquals(1, of(comparison, Measure.RIPPLE).size());
        assertTrue(comparison.unmatched().isEmpty());
    }

    @Test
    void whatRanAtOtherSpeedsIsComparedWithNothing() {
        Comparison comparison = compare(run("a", "rc", "none", 600), run("b", "pulses", "none", 800));

        assertTrue(comparison.differences().isEmpty());
        assertEquals(2, comparison.unmatched().size());
        assertTrue(comparison.unmatched().get(0).reason().contains("the nearest is pulses at 800 rpm"));
    }

    @Test
    void doubtfulRecordingsAreLeftOutWhereThereAreBetterOnes() {
        Run.Trust doubtful = new Run.Trust(Grade.DOUBTFUL, List.of(FindingCode.CLIPPED), List.of());
        Run bad = MadeRuns.withTrust(run("bad", "rc", "none", 600), doubtful);
        Group both = compare(run("good", "rc", "none", 601), bad).groups().get(0);
        assertEquals(List.of("good"), both.runs().stream().map(Run::name).toList());
        assertEquals(List.of("bad"), both.leftOut().stream().map(Run::name).toList());

        Comparison alone = compare(bad, run("other", "pulses", "none", 600));
        assertEquals(
                List.of(bad.name()),
                alone.groups().get(0).doubtful().stream().map(Run::name).toList());
        Difference ripple = of(alone, Measure.RIPPLE).get(0);
        assertEquals(
                1, ripple.first().doubtful().size() + ripple.second().doubtful().size());
        assertEquals(
                Holding.MOSTLY,
                alone.holding(alone.works().get(0), alone.groups().get(0)),
                "not on doubtful ones");
    }

    private static Run.Jumps jumps(double smallest, double... percent) {
        List<Run.Jump> jumps = new ArrayList<>();
        for (double p : percent) {
            jumps.add(new Run.Jump(p, BlipCause.EXTRA_CONDUCTION));
        }
        return new Run.Jumps(jumps, 2, smallest);
    }

    /** A quiet recording shows blips that a noisy one cannot: only those that both show are counted. */
    @Test
    void blipsAreComparedAboveOneSize() {
        Run quiet = run("q", "rc", "none", 600);
        quiet = with(
                quiet,
                Run.Trust.WHOLE,
                jumps(0.2, 0.5, 0.6, -0.7, 0.8, 0.6, 0.5, 0.9, 0.7, 3),
                Optional.empty(),
                List.of());
        Run noisy = run("n", "pulses", "none", 600);
        noisy = with(noisy, Run.Trust.WHOLE, jumps(1.0, 2.5), Optional.empty(), List.of());

        Difference blips = of(compare(quiet, noisy), Measure.BLIPS).get(0);

        assertEquals(1.3, blips.fromPercent(), 1e-9);
        assertEquals(Optional.of(0.5), blips.first().value());
        assertEquals(Optional.of(0.5), blips.second().value());
        assertTrue(blips.better().isEmpty());
    }

    @Test
    void aLimitForBlipsFromASizeOnIsNotMetByARecordingThatDoesNotShowThem() {
        Work work = new Work(
                "w",
                "w",
                400,
                900,
                List.of(),
                Map.of(Measure.BLIPS, 5.0),
                OptionalDouble.of(0.5),
                OptionalDouble.empty());
        Run noisy = with(run("n", "rc", "none", 600), Run.Trust.WHOLE, jumps(1.0), Optional.empty(), List.of());
        Run quiet = with(
                run("q", "pulses", "none", 600), Run.Trust.WHOLE, jumps(0.2, 0.3, 0.3), Optional.empty(), List.of());

        List<WorkCheck> checks =
                new Comparer(List.of(work), true).compare(List.of(noisy, quiet)).checks();

        assertEquals(WorkCheck.Status.NOT_PROVEN, checks.get(0).status());
        assertTrue(
                checks.get(0).reason().contains("only those above 1.3 % show surely"),
                checks.get(0).reason());
        assertEquals(WorkCheck.Status.PASS, checks.get(1).status(), "blips below the size do not count");
    }

    /** Nothing was recorded of sag and settling: that is no pass, and it is told. */
    @Test
    void whatWasNotRecordedIsNoPass() {
        Comparison comparison = compare(run("a", "rc", "none", 600));
        List<WorkCheck> open = comparison.checks().stream()
                .filter(c -> c.work().name().equals("throwing-clay") && c.status() == WorkCheck.Status.NOT_RECORDED)
                .toList();
        assertEquals(
                List.of(Measure.SAG, Measure.SETTLING),
                open.stream().map(WorkCheck::measure).toList());
        Standing standing = comparison.standings().get(0);
        assertEquals(Holding.HOLDS, standing.holding(), "what was recorded holds");
        assertEquals(2, standing.with(WorkCheck.Status.NOT_RECORDED).size());
    }

    @Test
    void aCircuitThatRanAwayDoesNotHoldWhateverItsFigures() {
        Run away = MadeRuns.withTrust(
                run("a", "rc", "none", 600), new Run.Trust(Grade.GOOD, List.of(), List.of(Alarm.Code.RUNAWAY)));
        Comparison comparison = compare(away);
        assertEquals(
                Holding.DOES_NOT,
                comparison.holding(
                        comparison.works().get(0), comparison.groups().get(0)));
    }

    /** One step tells nothing of the next; of three the mean has limits. Worked by hand: logarithms of 1, 2, 4 have mean ln 2. */
    @Test
    void settlingTimesHaveLimitsFromHowTheyScatter() {
        Run one = with(
                run("a", "rc", "none", 600), Run.Trust.WHOLE, Run.Jumps.NOT_LOOKED_FOR, Optional.empty(), List.of(1.0));
        Run three = with(
                run("b", "pulses", "none", 600),
                Run.Trust.WHOLE,
                Run.Jumps.NOT_LOOKED_FOR,
                Optional.empty(),
                List.of(1.0, 2.0, 4.0));
        Comparison comparison = compare(one, three);
        assertFalse(comparison
                .groups()
                .get(0)
                .estimate(Measure.SETTLING)
                .orElseThrow()
                .hasInterval());
        Estimate told = comparison.groups().get(1).estimate(Measure.SETTLING).orElseThrow();
        assertEquals(2, told.value(), 1e-12);
        // t of 2 degrees 4.302653 (printed tables, from memory) times ln 2 / sqrt 3
        assertEquals(2 * Math.exp(4.302653 * Math.log(2) / Math.sqrt(3)), told.high95(), 1e-5);
        assertEquals(
                Difference.Verdict.NOT_COMPARABLE,
                of(comparison, Measure.SETTLING).get(0).verdict());
    }

    @Test
    void huntingOfOneLoopAgainstNoneOfTheOtherIsTested() {
        Run hunts = with(
                run("a", "loop", "none", 600),
                Run.Trust.WHOLE,
                Run.Jumps.NOT_LOOKED_FOR,
                Optional.of(new Run.Hunts(1, 4, 0.2, Hunting.Trend.SUSTAINED)),
                List.of());
        Run calm = with(
                run("b", "better loop", "none", 600),
                Run.Trust.WHOLE,
                Run.Jumps.NOT_LOOKED_FOR,
                Optional.empty(),
                List.of());

        Difference hunting = of(compare(hunts, calm), Measure.HUNTING).get(0);

        assertEquals("better loop", hunting.better().orElseThrow().circuit());
        assertTrue(
                of(compare(calm, run("c", "rc", "none", 600)), Measure.HUNTING).isEmpty(), "nothing hunts");
    }

    @Test
    void aLineThatOneSideCannotTellIsNotCompared() {
        Run whole = run("a", "rc", "none", 600);
        Run made = run("b", "pulses", "none", 600);
        Run.RippleLines lines = made.ripple().orElseThrow();
        Run untold = new Run(
                made.name(),
                made.label(),
                made.trust(),
                made.meanRpm(),
                made.dataRpm(),
                made.blocks(),
                Optional.of(new Run.RippleLines(
                        lines.bandFromHz(),
                        lines.bandToHz(),
                        lines.rmsPercent(),
                        lines.expandedPercent(),
                        Run.MainsLine.untold(Untold.Why.SHAFT_ORDER),
                        lines.mains())),
                made.lines(),
                made.jumps(),
                made.hunting(),
                made.loop(),
                made.settlingSeconds(),
                made.trace(),
                made.spectrum());
        Comparison comparison = compare(whole, untold);
        for (Measure measure : List.of(Measure.RIPPLE, Measure.SWING, Measure.TWICE_MAINS)) {
            Difference d = of(comparison, measure).get(0);
            assertEquals(Difference.Verdict.NOT_COMPARABLE, d.verdict(), measure.word());
            assertTrue(d.reason().contains("the tacho's own pattern stands there"), d.reason());
        }
        assertEquals(
                Difference.Verdict.NO_MATTER,
                of(comparison, Measure.WANDER).get(0).verdict());
    }

    /** Proven or not: what is bounded to less than a fifth of the limit does not matter. */
    @Test
    void smallDifferencesDoNotMatter() {
        Comparison comparison = compare(run("a", "rc", "none", 600), run("b", "pulses", "none", 600));
        Difference ripple = of(comparison, Measure.RIPPLE).get(0);
        assertEquals(Optional.of(0.5), ripple.limit());
        assertEquals(Difference.Verdict.NO_MATTER, ripple.verdict(), ripple.toString());
        assertTrue(Math.max(
                        -ripple.outcome().orElseThrow().low95(),
                        ripple.outcome().orElseThrow().high95())
                < 0.1);
    }

    /** One run each: the sag is no better known than such drives repeat. Worked by hand: 1500 to 1000 rpm, 1 % each. */
    @Test
    void aSagOfOneRunEachHoldsHowWellSpeedsRepeat() {
        CaptureLabel label = MadeRuns.label("rc", "knob 3", "none");
        MadeRuns made = new MadeRuns(0.2, 0.05, 0, 0.3, 0, 0);
        Sag sag = compare(
                        made.run("l", label, 1500, 60, random),
                        made.run("c", MadeRuns.label("rc", "Knob  3", "2 kg clay"), 1000, 60, random))
                .sags()
                .get(0);
        assertEquals(50, sag.regulation().percent(), 1e-9);
        double error = 150 * Math.hypot(0.01, 0.01) * Math.hypot(1, 0.1);
        assertEquals(50 - 1.959964 * error, sag.low95(), 0.01 * error);
    }
}
