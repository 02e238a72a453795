package org.steadyshaft.response;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.function.DoubleUnaryOperator;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.steadyshaft.PublishedTable;
import org.steadyshaft.PublishedTable.Row;
import org.steadyshaft.signal.Stretch;
import org.steadyshaft.simulate.DrawnSpeed;

/**
 * Answers of known systems, seen by a tacho without error, against tables.
 *
 * <p>Sources: first-order and second-order figures by definition (step_first_order.csv, step_second_order_table.csv;
 * recomputed); systems of higher order (step_cases.csv: the test suite of a public control-systems library, whose fourth-order case
 * quotes a toolbox's manual; K. Ogata, Modern Control Engineering; A. Nagoor Kani, Control Systems).
 *
 * <p>Tolerances: rise 1 % and 5 ms, half a cell of the grid; overshoot 0.6 points, of which half a point is what is not told
 * from none; settling 1 % and 40 ms, since it is counted from the beginning that was found. The beginning must be right within 40 ms.
 */
class StepTablePublishedTest {
    private static final double AT_SECONDS = 6;
    private static final double END_SECONDS = 30;

    private static Step only(DoubleUnaryOperator turns, double settledAfterSeconds) {
        List<Stretch> steady = List.of(
                new Stretch(0, AT_SECONDS - 0.3), new Stretch(AT_SECONDS + settledAfterSeconds, END_SECONDS - 0.1));
        List<Step> steps = new StepFinder().find(SampledAnswer.track(turns, END_SECONDS), steady);
        assertEquals(1, steps.size(), steps.toString());
        assertEquals(AT_SECONDS, steps.get(0).timeSeconds(), 0.04, "beginning");
        assertTrue(steps.get(0).deadTimeSeconds().isEmpty(), "no command was given");
        return steps.get(0);
    }

    private static void assertTime(double expectedSeconds, double foundSeconds, double slackSeconds, String what) {
        assertEquals(expectedSeconds, foundSeconds, 0.01 * expectedSeconds + slackSeconds, what);
    }

    @ParameterizedTest(name = "time constant {0} s")
    @ValueSource(doubles = {0.15, 0.4, 0.8, 1.5})
    void firstOrder(double constantSeconds) {
        Map<String, Double> table = PublishedTable.rows("step_first_order.csv").stream()
                .collect(Collectors.toMap(r -> r.text("quantity"), r -> r.number("value")));
        for (double percent : new double[] {40, -30}) {
            DrawnSpeed speed = DrawnSpeed.level(1000).step(AT_SECONDS, percent, constantSeconds);
            Step step = only(speed::turns, 6 * constantSeconds);
            assertEquals(1000, step.fromRpm(), 0.1);
            assertEquals(10 * percent, step.changeRpm(), 0.002 * Math.abs(10 * percent), "level after");
            assertTime(table.get("rise_10_90_over_tau") * constantSeconds, step.riseTimeSeconds(), 0.005, "rise time");
            assertTime(
                    table.get("settle_2pct_over_tau") * constantSeconds,
                    step.settlingTimeSeconds().orElseThrow(),
                    0.04,
                    "settling time");
            assertEquals(0, step.overshootPercent(), "a first-order answer does not overshoot");
        }
    }

    static Stream<Row> secondOrderRows() {
        return PublishedTable.rows("step_second_order_table.csv", r -> r.number("zeta") >= 0.2).stream();
    }

    @ParameterizedTest
    @MethodSource("secondOrderRows")
    void secondOrder(Row row) {
        double natural = 6;
        for (double percent : new double[] {25, -25}) {
            DrawnSpeed speed = DrawnSpeed.level(1500).secondOrderStep(AT_SECONDS, percent, natural, row.number("zeta"));
            Step step = only(speed::turns, 4);
            assertTime(row.number("rise_10_90_wn") / natural, step.riseTimeSeconds(), 0.005, "rise time");
            assertEquals(row.number("overshoot_percent"), step.overshootPercent(), 0.6, "overshoot");
            assertTime(
                    row.number("settle_2pct_exact_wn") / natural,
                    step.settlingTimeSeconds().orElseThrow(),
                    0.04,
                    "settling time");
        }
    }

