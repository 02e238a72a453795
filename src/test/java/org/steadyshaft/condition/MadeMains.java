package org.steadyshaft.condition;

import java.io.IOException;
import java.util.Arrays;
import java.util.Random;
import org.steadyshaft.signal.DoubleSeries;
import org.steadyshaft.signal.FundamentalTrack;
import org.steadyshaft.signal.KeptWaveform;

/** Tones at the mains frequency, as a grid makes them in an open lead and as a tacho does. */
final class MadeMains {
    static final double RATE_HZ = 1000;
    private static final double FRAME_SECONDS = 0.3;

    private final double[] values;
    private final double[] hz;

    private MadeMains(double[] values, double[] hz) {
        this.values = values;
        this.hz = hz;
    }

    /** Seconds, and how a process that returns to nothing within some of them is drawn. */
    private static double[] wander(Random random, int count, double deviation, double returnSeconds) {
        double[] drawn = new double[count];
        double keep = Math.exp(-1 / (returnSeconds * RATE_HZ));
        double now = deviation * random.nextGaussian();
        for (int i = 0; i < count; i++) {
            now = keep * now + deviation * Math.sqrt(1 - keep * keep) * random.nextGaussian();
            drawn[i] = now;
        }
        return drawn;
    }

    /**
     * Pick-up of a grid: 20 mHz of wander within minutes, third and fifth harmonic, noise; a lead that is touched now and then and a
     * level that steps.
     */
    static MadeMains grid(double mainsHz, double seconds, boolean touched, long seed) {
        Random random = new Random(seed);
        int count = (int) (seconds * RATE_HZ);
        double[] slow = wander(random, count, 0.02, 90);
        double[] fast = wander(random, count, 0.002, 3);
        double[] hz = new double[count];
        double[] values = new double[count];
        double phase = 0;
        double level = 0.1;
        double touch = 1;
        for (int i = 0; i < count; i++) {
            if (touched && random.nextDouble() < 0.1 / RATE_HZ) {
                touch = touch == 1 ? 2 + 6 * random.nextDouble() : 1;
            }
            if (touched && random.nextDouble() < 0.01 / RATE_HZ) {
                level = 0.05 + 0.1 * random.nextDouble();
            }
            hz[i] = mainsHz + (slow[i] + fast[i]) * mainsHz / 50;
            phase += 2 * Math.PI * hz[i] / RATE_HZ;
            double wave = Math.sin(phase) + 0.2 * Math.sin(3 * phase + 1) + 0.1 * Math.sin(5 * phase + 2);
            values[i] = level * touch * wave + 0.003 * random.nextGaussian();
        }
        return new MadeMains(values, hz);
    }

    /**
     * A tacho whose speed wanders.
     *
     * @param wander standard deviation of the speed, as a share; it returns within a second
     * @param pitch unevenness of the poles, as a share
     * @param hum mains pick-up, as a share of the level
     */
    static MadeMains tacho(
            double tachoHz, int poles, double seconds, double wander, double pitch, double hum, long seed) {
        Random random = new Random(seed);
        int count = (int) (seconds * RATE_HZ);
        double[] drawn = wander(random, count, wander, 1);
        double[] offsets = random.doubles(poles).map(d -> pitch * (3 * d - 1.5)).toArray();
        double[] hz = new double[count];
        double[] values = new double[count];
        double cycles = 0;
        double humPhase = 2 * Math.PI * random.nextDouble();
        for (int i = 0; i < count; i++) {
            hz[i] = tachoHz * (1 + drawn[i]);
            cycles += hz[i] / RATE_HZ;
            // a pole that comes late: its offset fades into the next one's
            int pole = Math.floorMod((long) Math.floor(cycles), poles);
            double share = cycles - Math.floor(cycles);
            double late = offsets[pole] + share * (offsets[(pole + 1) % poles] - offsets[pole]);
            values[i] = 0.5 * Math.sin(2 * Math.PI * (cycles - late))
                    + 0.5 * hum * Math.sin(2 * Math.PI * 50.013 * i / RATE_HZ + humPhase)
                    + 0.003 * random.nextGaussian();
        }
        return new MadeMains(values, hz);
    }

    KeptWaveform waveform() {
        float[] floats = new float[values.length];
        for (int i = 0; i < floats.length; i++) {
            floats[i] = (float) values[i];
        }
        return KeptWaveform.of(floats, RATE_HZ);
    }

    /** What short-time spectra would show. */
    FundamentalTrack track() {
        int hop = (int) (0.5 * FRAME_SECONDS * RATE_HZ);
        int frames = values.length / hop - 1;
        double[] mean = new double[frames];
        for (int f = 0; f < frames; f++) {
            mean[f] = Arrays.stream(hz, f * hop, (f + 2) * hop).average().orElseThrow();
        }
        double[] ones = new double[frames];
        Arrays.fill(ones, 0.5);
        return new FundamentalTrack(
                0.5 * FRAME_SECONDS,
                0.5 * FRAME_SECONDS,
                FRAME_SECONDS,
                DoubleSeries.of(mean),
                DoubleSeries.of(ones),
                DoubleSeries.of(new double[frames]),
                DoubleSeries.of(new double[frames]));
    }

    MainsOrTacho.Verdict verdict(double mainsHz, int poles) throws IOException {
        return new MainsOrTacho(mainsHz, poles).judge(waveform(), track());
    }
}
