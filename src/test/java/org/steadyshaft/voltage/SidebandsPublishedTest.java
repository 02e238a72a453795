package org.steadyshaft.voltage;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.IOException;
import java.util.List;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.steadyshaft.signal.CycleTimes;
import org.steadyshaft.signal.KeptWaveform;
import org.steadyshaft.signal.Stretch;
import org.steadyshaft.signal.Tachometer;

/**
 * A flux whose phase swings by b carries J0(b) at its own frequency and J1(b) in each first sideband (angle modulation, any handbook of
 * modulation); its voltage is the flux's change (Faraday's law), so each part stands out by its frequency. A waveform built of these, with
 * the tables' values of the Bessel functions, must read as a swing of the phase by b. Table values: Abramowitz and Stegun, Handbook of
 * Mathematical Functions, table 9.1 (from memory).
 */
class SidebandsPublishedTest {
    private static final double CYCLE_HZ = 200;
    private static final double LINE_HZ = 33;
    private static final double RATE_HZ = 6000;
    private static final double SECONDS = 20;

    @ParameterizedTest(name = "index {0}")
    @CsvSource({"0.1, 0.9975015620, 0.0499375260, 0.0012489587", "0.2, 0.9900249722, 0.0995008326, 0.0049833542"})
    void aSwingOfThePhaseIsReadFromItsSidebands(double index, double j0, double j1, double j2) throws IOException {
        float[] volts = new float[(int) (SECONDS * RATE_HZ)];
        for (int i = 0; i < volts.length; i++) {
            double t = i / RATE_HZ;
            // flux -cos(wc t + b sin(wm t)) = -J0 cos(wc t) - J1 (cos((wc + wm) t) - cos((wc - wm) t)) - J2 (...);
            // volts its change
            volts[i] = (float) (j0 * change(CYCLE_HZ, t)
                    + j1 * (change(CYCLE_HZ + LINE_HZ, t) - change(CYCLE_HZ - LINE_HZ, t))
                    + j2 * (change(CYCLE_HZ + 2 * LINE_HZ, t) + change(CYCLE_HZ - 2 * LINE_HZ, t)));
        }
        WaveformReading reading = new WaveformReader(new Tachometer(8), 50)
                .read(KeptWaveform.of(volts, RATE_HZ), even(), List.of(new Stretch(0, SECONDS)))
                .orElseThrow();
        SpeedLine line = reading.lines().get(0);
        assertEquals(LINE_HZ, line.hz(), 0.002);
        // a phase of b sin is a speed of b wm cos over wc
        double percent = 100 * index * LINE_HZ / CYCLE_HZ;
        assertEquals(percent, line.amplitudePercent(), 0.003 * percent);
        assertEquals(0, line.mainsMultiple());
    }

    private static double change(double hz, double seconds) {
        return hz / CYCLE_HZ * Math.sin(2 * Math.PI * hz * seconds);
    }

    /** Crossings as a tacho without the swing would have them: the reading takes only the slow angle from them. */
    private static CycleTimes even() {
        CycleTimes.Builder cycles = new CycleTimes.Builder();
        for (int i = 1; i < SECONDS * CYCLE_HZ; i++) {
            cycles.add(i / CYCLE_HZ);
        }
        return cycles.build();
    }
}
