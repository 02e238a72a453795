package org.steadyshaft.compare;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.steadyshaft.analysis.CaptureLabel;

class GroupMeterTest {
    /** Seconds of a shaft without ripple: noise was taken off their squares, which come out on either side of nothing. */
    private static Run withoutRipple(double mean, long seed) {
        Random random = MadeRuns.random(seed);
        List<Run.Block> blocks = new ArrayList<>();
        for (int i = 0; i < 40; i++) {
            blocks.add(new Run.Block(0.001 * random.nextGaussian(), mean + 1e-5 * random.nextGaussian(), 0.05, 1));
        }
        return new Run(
                "still" + seed,
                CaptureLabel.NONE,
                Run.Trust.WHOLE,
                900,
                0.05,
                blocks,
                Optional.empty(),
                List.of(),
                new Run.Jumps(List.of(), 40 / 60.0, 0.3),
                Optional.empty(),
                Optional.empty(),
                List.of(),
                List.of(),
                List.of());
    }

    @ParameterizedTest
    @ValueSource(doubles = {-1e-5, -1e-6, 0, 1e-6, 1e-5})
    void a_ripple_of_nothing_has_an_interval_from_nothing_on(double mean) {
        for (long seed = 1; seed <= 10; seed++) {
            Map<Measure, Estimate> told = new GroupMeter(
                            List.of(withoutRipple(mean, seed), withoutRipple(mean, seed + 100)))
                    .measure()
                    .estimates();
            Estimate ripple = told.get(Measure.RIPPLE);
            assertTrue(ripple.value() >= 0 && ripple.value() < 0.01, ripple.toString());
            assertTrue(ripple.low95() >= 0 && ripple.low95() <= ripple.value(), ripple.toString());
            assertTrue(ripple.high95() >= ripple.value() && !Double.isNaN(ripple.high95()), ripple.toString());
            assertEquals(80 / 60.0, ripple.minutes(), 1e-9);
        }
    }
}
