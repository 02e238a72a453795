package org.steadyshaft.speed;

import java.util.List;
import org.steadyshaft.numeric.BandFilter;
import org.steadyshaft.numeric.RealTransform;
import org.steadyshaft.signal.CycleTimes;
import org.steadyshaft.signal.FundamentalTrack;
import org.steadyshaft.signal.Stretch;
import org.steadyshaft.signal.Waveform;

/**
 * Finds every cycle of the tacho in a second pass over the recording: a band around the tracked frequency is cut out
 * without delay ({@link BandFilter}), its rising crossings are located between samples ({@link LobeCrossings}), and each
 * cycle must last about as long as the track says; where it does not, at gaps and at standstill the row of cycles is
 * broken. Memory grows with the cycles.
 */
public final class CycleFinder implements Waveform.Listener {
    /** The filter's frame spans this many periods at least, so that its echo fits between the frame's zeros. */
    private static final double FRAME_PERIODS = 24;

    /** Samples a period after filtering at least: the cubic between them is then exact to a millionth of a period. */
    private static final double SAMPLES_A_PERIOD = 20;

    /** A cycle is believed when its length over that of the track lies between these. */
    private static final double SHORTEST_RATIO = 0.6;

    private static final double LONGEST_RATIO = 1.6;

    /** Cycles left out beside an edge of the signal (start, end, gap), where the filter still feels the edge. */
    private static final double EDGE_CYCLES = 3;

    private final FundamentalTrack track;
    private final List<Stretch> gaps;
    private final double durationSeconds;
    private final BandFilter filter;
    private final LobeCrossings crossings;
    private final CycleTimes.Builder cycles = new CycleTimes.Builder();
    private double previousSeconds = Double.NEGATIVE_INFINITY;
    private int gap;

    /**
     * @param track where to look; must rotate in one frame at least
     * @param gaps stretches without a usable signal, in order
     */
    public CycleFinder(Waveform waveform, FundamentalTrack track, List<Stretch> gaps) {
        this.track = track;
        this.gaps = List.copyOf(gaps);
        this.durationSeconds = waveform.durationSeconds();
        double lowestHz = Double.POSITIVE_INFINITY;
        double highestHz = 0;
        for (int i = 0; i < track.frames(); i++) {
            if (track.rotates(i)) {
                lowestHz = Math.min(lowestHz, track.frequencyHz(i));
                highestHz = Math.max(highestHz, track.frequencyHz(i));
            }
        }
        if (highestHz == 0) {
            throw new IllegalArgumentException("a track without rotation");
        }
        double rate = waveform.sampleRateHz();
        double frameSeconds = Math.max(track.frameSeconds(), FRAME_PERIODS / lowestHz);
        int frame = RealTransform.powerOfTwoFrom(Math.min(frameSeconds, 2 * durationSeconds) * rate);
        double factor = 4.0 / frame;
        while (rate * factor < SAMPLES_A_PERIOD * highestHz) {
            factor *= 2;
        }
        this.filter = new BandFilter(rate, frame, factor, waveform.samples(), this::centreHz, this::filtered);
        this.crossings = new LobeCrossings(filter.outputRateHz(), this::crossing);
    }

    @Override
    public void block(double[] samples, int count, long first) {
        filter.add(samples, count);
    }

    /** The cycles; to be called once, after the last block. */
    public CycleTimes cycles() {
        filter.finish();
        crossings.finish();
        return cycles.build();
    }

    private void filtered(double[] samples, int count, long first) {
        crossings.scan(samples, count, first);
    }

    /** The tracked frequency at a time, between frames in proportion; beside a standing frame that of the rotating one. */
    private double centreHz(double timeSeconds) {
        double place = (timeSeconds - track.timeSeconds(0)) / track.hopSeconds();
        int before = (int) Math.max(0, Math.min(track.frames() - 1.0, Math.floor(place)));
        int after = Math.min(track.frames() - 1, before + 1);
        double left = track.frequencyHz(before);
        double right = track.frequencyHz(after);
        if (left == 0 || right == 0) {
            return Math.max(left, right);
        }
        double share = Math.max(0, Math.min(1, place - before));
        return left + share * (right - left);
    }

    private void crossing(double timeSeconds) {
        double hz = centreHz(timeSeconds);
        double edgeSeconds = hz > 0 ? EDGE_CYCLES / hz : 0;
        if (hz == 0 || timeSeconds < edgeSeconds || timeSeconds > durationSeconds - edgeSeconds) {
            breakHere();
            return;
        }
        double lengthSeconds = timeSeconds - previousSeconds;
        double ratio = lengthSeconds * hz;
        if (inGap(timeSeconds, edgeSeconds)) {
            breakHere();
            return;
        }
        if (ratio < SHORTEST_RATIO || ratio > LONGEST_RATIO) {
            cycles.breakHere();
        }
        cycles.add(timeSeconds);
        previousSeconds = timeSeconds;
    }

    private void breakHere() {
        cycles.breakHere();
        previousSeconds = Double.NEGATIVE_INFINITY;
    }

    private boolean inGap(double timeSeconds, double edgeSeconds) {
        while (gap < gaps.size() && gaps.get(gap).toSeconds() + edgeSeconds < timeSeconds) {
            gap++;
        }
        return gap < gaps.size() && gaps.get(gap).fromSeconds() - edgeSeconds <= timeSeconds;
    }
}
