package org.steadyshaft.plan;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * The plan against values that were reckoned outside the program from the formulas that are named (a list of check values that came with
 * the task; recomputed by hand), and the E12 series of IEC 60063 (from memory).
 */
class PlannerPublishedTest {
    private static PlanRequest request(double top, double lowest, OptionalDouble blips) {
        return new PlanRequest(
                top,
                lowest,
                8,
                Optional.of(new PlanRequest.TachoVoltage(30, 2000)),
                new PlanRequest.Input(1, OptionalDouble.of(10e3), 16),
                new PlanRequest.Limits(blips, OptionalDouble.empty(), OptionalDouble.empty()),
                50,
                List.of("rc", "dc"),
                List.of("none", "clay"));
    }

    /** 100 sqrt(2) q / (sqrt(12) 2 pi A), full scale from -1 to 1. */
    @ParameterizedTest
    @CsvSource({"8, 0.5, 0.1015, 5e-5", "12, 0.5, 0.00635, 5e-6", "16, 0.5, 0.000397, 5e-7", "16, 0.02, 0.0099, 5e-5"})
    void theStepsOfAConverterMoveAPeriod(int bits, double peak, double percent, double tolerance) {
        assertEquals(percent, Planner.periodErrorPercent(2 / Math.pow(2, bits), peak), tolerance);
    }

    /** sin(pi x) / (pi x), x = 100 Hz over the frequency of a tacho of eight pole pairs. */
    @ParameterizedTest
    @CsvSource({"300, 0.127", "600, -0.180", "900, 0.191", "1200, 0.471", "1500, 0.637", "2000, 0.784", "3000, 0.900"})
    void countingCyclesHidesSwings(double rpm, double share) {
        assertEquals(share, Planner.sinc(100 / (rpm * 8 / 60)), 5e-4);
    }

    /** Poisson: no event in a time of 2.9957 (one-sided) or 3.6889 (two-sided) over the rate. */
    @ParameterizedTest
    @CsvSource({"2, 1.498, 1.844", "1, 2.9957, 3.6889"})
    void theTimeWithoutABlip(double perMinute, double oneSided, double twoSided) {
        RecordingPlan.Length length = new Planner()
                .plan(request(2300, 580, OptionalDouble.of(perMinute)))
                .length();
        assertEquals(oneSided, length.blipMinutesOneSided().orElseThrow(), 5e-4);
        assertEquals(twoSided, length.blipMinutes().orElseThrow(), 5e-4);
        assertTrue(length.seconds() >= 60 * twoSided && length.seconds() < 60 * twoSided + 10);
    }

    @Test
    void aDividerOfAHundredKiloohmOverOneAndAHalf() {
        assertEquals(
                0.887, Divider.with(100e3, 1500, 60, OptionalDouble.empty()).peakVolts(), 5e-4);
        Divider loaded = Divider.with(100e3, 1500, 60, OptionalDouble.of(10e3));
        assertEquals(
                60 * (15000.0 / 11.5) / (100e3 + 15000.0 / 11.5), loaded.peakVolts(), 1e-9, "10 kohm beside 1.5 kohm");
    }

    @ParameterizedTest
    @CsvSource({"1, 1", "0.99, 0.82", "1499, 1200", "1500, 1500", "9999, 8200", "82000, 82000", "4.7e6, 4.7e6"})
    void standardValuesAreThoseOfE12(double ohms, double value) {
        assertEquals(value, StandardValues.atMost(ohms), 1e-9 * value);
    }

    /** 120 f / k: at 50 Hz 6000 rpm over whole numbers; and 60 f m / p: 375 rpm and its multiples. */
    @Test
    void speedsAtWhichTheMainsHides() {
        assertEquals(
                List.of(600.0, 666.666667, 750.0, 857.142857, 1000.0), new CleanSpeeds(50, 8).coincidences(590, 1100));
        assertTrue(new CleanSpeeds(50, 8).coincidences(1100, 1200).contains(1125.0), "three times 375 rpm");
        assertTrue(new CleanSpeeds(60, 8).coincidences(700, 730).contains(720.0));
    }

    @ParameterizedTest
    @ValueSource(doubles = {590, 600, 640, 750, 1000, 1490, 2000, 2300})
    void aCleanSpeedIsNearAndAway(double rpm) {
        CleanSpeeds clean = new CleanSpeeds(50, 8);
        double near = clean.near(rpm, 500, 2300);
        assertTrue(clean.distance(near) > 0.0299, near + " rpm");
        assertTrue(Math.abs(near / rpm - 1) < 0.07 && near <= 2300, near + " rpm for " + rpm);
    }

    @Test
    void aPlanFitsInput() {
        RecordingPlan plan = new Planner().plan(request(2300, 580, OptionalDouble.of(2)));
        RecordingPlan.Level level = plan.level().orElseThrow();
        assertEquals(Math.sqrt(2) * 30 * 2300 / 2000, level.tachoPeakVolts(), 1e-9);
        assertTrue(level.topVolts() <= 0.7 && level.topVolts() > 0.5, level.toString());
        assertEquals(level.topVolts() * 580 / 2300, level.lowestVolts(), 1e-12);
        assertEquals(16000, plan.rateHz());
        assertEquals(3 * 2 * 3 * 2, plan.runs().size());
        assertEquals(
                plan.runs().size(),
                plan.runs().stream()
                        .map(RecordingPlan.PlannedRun::file)
                        .distinct()
                        .count());
    }

    /** A tacho that fits needs no divider. */
    @Test
    void aSmallTachoNeedsNone() {
        assertEquals(Optional.empty(), Divider.of(0.6, 1, OptionalDouble.empty()));
    }
}
