package org.steadyshaft.speed;

import java.io.IOException;
import java.util.Arrays;
import java.util.OptionalInt;
import java.util.stream.IntStream;
import org.steadyshaft.numeric.RealTransform;
import org.steadyshaft.numeric.Window;
import org.steadyshaft.published.CosineWindow;
import org.steadyshaft.signal.DoubleSeries;
import org.steadyshaft.signal.FundamentalTrack;
import org.steadyshaft.signal.KeptWaveform;

/**
 * Looks again, in a quarter or half of the time, at frames that show no line because the speed changes too fast within them: a load let go, a
 * motor that runs away. Only frames between two speeds are looked at: where the speed is the same on either side, something covered the tacho.
 */
final class FastChange {
    /** A frame is shortened to one part in these, the shortest first that holds enough cycles of the slower side. */
    private static final int[] PARTS = {4, 2};

    private static final double FEWEST_CYCLES = 6;
    private static final int FEWEST_SAMPLES = 128;

    /** So many frames without a line, at most, lie in a change that is fast. */
    private static final int MOST_FRAMES = 2;

    /** The speeds on either side differ by this at least, and by no more than an octave and a half. Our own figures. */
    private static final double LEAST_RATIO = 1.1;

    private static final double MOST_RATIO = 3;

    /** The line lies between them, or so far beyond as an overshoot takes it. */
    private static final double BEYOND = 1.15;

    /** And explains so much of the power of all lines. */
    private static final double LEAST_SHARE = 0.3;

    private final KeptWaveform waveform;
    private final int frameSamples;
    private final double mainsHz;
    private final int lowestBin;

    FastChange(KeptWaveform waveform, int frameSamples, double mainsHz, int lowestBin) {
        this.waveform = waveform;
        this.frameSamples = frameSamples;
        this.mainsHz = mainsHz;
        this.lowestBin = lowestBin;
    }

    /** The track with what the shorter looks show. */
    FundamentalTrack filled(FundamentalTrack track) throws IOException {
        int frames = track.frames();
        double[] hz = IntStream.range(0, frames).mapToDouble(track::frequencyHz).toArray();
        double[] amplitude =
                IntStream.range(0, frames).mapToDouble(track::amplitude).toArray();
        double[] noise = IntStream.range(0, frames).mapToDouble(track::noise).toArray();
        double[] second = IntStream.range(0, frames).mapToDouble(track::second).toArray();
        boolean any = false;
        for (int i = 0; i < frames; i++) {
            if (!track.rotates(i) && isBetweenTwoSpeeds(track, i)) {
                any |= look(track, i, hz, amplitude);
            }
        }
        return any
                ? new FundamentalTrack(
                        track.timeSeconds(0),
                        track.hopSeconds(),
                        track.frameSeconds(),
                        DoubleSeries.of(hz),
                        DoubleSeries.of(amplitude),
                        DoubleSeries.of(second),
                        DoubleSeries.of(noise))
                : track;
    }

    private static boolean isBetweenTwoSpeeds(FundamentalTrack track, int frame) {
        OptionalInt before = rotating(track, frame, -1);
        OptionalInt after = rotating(track, frame, 1);
        if (before.isEmpty() || after.isEmpty() || after.getAsInt() - before.getAsInt() > MOST_FRAMES + 1) {
            return false;
        }
        double ratio = track.frequencyHz(after.getAsInt()) / track.frequencyHz(before.getAsInt());
        double away = Math.max(ratio, 1 / ratio);
        return away > LEAST_RATIO && away < MOST_RATIO;
    }

    private static OptionalInt rotating(FundamentalTrack track, int frame, int step) {
        for (int i = frame + step; i >= 0 && i < track.frames() && Math.abs(i - frame) <= MOST_FRAMES; i += step) {
            if (track.rotates(i)) {
                return OptionalInt.of(i);
            }
        }
        return OptionalInt.empty();
    }

    private boolean look(FundamentalTrack track, int frame, double[] hz, double[] amplitude) throws IOException {
        double before = track.frequencyHz(rotating(track, frame, -1).orElseThrow());
        double after = track.frequencyHz(rotating(track, frame, 1).orElseThrow());
        double slower = Math.min(before, after);
        OptionalInt samples = Arrays.stream(PARTS)
                .map(part -> frameSamples / part)
                .filter(n -> n >= FEWEST_SAMPLES && n / waveform.rateHz() * slower > FEWEST_CYCLES)
                .findFirst();
        if (samples.isEmpty()) {
            return false;
        }
        Line line = new Line(slower / BEYOND, Math.max(before, after) * BEYOND);
        double toAmplitude = find(track.timeSeconds(frame), samples.getAsInt(), line);
        hz[frame] = line.hz;
        amplitude[frame] = toAmplitude * line.magnitude;
        return line.hz > 0;
    }

    private double find(double middleSeconds, int length, Line line) throws IOException {
        Window window = Window.of(CosineWindow.HANN, length);
        RealTransform transform = new RealTransform(length);
        double[] samples = new double[length];
        double[] work = new double[length];
        long first = Math.round(middleSeconds * waveform.rateHz()) - length / 2;
        waveform.read(Math.max(0, Math.min(first, waveform.samples() - length)), samples, length);
        double[] power =
                new double[(int) Math.min(length / 2 + 1, waveform.cleanHz() / waveform.rateHz() * length + 1)];
        window.applyCentred(samples, work);
        transform.forward(work);
        transform.power(work, power);
        LineFamilies families = new LineFamilies(waveform.rateHz() / length, mainsHz, lowestBin);
        new SweptSpectrum(window, transform, power.length).sharpen(samples, power, families.noisePower(power));
        families.find(power, line);
        return 2 / window.sum();
    }

    /** The line that explains most among those in reach. */
    private static final class Line implements LineFamilies.Taker {
        private final double fromHz;
        private final double toHz;
        private double share = LEAST_SHARE;
        private double hz;
        private double magnitude;

        Line(double fromHz, double toHz) {
            this.fromHz = fromHz;
            this.toHz = toHz;
        }

        @Override
        public void candidate(double lineHz, double lineMagnitude, double lineShare, double secondMagnitude) {
            if (lineHz > fromHz && lineHz < toHz && lineShare > share) {
                share = lineShare;
                hz = lineHz;
                magnitude = lineMagnitude;
            }
        }
    }
}
