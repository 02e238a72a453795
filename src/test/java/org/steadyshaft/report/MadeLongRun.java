package org.steadyshaft.report;

import java.util.Random;
import org.steadyshaft.signal.CycleTimes;
import org.steadyshaft.signal.DoubleSeries;
import org.steadyshaft.signal.FundamentalTrack;
import org.steadyshaft.signal.Tachometer;

/**
 * The cycles of a long run without a recording: 1500 rpm with uneven poles, ripple, hunting, a slow wander, a blip every
 * forty seconds, and crossings that scatter.
 */
final class MadeLongRun {
    static final Tachometer TACHOMETER = new Tachometer(8);
    private static final double MEAN_RPM = 1500;
    private static final double RIPPLE_HZ = 37.3;
    private static final double HUNTING_HZ = 0.7;
    private static final double BLIP_EVERY_SECONDS = 40;
    private static final double BLIP_RETURN_SECONDS = 0.25;
    private static final double JITTER_SECONDS = 4e-7;
    private static final double FRAME_SECONDS = 0.3;

    private final CycleTimes cycles;

    MadeLongRun(int count, long seed) {
        Random random = new Random(seed);
        CycleTimes.Builder times = new CycleTimes.Builder();
        double seconds = 0.01;
        double wander = 0;
        for (int i = 0; i <= count; i++) {
            times.add(seconds + JITTER_SECONDS * random.nextGaussian());
            wander = 0.999 * wander + 2e-5 * random.nextGaussian();
            double pitch =
                    1 + 0.004 * Math.cos(2 * Math.PI * (i % 8) / 8) + 0.002 * Math.sin(2 * Math.PI * 3 * (i % 8) / 8);
            seconds += pitch / TACHOMETER.cycleHz(MEAN_RPM * (1 + wander + swing(seconds)));
        }
        cycles = times.build();
    }

    private static double swing(double seconds) {
        double since = (seconds + 0.5 * BLIP_EVERY_SECONDS) % BLIP_EVERY_SECONDS;
        return 0.003 * Math.sin(2 * Math.PI * RIPPLE_HZ * seconds)
                + 0.002 * Math.sin(2 * Math.PI * HUNTING_HZ * seconds)
                + 0.03 * Math.exp(-since / BLIP_RETURN_SECONDS);
    }

    CycleTimes cycles() {
        return cycles;
    }

    double seconds() {
        return cycles.timeSeconds(cycles.crossings() - 1);
    }

    /** What short-time spectra would show of it. */
    FundamentalTrack spectra() {
        DoubleSeries.Builder hz = new DoubleSeries.Builder();
        DoubleSeries.Builder amplitude = new DoubleSeries.Builder();
        DoubleSeries.Builder second = new DoubleSeries.Builder();
        DoubleSeries.Builder noise = new DoubleSeries.Builder();
        int frames = (int) (2 * seconds() / FRAME_SECONDS) - 1;
        for (int i = 0; i < frames; i++) {
            hz.add(TACHOMETER.cycleHz(MEAN_RPM * (1 + 1e-4 * Math.sin(i))));
            amplitude.add(0.4);
            second.add(0.01);
            noise.add(0.001);
        }
        return new FundamentalTrack(
                0.5 * FRAME_SECONDS,
                0.5 * FRAME_SECONDS,
                FRAME_SECONDS,
                hz.build(),
                amplitude.build(),
                second.build(),
                noise.build());
    }
}
