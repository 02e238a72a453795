package org.steadyshaft.simulate;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.OptionalDouble;
import java.util.stream.Stream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.steadyshaft.PublishedTable;

/**
 * The controller in its linear range against the second-order step table (definition; recomputed): an integrating controller
 * round a first-order plant, y' = (K u - y) / T, is a second-order system with wn^2 = K Ki / T and 2 zeta wn = 1 / T. Only
 * the plant is made here; controller, tacho edges and firing delay are the simulated ones. Tolerance 1.5 % of the step for
 * the overshoot and 4 % for the times: the controller samples a hundred times a second and sees a mean over a tacho cycle,
 * some 15 ms old in all, against a period of two seconds and more.
 */
class LoopPublishedTest {
    private static final double NATURAL = 2.5;
    private static final double PLANT_GAIN = 3000;
    private static final double STEP_AT = 8;
    private static final double FROM_RPM = 1000;
    private static final double TO_RPM = 1200;

    static Stream<PublishedTable.Row> rows() {
        return PublishedTable.rows(
                "step_second_order_table.csv", r -> r.number("zeta") >= 0.3 && r.number("zeta") <= 0.8)
                .stream();
    }

    /** A first-order plant that a drive steers by its firing delay. */
    private static final class Plant implements Drive.Shaft {
        private static final double STEP = 0.0005;
        private final double constant;
        private final double[] turns = new double[60_000];
        private final double[] rpm = new double[60_000];
        private int last;

        Plant(double constant) {
            this.constant = constant;
            rpm[0] = FROM_RPM;
        }

        void run(double seconds, double drive) {
            int count = (int) Math.round(seconds / STEP);
            for (int i = 0; i < count; i++) {
                double keep = Math.exp(-STEP / constant);
                rpm[last + 1] = PLANT_GAIN * drive + (rpm[last] - PLANT_GAIN * drive) * keep;
                turns[last + 1] = turns[last] + STEP / 60 * 0.5 * (rpm[last] + rpm[last + 1]);
                last++;
            }
        }

        @Override
        public double turns(double timeSeconds) {
            double place = Math.min(last, Math.max(0, timeSeconds / STEP));
            int i = (int) Math.min(Math.max(0, last - 1), Math.floor(place));
            return turns[i] + (place - i) * (turns[Math.min(last, i + 1)] - turns[i]);
        }

        @Override
        public double latestSeconds() {
            return last * STEP;
        }
    }

    private static Plant respond(double zeta) {
        double constant = 1 / (2 * zeta * NATURAL);
        double integral = NATURAL * NATURAL * constant / PLANT_GAIN;
        LoopDrive loop = new LoopDrive(
                new LoopDrive.Settings(8, 50, 0, 1, 0, integral, 0, 0, FROM_RPM / PLANT_GAIN, Double.POSITIVE_INFINITY),
                t -> t < STEP_AT ? FROM_RPM : TO_RPM);
        Plant plant = new Plant(constant);
        plant.run(0.1, FROM_RPM / PLANT_GAIN);
        for (double now = 0.1; now < STEP_AT + 10; now += 0.01) {
            OptionalDouble firing = loop.firing(now, plant);
            plant.run(0.01, firing.isPresent() ? 1 - (firing.getAsDouble() - now) / 0.01 : 0);
        }
        return plant;
    }

    @ParameterizedTest
    @MethodSource("rows")
    void aStepOfTheSetPointAnswersAsTheTableSays(PublishedTable.Row row) {
        Plant plant = respond(row.number("zeta"));
        double peak = 0;
        double peakAt = 0;
        double rise10 = 0;
        double rise90 = 0;
        for (int i = (int) (STEP_AT / Plant.STEP); i <= plant.last; i++) {
            double share = (plant.rpm[i] - FROM_RPM) / (TO_RPM - FROM_RPM);
            double since = i * Plant.STEP - STEP_AT;
            rise10 = peak < 0.1 && share >= 0.1 ? since : rise10;
            rise90 = peak < 0.9 && share >= 0.9 ? since : rise90;
            if (share > peak) {
                peak = share;
                peakAt = since;
            }
        }
        assertEquals(row.number("overshoot_percent"), 100 * (peak - 1), 1.5 + 0.05 * row.number("overshoot_percent"));
        assertEquals(row.number("peak_time_wn") / NATURAL, peakAt, 0.04 * peakAt);
        assertEquals(row.number("rise_10_90_wn") / NATURAL, rise90 - rise10, 0.04 * (rise90 - rise10));
    }
}
