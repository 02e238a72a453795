package org.steadyshaft.analysis;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.steadyshaft.Thorough;
import org.steadyshaft.simulate.ScenarioReader;

/** The scorer over the scenarios in short: each scenario of the bench and some runs of the demo once; nothing false, nothing missed. */
class ScenarioBenchTest {
    private static final List<String> OF_THE_DEMO =
            List.of("wheel1-rc-mid-light", "wheel1-rc-mid-bad", "wheel2-pulses-fast-clay", "wheel3-loop-mid-screen");

    static Stream<String> names() {
        return ScenarioReader.names().stream()
                .filter(n -> Thorough.count(0, 1) == 1 || n.startsWith("bench-") || OF_THE_DEMO.contains(n));
    }

    @ParameterizedTest
    @MethodSource("names")
    void whatIsSaidIsTrue(String name) {
        for (long seed = 1; seed <= Thorough.count(1, 3); seed++) {
            ScenarioBench.Result result = ScenarioBench.result(name, seed);
            assertEquals(List.of(), result.wrong(), name + " seed " + seed);
            assertEquals(List.of(), result.missed(), name + " seed " + seed);
        }
    }
}
