package org.steadyshaft.analysis;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.steadyshaft.condition.HumMeter;
import org.steadyshaft.condition.LevelSurvey;
import org.steadyshaft.condition.RotationJudge;
import org.steadyshaft.condition.Spikes;
import org.steadyshaft.condition.StandstillHum;
import org.steadyshaft.front.ChannelFront;
import org.steadyshaft.signal.Finding;
import org.steadyshaft.signal.FundamentalTrack;
import org.steadyshaft.signal.KeptWaveform;
import org.steadyshaft.signal.MainsHum;
import org.steadyshaft.signal.SampleSource;
import org.steadyshaft.speed.SpectralTracker;

/**
 * What the first look at a channel gives: levels, hum, and the tacho frequency over time.
 *
 * @param channel counted from 0
 * @param waveform what the later stages read
 * @param refusal why no speed can be told; absent where the channel carries a rotation
 * @param roles what each channel of the recording carries
 */
record FirstPass(
        int channel,
        LevelSurvey levels,
        FundamentalTrack track,
        Spikes spikes,
        HumMeter hum,
        KeptWaveform waveform,
        Optional<Finding> refusal,
        List<ChannelRole> roles) {
    /** Frames of about a third of a second follow a motor and still tell 12 Hz apart from nothing. */
    private static final double FRAME_SECONDS = 0.3;

    /** Where that sees nothing, or a line of few cycles, frames eight times as long see a crawl. */
    private static final double LONG_FRAME_SECONDS = 2.4;

    /** Pick-up below this share of the tacho is left in: it moves a crossing by less than the noise of a usual recording. */
    private static final double LEAST_HUM_SHARE = 0.002;

    /** Pick-up elsewhere is looked for from this share of the tacho's level on. */
    private static final double LEAST_ELSEWHERE = 0.01;

    /** The mains stands off by 0.4 % at most in practice. */
    private static final double LOCKED = 0.006;

    /**
     * In short frames a line is the fundamental only where half its frequency could be seen too: a strong second harmonic of a
     * crawl would pass for a shaft of twice the speed. In long frames the lowest bin clear of the offset will do.
     */
    private static final int LOWEST_BIN_SHORT = 6;

    private static final int LOWEST_BIN_LONG = 3;

    /** Each jump from one held pitch to another takes so much of what speaks for a channel. Our own figure. */
    private static final double A_JUMP = 0.5;

    private static final double FEWEST_CYCLES_A_FRAME = 10;

    /** Surveys the given channels and picks the one that turns most surely. */
    static FirstPass of(SampleSource source, int from, int to, double mainsHz, int polePairs) throws IOException {
        List<ChannelFront> fronts = ChannelFront.of(source, from, to, mainsHz);
        List<FirstPass> passes = new ArrayList<>();
        for (ChannelFront front : fronts) {
            passes.add(of(front, HumMeter.of(front.waveform(), mainsHz), FRAME_SECONDS, LOWEST_BIN_SHORT, polePairs));
        }
        FirstPass best = best(source, passes, mainsHz);
        boolean slow = best.refusal.isEmpty() && cyclesAFrame(best.track) < FEWEST_CYCLES_A_FRAME;
        if (best.refusal.isPresent() || slow) {
            List<FirstPass> longer = new ArrayList<>();
            for (int i = 0; i < fronts.size(); i++) {
                // notes are seen in short frames only
                longer.add(
                        RotationJudge.areNotes(passes.get(i).track)
                                ? passes.get(i)
                                : of(fronts.get(i), passes.get(i).hum, LONG_FRAME_SECONDS, LOWEST_BIN_LONG, polePairs));
            }
            FirstPass bestLonger = best(source, longer, mainsHz);
            return bestLonger.refusal.isEmpty() ? bestLonger : best;
        }
        return best;
    }

    private static FirstPass of(ChannelFront front, HumMeter hum, double frameSeconds, int lowestBin, int polePairs)
            throws IOException {
        double mainsHz = hum.mainsHz();
        FundamentalTrack all = new SpectralTracker(front.waveform(), frameSeconds, mainsHz, lowestBin).track();
        FundamentalTrack track = new StandstillHum(hum).without(all);
        double least = LEAST_ELSEWHERE * meanAmplitude(track);
        Optional<HumMeter> elsewhere = hum.elsewhere(front.waveform(), track, polePairs, least);
        if (elsewhere.isPresent()) {
            return of(front, elsewhere.get(), frameSeconds, lowestBin, polePairs);
        }
        return new FirstPass(
                front.channel(),
                front.levels(),
                track,
                front.spikes(),
                hum,
                front.waveform(),
                new RotationJudge(mainsHz, polePairs).refusal(front.levels(), track, front.waveform()),
                List.of());
    }

    private static FirstPass best(SampleSource source, List<FirstPass> passes, double mainsHz) {
        List<ChannelRole> roles = new ArrayList<>(Collections.nCopies(source.channels(), ChannelRole.NOT_LOOKED_AT));
        FirstPass best = passes.get(0);
        for (FirstPass pass : passes) {
            roles.set(pass.channel, pass.roleBesideATacho(mainsHz));
            best = pass.evidence() > best.evidence() ? pass : best;
        }
        if (best.refusal.isEmpty()) {
            roles.set(best.channel, ChannelRole.TACHO);
        }
        return best.with(roles);
    }

    /** Where the mains stands by the recorder's clock [Hz]: the nominal frequency, unless the pick-up says another. */
    double mainsHz() {
        return hum.mainsHz();
    }

    /** Samples a second of the recording. */
    double sampleRateHz() {
        return waveform.recordedRateHz();
    }

    /** The same with another track of the same rotation, and what an even wheel would have given. */
    FirstPass with(FundamentalTrack other, KeptWaveform even) {
        return new FirstPass(channel, levels, other, spikes, hum, even, refusal, roles);
    }

    private FirstPass with(List<ChannelRole> all) {
        return new FirstPass(channel, levels, track, spikes, hum, waveform, refusal, List.copyOf(all));
    }

    /** What the channel carries if another one is the tacho: the mains, or pulses once or twice a mains cycle. */
    private ChannelRole roleBesideATacho(double mainsHz) {
        double hz = track.rotatingFrames() == 0 ? 0 : track.frequencyHz(track.nearestFrame(rotatingMiddleSeconds()));
        double order = hz / mainsHz;
        boolean locked = Math.abs(order - 1) < LOCKED || Math.abs(order - 2) < LOCKED;
        if (!locked) {
            return refusal.isEmpty() ? ChannelRole.CANDIDATE : ChannelRole.OTHER;
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
        return sum / track.frames() * Math.pow(A_JUMP, RotationJudge.jumps(track));
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

    /** Amplitude of the mains pick-up; empty if none was seen beside the tacho. */
    OptionalDouble humAmplitude() {
        return hum.amplitudeBeside(track);
    }

    /** Amplitude of the mains pick-up over that of the tacho; 0 if none was seen. */
    double humRatio() {
        return meanAmplitude() > 0 ? humAmplitude().orElse(0) / meanAmplitude() : 0;
    }

    /** Mean amplitude of the tacho over the rotating frames; 0 without any. */
    double meanAmplitude() {
        return meanAmplitude(track);
    }

    private static double meanAmplitude(FundamentalTrack track) {
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
