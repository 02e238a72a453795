package org.steadyshaft.stability;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.steadyshaft.numeric.AllanDeviation;
import org.steadyshaft.numeric.PowerLawNoise;
import org.steadyshaft.signal.CycleTimes;
import org.steadyshaft.signal.DoubleSeries;
import org.steadyshaft.signal.SpeedTrack;
import org.steadyshaft.signal.Stretch;
import org.steadyshaft.signal.Tachometer;

class AllanMeterTest {
    private static final Tachometer TACHO = new Tachometer(8);
    private static final double RPM = 600;
    private static final double CYCLE_SECONDS = 1 / TACHO.cycleHz(RPM);

    /** Octaves from a cycle to a third of the stretch. */
    @Test
    void averagingTimes() {
        SpeedTrack track = MadeTrack.ofSpeeds(TACHO, noisySpeeds(1000, 1e-3, 5));
        List<StabilityPoint> points = measure(track);
        assertEquals(9, points.size(), "1 to 256 cycles of 1000");
        for (int octave = 0; octave < points.size(); octave++) {
            assertEquals((1 << octave) * CYCLE_SECONDS, points.get(octave).tauSeconds(), 1e-5 * (1 << octave));
        }
    }

    /** A drift of d a second has the Allan deviation d tau / sqrt(2) at every tau (by adding up its definition). */
    @Test
    void ofADrift() {
        double shareASecond = 1e-4;
        SpeedTrack track = MadeTrack.ofSpeed(TACHO, 40, t -> RPM * (1 + shareASecond * (t - 20)));
        List<StabilityPoint> points = measure(track);
        assertTrue(points.size() >= 10, "octaves");
        for (StabilityPoint point : points) {
            double expected = shareASecond * point.tauSeconds() / Math.sqrt(2);
            assertEquals(expected, point.deviation(), 0.005 * expected, "tau " + point.tauSeconds());
        }
    }

    /** A sine swing of share a and frequency f has the deviation a sin^2(pi f tau) / (pi f tau) over many periods. */
    @Test
    void ofASwing() {
        double share = 0.01;
        double swingHz = 1.7;
        SpeedTrack track = MadeTrack.ofSpeed(TACHO, 60, t -> RPM * (1 + share * Math.sin(2 * Math.PI * swingHz * t)));
        for (StabilityPoint point : measure(track).subList(0, 7)) {
            double turn = Math.PI * swingHz * point.tauSeconds();
            double expected = share * Math.pow(Math.sin(turn), 2) / turn;
            assertEquals(expected, point.deviation(), 0.02 * share, "tau " + point.tauSeconds());
        }
    }

    /**
     * Why steps of angle: beside a hunting of 2 %, white noise of the speed is found in full at one cycle; with phase sampled
     * at even times, between the ends of cycles, a good part of it is averaged away. At 16 cycles and more both agree.
     */
    @Test
    void stepsOfAngleLoseNothing() {
        double[] rpm = noisySpeeds(8000, 0.01, 6);
        for (int i = 0; i < rpm.length; i++) {
            rpm[i] *= 1 + 0.02 * Math.sin(2 * Math.PI * 0.3 * i * CYCLE_SECONDS);
        }
        SpeedTrack track = MadeTrack.ofSpeeds(TACHO, rpm);
        List<StabilityPoint> points = measure(track);
        double[] even = leadAtEvenTimes(track);
        double[] lost = new double[points.size()];
        for (int octave = 0; octave < lost.length; octave++) {
            double plain =
                    AllanDeviation.ofPhase(even, CYCLE_SECONDS, 1 << octave).deviation();
            lost[octave] = 1 - plain / points.get(octave).deviation();
        }
        assertEquals(0.01, points.get(0).deviation(), 0.0003, "in steps of angle");
        assertTrue(lost[0] > 0.2, "share lost at even times: " + lost[0]);
        for (int octave = 4; octave < lost.length; octave++) {
            assertEquals(0, lost[octave], 0.03, "octave " + octave);
        }
    }

