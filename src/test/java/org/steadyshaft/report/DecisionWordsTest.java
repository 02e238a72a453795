package org.steadyshaft.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.steadyshaft.compare.Comparer;
import org.steadyshaft.compare.Comparison;
import org.steadyshaft.compare.LimitsReader;
import org.steadyshaft.compare.MadeRuns;
import org.steadyshaft.compare.Run;
import org.steadyshaft.signal.Grade;
import org.steadyshaft.stability.Alarm;

/** What the comparison page tells the reader to do. */
class DecisionWordsTest {
    private final Random random = MadeRuns.random(3);

    private Run run(String name, String circuit, String setting, double ripplePercent, double rpm) {
        return new MadeRuns(ripplePercent, 0.05, 0, 0.3, 0, 0)
                .run(name, MadeRuns.label(circuit, setting, "none"), rpm, 130, random);
    }

    private static Comparison compare(List<Run> runs) {
        return new Comparer(LimitsReader.startingPoints(), false).compare(runs);
    }

    private static List<DecisionWords.Point> part(Comparison comparison, String label) {
        return new DecisionWords(comparison)
                .parts().stream()
                        .filter(p -> p.label().equals(label))
                        .flatMap(p -> p.points().stream())
                        .toList();
    }

    /** All its figures lie within their limits: what to change next is asked for by the alarm alone. */
    @ParameterizedTest
    @EnumSource(
            value = Alarm.Code.class,
            names = {"RUNAWAY", "OVERSPEED"})
    void whatRanTooFastIsToBeMendedFirst(Alarm.Code code) {
        Run.Trust trust = new Run.Trust(Grade.GOOD, List.of(), List.of(code));
        Comparison comparison = compare(
                List.of(MadeRuns.withTrust(run("a", "rc", "mid", 0.2, 600), trust), run("b", "dc", "mid", 9, 600)));
        DecisionWords.Point first = part(comparison, "Change next").get(0);
        assertEquals("rc, as it ran too fast", first.about());
        Advice.Rule rule = Advice.usual().rule("alarm", code.name()).orElseThrow();
        assertEquals(rule.causes() + " " + rule.next(), first.text());
        assertTrue(part(comparison, "Do not keep as it is").stream()
                .anyMatch(p -> p.words().contains("RAN AWAY in a")));
    }

    @Test
    void withoutAnAlarmNothingIsSaidOfRunningTooFast() {
        Comparison comparison = compare(List.of(run("a", "rc", "mid", 0.2, 600), run("b", "dc", "mid", 9, 600)));
        List<DecisionWords.Point> points = part(comparison, "Change next");
        assertFalse(points.isEmpty());
        assertTrue(points.stream().noneMatch(p -> p.words().contains("too fast")), points.toString());
    }

    /** Two settings of one circuit at speeds that one of another circuit lies between, one of them bad: the bad one stands first and gives the field its colour. */
    @Test
    void theWorstSettingGivesAFieldItsColour() {
        List<Run> runs = new ArrayList<>();
        runs.add(run("good", "rc", "knob 3", 0.1, 600));
        runs.add(run("bad", "rc", "knob 4", 9, 670));
        runs.add(run("other", "dc", "knob 3", 0.1, 635));
        Matrix matrix = Matrix.of(compare(runs));
        Matrix.Field field = matrix.rows().get(0).fields().get(0);
        assertEquals(2, field.entries().size());
        assertEquals("fail", field.status());
    }
}
