package org.steadyshaft.simulate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.util.OptionalDouble;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.steadyshaft.signal.BlockReader;
import org.steadyshaft.signal.SampleSource;
import org.steadyshaft.signal.Tachometer;

/** What recorders do on the way to the file. */
class RecorderChainTest {
    private static double[][] read(SampleSource source) throws IOException {
        double[][] all = new double[source.channels()][(int) source.samples()];
        double[][] block = new double[source.channels()][777];
        int at = 0;
        try (BlockReader reader = source.open()) {
            for (int count = reader.read(block); count > 0; count = reader.read(block)) {
                for (int c = 0; c < all.length; c++) {
                    System.arraycopy(block[c], 0, all[c], at, count);
                }
                at += count;
            }
        }
        assertEquals(all[0].length, at);
        return all;
    }

    private static double peak(double[] values, double fromSeconds, double toSeconds, double rate) {
        double peak = 0;
        for (int i = (int) (fromSeconds * rate); i < toSeconds * rate; i++) {
            peak = Math.max(peak, Math.abs(values[i]));
        }
        return peak;
    }

    @Test
    void anAutomaticGainEvensOutALevelThatTrebles() throws IOException {
        DrawnSpeed speed = DrawnSpeed.level(600).step(5, 200, 0.2);
        DrawnTacho.Settings settings = DrawnTacho.Settings.clean(8000, 15).withShape(0.5, 0, 0);
        double[] plain = read(new DrawnTacho("plain", speed, settings))[0];
        double[] level = read(new AutomaticGain(new DrawnTacho("levelled", speed, settings), 0.5, 1))[0];
        assertEquals(3, peak(plain, 12, 14, 8000) / peak(plain, 3, 4.9, 8000), 0.05);
        assertEquals(1, peak(level, 12, 14, 8000) / peak(level, 3, 4.9, 8000), 0.1);
    }

    @Test
    void missingPolesAreSilentAndTheOthersAreAsBefore() throws IOException {
        DrawnTacho.Settings settings = DrawnTacho.Settings.clean(8000, 1)
                .withTachometer(new Tachometer(4))
                .withShape(0.5, 0, 0);
        double[] whole = read(new DrawnTacho("whole", DrawnSpeed.level(600), settings))[0];
        double[] lost = read(new DrawnTacho("lost", DrawnSpeed.level(600), settings.withMissing(Set.of(2))))[0];
        for (int i = 0; i < whole.length; i++) {
            double pole = i / 8000.0 * 40 % 4;
            assertEquals(pole > 2 && pole < 3 ? 0 : whole[i], lost[i], 1e-9, "sample " + i);
        }
    }

    /** A clock that grows faster by 600 ppm a minute has taken 300 ppm of a minute less time for its samples. */
    @Test
    void aClockThatDriftsCompressesTime() throws IOException {
        DrawnTacho.Settings settings = DrawnTacho.Settings.clean(1000, 60).withShape(0.5, 0, 0);
        double[] even = read(new DrawnTacho("even", DrawnSpeed.level(60), settings))[0];
        double[] drifting = read(new DrawnTacho("drifting", DrawnSpeed.level(60), settings.withClockDrift(600)))[0];
        double lateSeconds = 60 * 300e-6;
        int last = even.length - 1;
        int same = (int) Math.round(last - lateSeconds * 1000);
        assertEquals(even[same], drifting[last], 0.005);
        assertTrue(Math.abs(even[last] - drifting[last]) > 0.01, "no drift to be seen");
    }

    @Test
    void theGateStandsOnTheSecondChannelWhetherItFiresOrNot() throws IOException {
        Scenario scenario = ScenarioReader.read("bench-second-gate");
        SimulatedCapture capture =
                scenario.make(1, OptionalDouble.empty(), scenario.recorder().kind());
        double[] gate = read(capture.recording())[1];
        long pulses = 0;
        for (int i = 1; i < gate.length; i++) {
            // the recorder's input blocks what is slow, so that edges are looked for
            pulses += gate[i] - gate[i - 1] > 0.2 ? 1 : 0;
        }
        long fired = capture.motion().gateSeconds().stream()
                .filter(t -> t >= scenario.settleSeconds() && t < scenario.settleSeconds() + capture.seconds())
                .count();
        assertEquals(fired, pulses, 1);
        assertTrue(fired < 100 * capture.seconds() - 3, "interrupts are missed: " + fired);
    }

    @Test
    void aHeaderMayNameAnotherRate() {
        Scenario scenario = ScenarioReader.read("bench-clock");
        SimulatedCapture capture = scenario.make(1, OptionalDouble.of(1), Scenario.Recorder.Kind.SOUND_CARD);
        assertEquals(44_100, capture.recording().sampleRateHz());
        assertEquals(48_000, capture.recording().samples());
    }
}
