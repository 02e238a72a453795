package org.steadyshaft.analysis;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.stream.LongStream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/** The hard bench in short: two recordings of each kind; nothing false is said, and at most one is missed. */
class HardBenchTest {
    private static final int CASES = 2;

    @ParameterizedTest
    @EnumSource
    void nothingFalseIsSaid(HardCase.Kind kind) {
        List<HardBench.Result> results = LongStream.range(0, CASES)
                .mapToObj(i -> HardBench.result(kind, 7000 + 100L * kind.ordinal() + i))
                .toList();
        String table = HardBench.table(results);
        assertEquals(
                0,
                results.stream()
                        .filter(r -> r.verdict() == HardBench.Verdict.FALSE)
                        .count(),
                table);
        assertTrue(
                results.stream()
                                .filter(r -> r.verdict() == HardBench.Verdict.MISSED)
                                .count()
                        <= 1,
                table);
    }
}
