package org.steadyshaft.blip;

import java.util.OptionalDouble;
import java.util.Random;
import org.steadyshaft.signal.ArraySource;
import org.steadyshaft.signal.SampleFormat;
import org.steadyshaft.simulate.DrawnSpeed;

/** Recordings drawn from a seed: a tacho of eight uneven poles on a drawn speed, and the troubles of a bad recording added to it. */
final class MadeRecording extends ArraySource {
    static final int POLES = 8;
    private static final double TURN = 2 * Math.PI;

    private static final SampleFormat FORMAT = new SampleFormat(
            "made",
            "numbers",
            "V",
            OptionalDouble.empty(),
            OptionalDouble.empty(),
            SampleFormat.RecorderKind.SOUND_CARD);

    private final double rateHz;
    private final Random random;

    private MadeRecording(double rateHz, double[] values, Random random) {
        super("made", rateHz, FORMAT, values);
        this.rateHz = rateHz;
        this.random = random;
    }

    /** A clean tacho with harmonics, uneven poles and 50 dB of white noise; peak 0.4 at the level. */
    static MadeRecording of(DrawnSpeed speed, double levelRpm, double seconds, double rateHz, long seed) {
        Random random = new Random(seed);
        double[] order = new double[2 * POLES];
        for (int i = 0; i < order.length; i++) {
            order[i] = 0.004 * random.nextGaussian();
        }
        double[] values = new double[(int) Math.round(seconds * rateHz)];
        for (int i = 0; i < values.length; i++) {
            double t = i / rateHz;
            double turns = speed.turns(t);
            double angle = TURN * (turns - Math.floor(turns));
            double uneven = 0;
            for (int k = 1; k <= 3; k++) {
                uneven += order[2 * k] * Math.cos(k * angle) + order[2 * k + 1] * Math.sin(k * angle);
            }
            double phase = POLES * angle + POLES * uneven / 4;
            double wave = Math.sin(phase) + 0.04 * Math.sin(2 * phase + 1) + 0.06 * Math.sin(3 * phase + 0.4);
            values[i] = 0.4 * speed.rpm(t) / levelRpm * wave + 0.4e-3 * random.nextGaussian() * 2.2;
        }
        return new MadeRecording(rateHz, values, random);
    }

    /** A speed with a wander of so many per cent, slower than some hertz and smooth. */
    static DrawnSpeed wandering(double rpm, double percent, Random random) {
        DrawnSpeed speed = DrawnSpeed.level(rpm);
        for (int i = 0; i < 24; i++) {
            double hz = 0.05 * Math.pow(1.25, i);
            speed = speed.line(hz, percent * 0.4 * Math.pow(hz / 0.05, -0.5), TURN * random.nextDouble());
        }
        return speed;
    }

    private interface Change {
        double at(int sample, int since, int length);
    }

    private void scattered(double everySeconds, double leastSeconds, double mostSeconds, Change change) {
        double t = 1 + random.nextDouble() * everySeconds;
        while (t < values.length / rateHz - 1) {
            int from = (int) (t * rateHz);
            int length = (int) ((leastSeconds + random.nextDouble() * (mostSeconds - leastSeconds)) * rateHz);
            for (int i = 0; i < length && from + i < values.length; i++) {
                values[from + i] = change.at(from + i, i, length);
            }
            t += everySeconds * (0.3 + 1.4 * random.nextDouble());
        }
    }

    /** Brush noise in bursts, a twentieth to a third of the tacho. */
    MadeRecording withBrushBursts() {
        scattered(
                4,
                0.1,
                0.6,
                (at, since, length) ->
                        values[at] + 0.4 * (0.03 + 0.15 * ((at / 7919) % 3) / 2) * random.nextGaussian());
        return this;
    }

    /** A contact that weakens the tacho for moments. */
    MadeRecording withCrackle() {
        scattered(3, 0.002, 0.05, (at, since, length) -> values[at] * (0.3 + 0.5 * ((at / 997) % 2)));
        return this;
    }

    /** Hum that steps up and down. */
    MadeRecording withHumSteps(double mainsHz) {
        scattered(
                6,
                1,
                4,
                (at, since, length) -> values[at]
                        + 0.4 * 0.08 * Math.sin(TURN * mainsHz * at / rateHz)
                        + 0.4 * 0.03 * Math.sin(TURN * 2 * mainsHz * at / rateHz + 1));
        return this;
    }

    /** Level steps, up and down by a fifth. */
    MadeRecording withLevelSteps() {
        scattered(5, 0.5, 3, (at, since, length) -> 0.8 * values[at]);
        return this;
    }

    /** Needles as high as the tacho, at every firing, wandering a little. */
    MadeRecording withNeedles(double mainsHz) {
        for (double t = 0.003; t < values.length / rateHz; t += 0.5 / mainsHz + 1e-4 * random.nextGaussian()) {
            int at = (int) (t * rateHz);
            for (int i = 0; i < 4 && at + i < values.length && at >= 0; i++) {
                values[at + i] += 0.4 * Math.exp(-i / 1.2) * (i % 2 == 0 ? 1 : -1);
            }
        }
        return this;
    }

    /** Takes samples out (or, below 0, gives them twice) at a time. */
    MadeRecording spliced(double atSeconds, int samples) {
        int at = (int) (atSeconds * rateHz);
        double[] other = new double[values.length - samples];
        System.arraycopy(values, 0, other, 0, at);
        int from = at + samples;
        System.arraycopy(values, from, other, at, values.length - from);
        return new MadeRecording(rateHz, other, random);
    }
}
