package org.steadyshaft.voltage;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.steadyshaft.Thorough;
import org.steadyshaft.signal.CycleTimes;
import org.steadyshaft.signal.KeptWaveform;
import org.steadyshaft.signal.Stretch;
import org.steadyshaft.signal.Tachometer;

/**
 * The variance of a sine's amplitude in white noise of variance s^2 over N samples is 2 s^2 / N at least (D. C. Rife and R. R. Boorstyn,
 * Single-tone parameter estimation from discrete-time observations, IEEE Trans. Inf. Theory IT-20, 1974; for a real sine far from 0 and
 * half the rate). A line of the speed is known from two sidebands of amplitudes u and v for a line of 1: the variance of its amplitude is
 * 2 s^2 / (N (u^2 + v^2)), for both tell the same. Tones of pick-up must reach the bound as it stands.
 */
class AmplitudeBoundPublishedTest {
    private static final double CYCLE_HZ = 180;
    private static final double RATE_HZ = 6000;
    private static final double SECONDS = 15;
    private static final double NOISE = 0.05;
    private static final double LINE = 0.004;
    private static final double LINE_HZ = 100;
    private static final double HUM = 0.02;
    private static final int CAPTURES = Thorough.count(24, 60);

    @Test
    void standardUncertaintiesAreThoseOfTheBound() throws IOException {
        double edge = 0.3 + 8 / CYCLE_HZ;
        double samples = (SECONDS - edge) * RATE_HZ;
        double upper = CYCLE_HZ + LINE_HZ;
        double lower = CYCLE_HZ - LINE_HZ;
        // v = sin(wc t + b sin wm t), b = a wc / wm: sidebands of a wc / (2 wm); as the change of a flux they stand out
        // by their frequency
        double perLine = CYCLE_HZ / LINE_HZ / 2;
        double u = perLine * upper / CYCLE_HZ;
        double v = perLine * lower / CYCLE_HZ;
        double lineBound = Math.sqrt(2 * NOISE * NOISE / (samples * (u * u + v * v)));
        double humBound = Math.sqrt(2 * NOISE * NOISE / samples);
        double lineSquares = 0;
        double humSquares = 0;
        double lineStated = 0;
        double humStated = 0;
        for (int seed = 0; seed < CAPTURES; seed++) {
            WaveformReading reading = reading(new Random(seed));
            SpeedLine line = ((MainsReading.Told) reading.mains().get(2)).line();
            HumLine hum = reading.hum().get(0);
            lineSquares += Math.pow(line.amplitudePercent() / 100 - LINE, 2) / CAPTURES;
            humSquares += Math.pow(hum.volts() - HUM, 2) / CAPTURES;
            lineStated += line.standardUncertaintyPercent() / 100 / CAPTURES;
            humStated += hum.standardUncertaintyVolts() / CAPTURES;
        }
        assertEquals(lineBound, lineStated, 0.08 * lineBound, "stated for a line");
        assertEquals(humBound, humStated, 0.08 * humBound, "stated for a tone");
        // the root mean square of n errors is known to 1 / sqrt(2 n); three of which are allowed
        double scatter = 3 / Math.sqrt(2.0 * CAPTURES);
        assertTrue(
                Math.abs(Math.sqrt(lineSquares) / lineBound - 1) < scatter,
                "line " + Math.sqrt(lineSquares) / lineBound);
        assertTrue(
                Math.abs(Math.sqrt(humSquares) / humBound - 1) < scatter, "tone " + Math.sqrt(humSquares) / humBound);
    }

    private static WaveformReading reading(Random random) throws IOException {
        float[] volts = new float[(int) (SECONDS * RATE_HZ)];
        double swing = LINE * CYCLE_HZ / LINE_HZ;
        for (int i = 0; i < volts.length; i++) {
            double t = i / RATE_HZ;
            double speed = 1 + LINE * Math.cos(2 * Math.PI * LINE_HZ * t);
            double phase = 2 * Math.PI * CYCLE_HZ * t + swing * Math.sin(2 * Math.PI * LINE_HZ * t);
            double hum = HUM * Math.sin(2 * Math.PI * 50 * t + 1);
            volts[i] = (float) (speed * Math.sin(phase) + hum + NOISE * random.nextGaussian());
        }
        CycleTimes.Builder cycles = new CycleTimes.Builder();
        for (int i = 1; i < SECONDS * CYCLE_HZ; i++) {
            cycles.add(i / CYCLE_HZ);
        }
        return new WaveformReader(new Tachometer(8), 50)
                .read(KeptWaveform.of(volts, RATE_HZ), cycles.build(), List.of(new Stretch(0, SECONDS)))
                .orElseThrow();
    }
}