    /** The steps to which the speed answers at once in the right direction. */
    @ParameterizedTest
    @ValueSource(strings = {"fourth_order_doc_example", "ogata_zeta06_wn5", "nagoor_kani_3_6"})
    void higherOrder(String name) {
        List<Row> rows =
                PublishedTable.rows("step_cases.csv", r -> r.text("case").equals(name));
        Map<String, Double> figures =
                rows.stream().collect(Collectors.toMap(r -> r.text("figure"), r -> r.number("recomputed")));
        double slower = name.startsWith("fourth") ? 0.15 : 1;
        Answer answer = new Answer(rows.get(0).text("numerator"), rows.get(0).text("denominator"), slower);
        Step step = only(answer::turns, 7);
        assertTime(figures.get("rise_10_90_s") * slower, step.riseTimeSeconds(), 0.005, "rise time");
        assertEquals(figures.get("overshoot_percent"), step.overshootPercent(), 0.6, "overshoot");
        assertTime(
                figures.get("settle_2pct_s") * slower,
                step.settlingTimeSeconds().orElseThrow(),
                0.04,
                "settling time");
        assertEquals(300 * figures.get("final_value"), step.changeRpm(), 0.01 * 300 * figures.get("final_value"));
    }

    @Test
    void everyCaseThatFitsIsInTheTable() {
        List<String> cases = PublishedTable.rows("step_cases.csv").stream()
                .map(r -> r.text("case"))
                .distinct()
                .toList();
        assertTrue(cases.size() == 4, "one more than is used, which answers in the wrong direction first: " + cases);
    }

    /** A shaft at 1000 rpm that answers as a transfer function does, 300 rpm for a unit; integrated by Runge and Kutta's rule. */
    private static final class Answer {
        private static final double TICK_SECONDS = 0.001;
        private final double[] turns = new double[(int) (END_SECONDS / TICK_SECONDS) + 2];
        private final double[] numerator;
        private final double[] denominator;

        /** @param slower factor by which its time is stretched */
        Answer(String numerator, String denominator, double slower) {
            this.numerator = numbers(numerator);
            this.denominator = numbers(denominator);
            double[] state = new double[this.denominator.length];
            for (int i = 1; i < turns.length; i++) {
                boolean on = (i - 1) * TICK_SECONDS >= AT_SECONDS - 1e-9;
                double rpmBefore = 1000 + 300 * output(state);
                state = on ? advance(state, TICK_SECONDS / slower) : state;
                turns[i] = turns[i - 1] + TICK_SECONDS / 60 * 0.5 * (rpmBefore + 1000 + 300 * output(state));
            }
        }

        private static double[] numbers(String text) {
            return Arrays.stream(text.split(" "))
                    .mapToDouble(Double::parseDouble)
                    .toArray();
        }

        double turns(double timeSeconds) {
            int i = (int) Math.min(turns.length - 2, Math.floor(timeSeconds / TICK_SECONDS));
            return turns[i] + (timeSeconds / TICK_SECONDS - i) * (turns[i + 1] - turns[i]);
        }

        private double output(double[] state) {
            double sum = 0;
            for (int k = 0; k < numerator.length; k++) {
                sum += numerator[numerator.length - 1 - k] * state[k];
            }
            return sum / denominator[0];
        }

        private double[] slope(double[] state) {
            int order = denominator.length - 1;
            double[] slope = new double[denominator.length];
            double top = 1;
            for (int k = 0; k < order; k++) {
                slope[k] = k + 1 < order ? state[k + 1] : 0;
                top -= denominator[order - k] / denominator[0] * state[k];
            }
            slope[order - 1] = top;
            return slope;
        }

        private static double[] moved(double[] state, double[] slope, double step) {
            double[] moved = state.clone();
            for (int k = 0; k < moved.length; k++) {
                moved[k] += step * slope[k];
            }
            return moved;
        }

        private double[] advance(double[] state, double step) {
            double[] a = slope(state);
            double[] b = slope(moved(state, a, 0.5 * step));
            double[] c = slope(moved(state, b, 0.5 * step));
            double[] d = slope(moved(state, c, step));
            double[] mean = new double[a.length];
            for (int k = 0; k < a.length; k++) {
                mean[k] = (a[k] + 2 * b[k] + 2 * c[k] + d[k]) / 6;
            }
            return moved(state, mean, step);
        }
    }
}