    private static double[] leadAtEvenTimes(SpeedTrack track) {
        int count = track.size();
        double stepSeconds = track.toSeconds(count - 1) / count;
        double[] lead = new double[count + 1];
        int cycle = 0;
        for (int step = 1; step < count; step++) {
            while (track.toSeconds(cycle) < step * stepSeconds) {
                cycle++;
            }
            double share = (step * stepSeconds - track.fromSeconds(cycle)) / track.durationSeconds(cycle);
            lead[step] = (cycle + share - step) * stepSeconds;
        }
        return lead;
    }

    /** Uneven poles whose effect was taken out of the speeds leave what the shaft does, within 5 % at one cycle. */
    @Test
    void polePatternDoesNotShow() {
        double[] pitch = {0.03, -0.02, 0.01, -0.03, 0.02, 0, -0.02, 0.01};
        double[] rpm = noisySpeeds(4000, 1e-3, 7);
        CycleTimes.Builder times = new CycleTimes.Builder().add(0);
        double seconds = 0;
        for (int i = 0; i < rpm.length; i++) {
            seconds += (1 + pitch[i % pitch.length]) / TACHO.cycleHz(rpm[i]);
            times.add(seconds);
        }
        SpeedTrack track = new SpeedTrack(times.build(), DoubleSeries.of(rpm));
        for (StabilityPoint point : measure(track).subList(0, 4)) {
            double expected = 1e-3 / Math.sqrt(point.tauSeconds() / CYCLE_SECONDS);
            assertEquals(expected, point.deviation(), 0.07 * expected, "tau " + point.tauSeconds());
        }
    }

    /** Only the longest stretch counts, and in it the longest row of cycles without a gap. */
    @Test
    void longestUnbrokenRow() {
        CycleTimes.Builder times = new CycleTimes.Builder();
        DoubleSeries.Builder speeds = new DoubleSeries.Builder();
        for (int i = 0; i <= 500; i++) {
            if (i == 200) {
                times.breakHere();
            }
            times.add((i + (i >= 200 ? 5.5 : 0)) * CYCLE_SECONDS);
        }
        for (int i = 0; i < 499; i++) {
            speeds.add(RPM);
        }
        SpeedTrack track = new SpeedTrack(times.build(), speeds.build());
        List<Stretch> steady = List.of(new Stretch(0, 0.5), new Stretch(0.6, 7));
        List<StabilityPoint> points = new AllanMeter().measure(track, steady);
        assertEquals(64 * CYCLE_SECONDS, points.get(points.size() - 1).tauSeconds(), 1e-9, "of 300 cycles");
        assertEquals(0, points.get(0).deviation(), 1e-12);
    }

    @Test
    void tooShort() {
        SpeedTrack track = MadeTrack.ofSpeeds(TACHO, noisySpeeds(8, 1e-3, 8));
        assertEquals(List.of(), measure(track), "eight cycles");
        assertEquals(List.of(), new AllanMeter().measure(track, List.of()), "no steady stretch");
    }

    @ParameterizedTest
    @CsvSource({"0, 1, 1, 1", "1, -1, -1, 1", "1, 1, 2, 3", "1, 1, 0, 0.5", "1, NaN, 0, 1", "1, 1, 0, Infinity"})
    void nonsenseIsRefused(double tauSeconds, double deviation, double low95, double high95) {
        assertThrows(IllegalArgumentException.class, () -> new StabilityPoint(tauSeconds, deviation, low95, high95));
    }

    @Test
    void badCallsAreRefused() {
        double[] phase = new double[10];
        assertThrows(IllegalArgumentException.class, () -> AllanDeviation.ofPhase(phase, 1, 5), "no term");
        assertThrows(IllegalArgumentException.class, () -> AllanDeviation.ofPhase(phase, 1, 0), "no factor");
        assertThrows(IllegalArgumentException.class, () -> AllanDeviation.ofPhase(phase, 0, 1), "no spacing");
        assertThrows(
                IllegalArgumentException.class, () -> PowerLawNoise.WHITE_PHASE.degreesOfFreedom(10, 5), "no term");
    }

    private static double[] noisySpeeds(int cycles, double share, long seed) {
        Random random = new Random(seed);
        return random.doubles(cycles)
                .map(unused -> RPM / (1 + share * random.nextGaussian()))
                .toArray();
    }

    private static List<StabilityPoint> measure(SpeedTrack track) {
        return new AllanMeter().measure(track, MadeTrack.whole(track));
    }
}
