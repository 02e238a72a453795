package org.steadyshaft.analysis;

import java.io.IOException;
import java.util.Optional;
import org.steadyshaft.condition.HumMeter;
import org.steadyshaft.condition.LevelSurvey;
import org.steadyshaft.condition.RotationJudge;
import org.steadyshaft.condition.SpikeMeter;
import org.steadyshaft.signal.Finding;
import org.steadyshaft.signal.FundamentalTrack;
import org.steadyshaft.signal.SampleSource;
import org.steadyshaft.signal.Waveform;
import org.steadyshaft.speed.SpectralTracker;

/**
 * What the first pass over a channel gives: levels, hum, and the tacho frequency over time.
 *
 * @param channel counted from 0
 * @param refusal why no speed can be told; absent where the channel carries a rotation
 */
record FirstPass(
        int channel,
        LevelSurvey levels,
        FundamentalTrack track,
        SpikeMeter spikes,
        HumMeter hum,
        double sampleRateHz,
        Optional<Finding> refusal) {
    /** Frames of about a third of a second follow a motor and still tell 12 Hz apart from nothing. */
    private static final double FRAME_SECONDS = 0.3;

    /** Where that sees nothing, or a line of few cycles, frames eight times as long see a crawl. */
    private static final double LONG_FRAME_SECONDS = 2.4;

    private static final double FEWEST_CYCLES_A_FRAME = 10;

    /** Surveys the given channels in one pass and picks the one that turns most surely. */
    static FirstPass of(SampleSource source, int from, int to, double mainsHz) throws IOException {
        FirstPass best = best(source, from, to, mainsHz, FRAME_SECONDS);
        boolean slow = best.refusal.isEmpty() && cyclesAFrame(best.track) < FEWEST_CYCLES_A_FRAME;
        if (best.refusal.isPresent() || slow) {
            FirstPass longer = best(source, from, to, mainsHz, LONG_FRAME_SECONDS);
            return longer.refusal.isEmpty() ? longer : best;
        }
        return best;
    }

    private static FirstPass best(SampleSource source, int from, int to, double mainsHz, double frameSeconds)
            throws IOException {
        Listeners[] listeners = new Listeners[to - from];
        for (int i = 0; i < listeners.length; i++) {
            listeners[i] = new Listeners(source, mainsHz, frameSeconds);
        }
        Waveform.streamAll(source, (block, count, first) -> {
            for (int i = 0; i < listeners.length; i++) {
                listeners[i].block(block[from + i], count, first);
            }
        });
        FirstPass best = listeners[0].finish(from, mainsHz);
        for (int i = 1; i < listeners.length; i++) {
            FirstPass other = listeners[i].finish(from + i, mainsHz);
            best = other.evidence() > best.evidence() ? other : best;
        }
        return best;
    }

    private static final class Listeners implements Waveform.Listener {
        private final LevelSurvey levels;
        private final SpectralTracker tracker;
        private final HumMeter hum;
        private final SpikeMeter spikes;
        private final double sampleRateHz;

        Listeners(SampleSource source, double mainsHz, double frameSeconds) {
            levels = new LevelSurvey(source.sampleRateHz());
            tracker = new SpectralTracker(source.sampleRateHz(), source.samples(), frameSeconds, mainsHz);
            sampleRateHz = source.sampleRateHz();
            spikes = new SpikeMeter(source.sampleRateHz());
            hum = new HumMeter(source.sampleRateHz(), source.samples(), mainsHz);
        }

        @Override
        public void block(double[] samples, int count, long first) {
            levels.block(samples, count, first);
            tracker.block(samples, count, first);
            hum.block(samples, count, first);
            spikes.block(samples, count, first);
        }

        FirstPass finish(int channel, double mainsHz) {
            levels.finish();
            FundamentalTrack track = tracker.track();
            return new FirstPass(
                    channel,
                    levels,
                    track,
                    spikes,
                    hum,
                    sampleRateHz,
                    new RotationJudge(mainsHz).refusal(levels, track));
        }
    }

    /** How surely a channel turns: rotating frames times the level over noise there; nothing for a refused one. */
    private double evidence() {
        if (refusal.isPresent()) {
            return -1;
        }
        double sum = 0;
        for (int i = 0; i < track.frames(); i++) {
            sum += track.rotates(i) ? Math.log1p(track.amplitude(i) / Math.max(track.noise(i), 1e-12)) : 0;
        }
        return sum / track.frames();
    }

    private static double cyclesAFrame(FundamentalTrack track) {
        double sum = 0;
        for (int i = 0; i < track.frames(); i++) {
            sum += track.frequencyHz(i);
        }
        return sum / Math.max(1, track.rotatingFrames()) * track.frameSeconds();
    }

    /** Amplitude of the mains pick-up over that of the tacho; 0 if none was seen. */
    double humRatio() {
        return meanAmplitude() > 0 ? hum.amplitude().orElse(0) / meanAmplitude() : 0;
    }

    /** Mean amplitude of the tacho over the rotating frames; 0 without any. */
    double meanAmplitude() {
        double sum = 0;
        for (int i = 0; i < track.frames(); i++) {
            sum += track.amplitude(i);
        }
        return sum / Math.max(1, track.rotatingFrames());
    }

    /** Time of the middle of the rotating frames, for an extract. */
    double rotatingMiddleSeconds() {
        int half = track.rotatingFrames() / 2;
        for (int i = 0; i < track.frames(); i++) {
            if (track.rotates(i) && half-- == 0) {
                return track.timeSeconds(i);
            }
        }
        return track.timeSeconds(0);
    }
}
