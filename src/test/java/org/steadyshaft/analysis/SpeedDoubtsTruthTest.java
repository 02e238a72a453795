package org.steadyshaft.analysis;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.steadyshaft.Thorough;
import org.steadyshaft.signal.AlteredSource;
import org.steadyshaft.signal.BlockReader;
import org.steadyshaft.signal.Finding;
import org.steadyshaft.signal.FindingCode;
import org.steadyshaft.signal.SampleSource;
import org.steadyshaft.signal.Tachometer;
import org.steadyshaft.simulate.DrawnSpeed;
import org.steadyshaft.simulate.DrawnTacho;
import org.steadyshaft.simulate.DrawnTacho.Settings;

/** A pole count that the magnet denies, methods that disagree, and short dropouts are told; where all is well, nothing is. */
class SpeedDoubtsTruthTest {
    private static double[] pattern(int poles, long seed) {
        Random random = new Random(seed * 0x9E3779B97F4A7C15L);
        double[] deviation = random.doubles(poles, -1.5, 1.5).toArray();
        double mean = java.util.Arrays.stream(deviation).average().orElseThrow();
        return java.util.Arrays.stream(deviation).map(d -> d - mean).toArray();
    }

    private static SampleSource magnet(int poles, double rpm, long seed) {
        Settings settings = Settings.clean(24000, 12)
                .withTachometer(new Tachometer(poles))
                .withPattern(pattern(poles, seed))
                .withShape(0.5 * 1000 / rpm, 0.03, 0.05)
                .withNoise(0.002, seed);
        return new DrawnTacho("magnet", DrawnSpeed.level(rpm).line(0.7, 0.3, 1).line(100, 0.3, 0), settings);
    }

    private static List<String> disagreements(SampleSource source, int polePairs) {
        return findings(source, polePairs, FindingCode.POLE_COUNT);
    }

    private static List<String> findings(SampleSource source, int polePairs, FindingCode code) {
        return Analysed.of(source, polePairs).findings().stream()
                .filter(f -> f.code() == code)
                .map(Finding::text)
                .toList();
    }

    @ParameterizedTest(name = "{0} pole pairs, {1} said")
    @CsvSource({"6, 8", "8, 6", "8, 4", "4, 8", "12, 8", "8, 12", "5, 8", "3, 8", "16, 8", "8, 1"})
    void aWrongPoleCountIsDoubted(int poles, int said) {
        for (long seed = 1; seed <= Thorough.count(1, 4); seed++) {
            List<String> texts = disagreements(magnet(poles, 1331 + 91 * seed, seed), said);
            assertEquals(1, texts.size(), "seed " + seed + ": " + texts);
            assertTrue(texts.get(0).contains("repeats every " + poles + " cycles"), "seed " + seed + ": " + texts);
            assertEquals(List.of(), findings(magnet(poles, 1331 + 91 * seed, seed), said, FindingCode.LEVEL_STEP));
        }
    }

    @ParameterizedTest
    @ValueSource(ints = {1, 2, 3, 4, 6, 8, 12})
    void aRightPoleCountIsNot(int poles) {
        for (long seed = 1; seed <= Thorough.count(1, 6); seed++) {
            List<String> texts = disagreements(magnet(poles, 1331 + 91 * seed, seed), poles);
            assertEquals(List.of(), texts, "seed " + seed);
        }
    }

    /** Ripple of half-cycles that fire unequally, at a speed where it repeats every fourth cycle, is no magnet. */
    @Test
    void rippleOfTheMainsIsNoPattern() {
        DrawnSpeed speed = DrawnSpeed.level(1500).line(100, 0.8, 0).line(50, 0.6, 1);
        Settings settings = Settings.clean(24000, 12).withNoise(0.001, 4);
        assertEquals(List.of(), disagreements(new DrawnTacho("ripple", speed, settings), 6));
    }

    @Test
    void pickUpInsideTheLineIsNamedAsTheReason() {
        Settings settings = Settings.clean(48000, 8)
                .withShape(0.5 * 1000 / 352.5, 0.03, 0.05)
                .withHum(0.35, 50.02)
                .withNoise(0.002, 3);
        List<String> texts =
                findings(new DrawnTacho("hum", DrawnSpeed.level(352.5), settings), 8, FindingCode.METHODS_DISAGREE);
        assertTrue(texts.stream().anyMatch(t -> t.contains("pick-up lies so close")), texts.toString());
    }

    /** A part of a cycle held at one value is left out with its neighbours, is told, and gives no blip. */
    @ParameterizedTest(name = "held for {0} of a period")
    @ValueSource(doubles = {0.15, 0.3, 0.5})
    void aShortDropoutIsLeftOut(double periods) {
        Settings settings = Settings.clean(48000, 10).withNoise(0.001, 9);
        SampleSource whole = new DrawnTacho("contact", DrawnSpeed.level(1207), settings);
        double period = 60.0 / 1207 / 8;
        SampleSource held = new Held(whole, (long) (48000 * 4.0), (long) (48000 * periods * period));
        Outcome.Analysed outcome = Analysed.of(held);
        Rotation rotation = outcome.rotation().orElseThrow();
        assertTrue(
                outcome.findings().stream().anyMatch(f -> f.code() == FindingCode.GAP),
                outcome.findings().toString());
        assertEquals(1207, rotation.speed().meanRpm(), 0.01);
        assertEquals(0, rotation.blips().orElseThrow().events().size());
    }

    /** Zeros in place of the samples from one index on. */
    private static final class Held extends AlteredSource {
        private final long from;
        private final long length;

        Held(SampleSource source, long from, long length) {
            super(source);
            this.from = from;
            this.length = length;
        }

        @Override
        public BlockReader open() throws java.io.IOException {
            BlockReader in = source.open();
            return new BlockReader() {
                private long at;

                @Override
                public int read(double[][] block) throws java.io.IOException {
                    int count = in.read(block);
                    for (int i = 0; i < count; i++, at++) {
                        block[0][i] = at >= from && at < from + length ? 0 : block[0][i];
                    }
                    return count;
                }

                @Override
                public void close() throws java.io.IOException {
                    in.close();
                }
            };
        }
    }
}
