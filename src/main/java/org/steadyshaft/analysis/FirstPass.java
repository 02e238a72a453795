package org.steadyshaft.analysis;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import org.steadyshaft.condition.HumMeter;
import org.steadyshaft.condition.LevelSurvey;
import org.steadyshaft.condition.RotationJudge;
import org.steadyshaft.condition.SpikeMeter;
import org.steadyshaft.condition.StandstillHum;
import org.steadyshaft.signal.Finding;
import org.steadyshaft.signal.FundamentalTrack;
import org.steadyshaft.signal.MainsHum;
import org.steadyshaft.signal.SampleSource;
import org.steadyshaft.signal.Waveform;
import org.steadyshaft.speed.SpectralTracker;

/**
 * What the first pass over a channel gives: levels, hum, and the tacho frequency over time.
 *
 * @param channel counted from 0
 * @param refusal why no speed can be told; absent where the channel carries a rotation
 * @param roles what each channel of the recording carries
 */
record FirstPass(
        int channel,
        LevelSurvey levels,
        FundamentalTrack track,
        SpikeMeter spikes,
        HumMeter hum,
        double sampleRateHz,
        Optional<Finding> refusal,
        List<ChannelRole> roles) {
    /** Frames of about a third of a second follow a motor and still tell 12 Hz apart from nothing. */
    private static final double FRAME_SECONDS = 0.3;

    /** Where that sees nothing, or a line of few cycles, frames eight times as long see a crawl. */
    private static final double LONG_FRAME_SECONDS = 2.4;

    /** Pick-up below this share of the tacho is left in: it moves a crossing by less than the noise of a usual recording. */
    private static final double LEAST_HUM_SHARE = 0.002;

    /** The mains stands off by 0.4 % at most in practice. */
    private static final double LOCKED = 0.006;

    /**
     * In short frames a line is the fundamental only where half its frequency could be seen too: a strong second harmonic of a
     * crawl would pass for a shaft of twice the speed. In long frames the lowest bin clear of the offset will do.
     */
    private static final int LOWEST_BIN_SHORT = 6;

    private static final int LOWEST_BIN_LONG = 3;

    private static final double FEWEST_CYCLES_A_FRAME = 10;

    /** Surveys the given channels in one pass and picks the one that turns most surely. */
    static FirstPass of(SampleSource source, int from, int to, double mainsHz) throws IOException {
        Listeners[] listeners = new Listeners[to - from];
        for (int i = 0; i < listeners.length; i++) {
            listeners[i] = new Listeners(source, from + i, mainsHz);
        }
        Waveform.streamAll(source, (block, count, first) -> {
            for (Listeners listener : listeners) {
                listener.block(block[listener.channel], count, first);
            }
        });
        FirstPass best = best(source, listeners);
        boolean slow = best.refusal.isEmpty() && cyclesAFrame(best.track) < FEWEST_CYCLES_A_FRAME;
        if (best.refusal.isPresent() || slow) {
            for (Listeners listener : listeners) {
                listener.trackAgain(source, LONG_FRAME_SECONDS, LOWEST_BIN_LONG);
            }
            Waveform.streamAll(source, (block, count, first) -> {
                for (Listeners listener : listeners) {
                    listener.tracker.block(block[listener.channel], count, first);
                }
            });
            FirstPass longer = best(source, listeners);
            return longer.refusal.isEmpty() ? longer : best;
        }
        return best;
    }

    private static FirstPass best(SampleSource source, Listeners[] listeners) {
        List<ChannelRole> roles = new ArrayList<>(Collections.nCopies(source.channels(), ChannelRole.NOT_LOOKED_AT));
        List<FirstPass> passes = Arrays.stream(listeners).map(Listeners::finish).toList();
        FirstPass best = passes.get(0);
        for (FirstPass pass : passes) {
            roles.set(pass.channel, pass.roleBesideATacho(listeners[0].mainsHz));
            best = pass.evidence() > best.evidence() ? pass : best;
        }
        if (best.refusal.isEmpty()) {
            roles.set(best.channel, ChannelRole.TACHO);
        }
        return best.with(roles);
    }

    /** What listens to one channel. Levels, hum and needles are gathered once; the spectra may be taken again. */
    private static final class Listeners implements Waveform.Listener {
        private final int channel;
        private final double mainsHz;
        private final double sampleRateHz;
        private final LevelSurvey levels;
        private final HumMeter hum;
        private final SpikeMeter spikes;
        private SpectralTracker tracker;

        Listeners(SampleSource source, int channel, double mainsHz) {
            this.channel = channel;
            this.mainsHz = mainsHz;
            this.sampleRateHz = source.sampleRateHz();
            this.levels = new LevelSurvey(sampleRateHz);
            this.hum = new HumMeter(sampleRateHz, source.samples(), mainsHz);
            this.spikes = new SpikeMeter(sampleRateHz);
            trackAgain(source, FRAME_SECONDS, LOWEST_BIN_SHORT);
        }

        void trackAgain(SampleSource source, double frameSeconds, int lowestBin) {
            tracker = new SpectralTracker(sampleRateHz, source.samples(), frameSeconds, mainsHz, lowestBin);
        }

        @Override
        public void block(double[] samples, int count, long first) {
            levels.block(samples, count, first);
            tracker.block(samples, count, first);
            hum.block(samples, count, first);
            spikes.block(samples, count, first);
        }

        FirstPass finish() {
            levels.finish();
            FundamentalTrack track = new StandstillHum(mainsHz).without(tracker.track(), hum.amplitude());
            return new FirstPass(
                    channel,
                    levels,
                    track,
                    spikes,
                    hum,
                    sampleRateHz,
                    new RotationJudge(mainsHz).refusal(levels, track),
                    List.of());
        }
    }

    private FirstPass with(List<ChannelRole> all) {
        return new FirstPass(channel, levels, track, spikes, hum, sampleRateHz, refusal, List.copyOf(all));
    }

    /** What the channel carries if another one is the tacho: the mains, or pulses once or twice a mains cycle. */
    private ChannelRole roleBesideATacho(double mainsHz) {
        double hz = track.rotatingFrames() == 0 ? 0 : track.frequencyHz(track.nearestFrame(rotatingMiddleSeconds()));
        double order = hz / mainsHz;
        boolean locked = Math.abs(order - 1) < LOCKED || Math.abs(order - 2) < LOCKED;
        if (!locked) {
            return ChannelRole.OTHER;
        }
        boolean pulses = levels.isLogic() || spikes.perSecond() > 0.5 * mainsHz || Math.abs(order - 2) < LOCKED;
        return pulses ? ChannelRole.GATE : ChannelRole.MAINS;
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

    /** Pick-up that is worth taking out of the waveform. */
    MainsHum mainsHum() {
        return levels.isLogic() ? MainsHum.NONE : hum.hum(track, LEAST_HUM_SHARE * meanAmplitude());
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
