package org.steadyshaft.speed;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.steadyshaft.numeric.Robust;
import org.steadyshaft.signal.CycleTimes;
import org.steadyshaft.signal.DoubleSeries;
import org.steadyshaft.signal.FundamentalTrack;
import org.steadyshaft.signal.KeptWaveform;
import org.steadyshaft.signal.MainsHum;
import org.steadyshaft.signal.Stretch;

/**
 * Finds every cycle of the tacho: mains pick-up is taken
 * out ({@link HumRemover}), a band around the tracked frequency is cut out without delay and its rising crossings are located
 * between samples ({@link CycleBand}, one for each octave of a run-up), and each
 * cycle must last about as long as the track says; where it does not, at gaps and at standstill the row of cycles is
 * broken. Memory grows with the cycles.
 */
public final class CycleFinder {
    /** Within this factor the speed counts as one range; beyond, each octave gets a filter of its own. */
    private static final double ONE_RANGE = 2.5;

    /** So far, in hops, the frequency of a rotating frame holds towards one in which nothing turned. */
    private static final double BESIDE_STANDING = 0.1;

    /** Two crossings closer than this share of a period are one, seen by two ranges. */
    private static final double SAME = 0.2;

    /** A cycle is believed when its length over that of the track lies between these. */
    private static final double SHORTEST_RATIO = 0.6;

    private static final double LONGEST_RATIO = 1.6;

    /** Cycles left out beside an edge of the signal (start, end, gap), where the filter still feels the edge. */
    private static final double EDGE_CYCLES = 3;

    private final FundamentalTrack track;
    private final List<Stretch> gaps;
    private final double durationSeconds;
    private final List<CycleBand> bands = new ArrayList<>();
    private final CycleTimes.Builder cycles = new CycleTimes.Builder();
    private double previousSeconds = Double.NEGATIVE_INFINITY;
    private int gap;

    /**
     * @param track where to look; must rotate in one frame at least
     * @param gaps stretches without a usable signal, in order
     * @param hum mains pick-up to be taken out first
     */
    public CycleFinder(KeptWaveform waveform, FundamentalTrack track, List<Stretch> gaps, MainsHum hum) {
        this(waveform, track, gaps, hum, LobeCrossings.STRONG);
    }

    /** @param strong share of the local level that a half-wave must reach to count */
    CycleFinder(KeptWaveform waveform, FundamentalTrack track, List<Stretch> gaps, MainsHum hum, double strong) {
        this.track = track;
        this.gaps = List.copyOf(gaps);
        this.durationSeconds = waveform.durationSeconds();
        double[] rotatingHz = track.rotating(track::frequencyHz);
        double lowestHz = Arrays.stream(rotatingHz).min().orElse(0);
        double highestHz = Arrays.stream(rotatingHz).max().orElse(0);
        if (highestHz == 0) {
            throw new IllegalArgumentException("a track without rotation");
        }
        double sineHz = Robust.median(rotatingHz);
        double step = highestHz <= ONE_RANGE * lowestHz ? ONE_RANGE : 2;
        for (double fromHz = lowestHz; fromHz <= highestHz; fromHz *= step) {
            bands.add(new CycleBand(
                    waveform,
                    new HumRemover(hum, waveform.rateHz()),
                    fromHz,
                    Math.min(step * fromHz, Math.nextUp(highestHz)),
                    sineHz,
                    strong,
                    this::centreHz));
        }
    }

    /** The frequency by a sine fit, where the speed was constant; to be asked for after {@link #cycles()}. */
    public Optional<SineMean> sineMean() {
        return bands.size() == 1 ? new SineFitter(gaps).fit(bands.get(0).sine()) : Optional.empty();
    }

    /**
     * The cycles; to be called once.
     *
     * @throws IOException if the recording has to be read again and cannot be
     */
    public CycleTimes cycles() throws IOException {
        List<DoubleSeries> found = new ArrayList<>();
        for (CycleBand band : bands) {
            found.add(band.crossings());
        }
        double[] seconds = found.stream().flatMapToDouble(DoubleSeries::stream).toArray();
        if (found.size() > 1) {
            Arrays.sort(seconds);
        }
        double before = Double.NEGATIVE_INFINITY;
        for (double at : seconds) {
            if ((at - before) * centreHz(at) > SAME) {
                crossing(at);
                before = at;
            }
        }
        return RowEnds.trimmed(cycles.build());
    }

    /** The tracked frequency at a time, between frames in proportion; beside a standing frame that of the rotating one. */
    private double centreHz(double timeSeconds) {
        double place = (timeSeconds - track.timeSeconds(0)) / track.hopSeconds();
        int before = (int) Math.max(0, Math.min(track.frames() - 1.0, Math.floor(place)));
        int after = Math.min(track.frames() - 1, before + 1);
        double left = track.frequencyHz(before);
        double right = track.frequencyHz(after);
        double share = Math.max(0, Math.min(1, place - before));
        if (left == 0 || right == 0) {
            boolean near = left > 0 ? share <= BESIDE_STANDING : share >= 1 - BESIDE_STANDING;
            return near ? Math.max(left, right) : 0;
        }
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
