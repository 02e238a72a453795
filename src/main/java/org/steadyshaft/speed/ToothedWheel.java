package org.steadyshaft.speed;

import java.io.IOException;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.steadyshaft.numeric.Robust;
import org.steadyshaft.signal.CycleTimes;
import org.steadyshaft.signal.FundamentalTrack;
import org.steadyshaft.signal.KeptWaveform;
import org.steadyshaft.signal.MainsHum;
import org.steadyshaft.signal.Stretch;

/**
 * Looks whether a wheel with missing teeth or magnets explains what the usual search for cycles made of a recording: a row that is broken
 * again and again, cycles of uneven length where the filter rings through a break, or a track of the turn itself, whose harmonics are
 * stronger than it is. Then cycles are sought anew, with only strong half-waves counted, and {@link TurnBreaks} decides.
 */
public final class ToothedWheel {
    /** The filter rings through a break with up to half of the level; a tooth gives more. */
    private static final double STRONG = 0.6;

    /** A row broken more often than this may be a wheel. */
    private static final int BROKEN = 5;

    /** Cycles as uneven as this, and so many of them as a share, may be a wheel too. */
    private static final double UNEVEN = 1.25;

    private static final double UNEVEN_SHARE = 0.01;

    /** A harmonic this much stronger than the fundamental is likelier the tooth than the turn. */
    private static final double STRONGER = 1.5;

    private static final int MOST_TEETH = 80;

    /** Cycles in the middle of the recording whose height is looked at, and how many of them must be low: ten turns of 200 teeth. */
    private static final int LOOKED_AT = 2000;

    private static final int LEAST_WEAK = 9;
    private static final int MOST_IN_A_CYCLE = 1 << 16;

    /** Periods of the tracked frequency over which harmonics are measured, in a few places. */
    private static final double WINDOW_PERIODS = 8;

    private static final int PLACES = 7;

    private final KeptWaveform waveform;
    private final FundamentalTrack track;
    private final List<Stretch> gaps;
    private final MainsHum hum;

    /** @param track rotates in one frame at least */
    public ToothedWheel(KeptWaveform waveform, FundamentalTrack track, List<Stretch> gaps, MainsHum hum) {
        this.waveform = waveform;
        this.track = track;
        this.gaps = List.copyOf(gaps);
        this.hum = hum;
    }

    /**
     * A wheel and how it was tracked.
     *
     * @param breaks its cycles and teeth
     * @param track frequency of its teeth over time
     */
    public record Found(TurnBreaks.Found breaks, FundamentalTrack track) {}

    /**
     * Looks for a wheel.
     *
     * @param usual cycles by the usual search
     * @throws IOException if the recording has to be read again and cannot be
     */
    public Optional<Found> find(CycleTimes usual) throws IOException {
        Optional<TurnBreaks.Found> plain = new TurnBreaks().find(usual);
        if (plain.isPresent()) {
            return Optional.of(new Found(plain.get(), track));
        }
        double[] level = harmonicLevels();
        int strongest = 1;
        for (int order = 2; order < level.length; order++) {
            strongest = level[order] > level[strongest] ? order : strongest;
        }
        if (level[strongest] > STRONGER * level[1]) {
            FundamentalTrack teeth =
                    track.harmonic(strongest, level[strongest] / Math.max(level[1], Double.MIN_NORMAL));
            return strong(teeth);
        }
        return usual.segments() >= BROKEN || isUneven(usual) || hasWeakCycles(usual) ? strong(track) : Optional.empty();
    }

    private Optional<Found> strong(FundamentalTrack teeth) throws IOException {
        CycleTimes cycles = new CycleFinder(waveform, teeth, gaps, hum, STRONG).cycles();
        return new TurnBreaks().find(cycles).map(breaks -> new Found(breaks, teeth));
    }

    /** Whether again and again a cycle is much lower than the usual, as the ringing in a break is. */
    private boolean hasWeakCycles(CycleTimes cycles) throws IOException {
        int count = Math.min(LOOKED_AT, cycles.crossings() - 1);
        int first = (cycles.crossings() - 1 - count) / 2;
        double[] peaks = new double[count];
        for (int i = 0; i < count; i++) {
            double from = cycles.timeSeconds(first + i);
            int length = (int) Math.max(
                    4, Math.min(MOST_IN_A_CYCLE, (cycles.timeSeconds(first + i + 1) - from) * waveform.rateHz()));
            double[] samples = new double[length];
            waveform.read(waveform.firstNotBefore(from), samples, length);
            double mean = Arrays.stream(samples).average().orElse(0);
            peaks[i] = Arrays.stream(samples).map(v -> Math.abs(v - mean)).max().orElse(0);
        }
        double usual = count > 0 ? Robust.median(peaks) : 0;
        long weak = Arrays.stream(peaks).filter(p -> p < STRONG * usual).count();
        return weak > LEAST_WEAK && weak < count / 3;
    }

    private static boolean isUneven(CycleTimes cycles) {
        int uneven = 0;
        for (int segment = 0; segment < cycles.segments(); segment++) {
            for (int i = cycles.firstOf(segment) + 1; i + 1 < cycles.endOf(segment); i++) {
                double ratio = (cycles.timeSeconds(i + 1) - cycles.timeSeconds(i))
                        / (cycles.timeSeconds(i) - cycles.timeSeconds(i - 1));
                uneven += ratio > UNEVEN || ratio < 1 / UNEVEN ? 1 : 0;
            }
        }
        return uneven > UNEVEN_SHARE * cycles.cycles();
    }

    /** Median amplitude of each multiple of the tracked frequency, from index 1 on, over a few places of the recording. */
    private double[] harmonicLevels() throws IOException {
        double[] all = track.rotating(track::frequencyHz);
        double lowest = Robust.median(all);
        int orders = (int) Math.min(MOST_TEETH, Math.floor(0.9 * waveform.cleanHz() / lowest));
        double[][] levels = new double[Math.max(2, orders + 1)][PLACES];
        int place = 0;
        int step = Math.max(1, all.length / PLACES);
        int seen = 0;
        for (int frame = 0; frame < track.frames() && place < PLACES; frame++) {
            if (track.rotates(frame) && seen++ % step == step / 2) {
                measure(frame, levels, place++);
            }
        }
        double[] medians = new double[levels.length];
        for (int order = 1; order < levels.length && place > 0; order++) {
            medians[order] = Robust.median(Arrays.copyOf(levels[order], place));
        }
        return medians;
    }

    private void measure(int frame, double[][] levels, int place) throws IOException {
        double hz = track.frequencyHz(frame);
        int length = (int) Math.max(32, WINDOW_PERIODS / hz * waveform.rateHz());
        double[] samples = new double[length];
        waveform.read(waveform.firstNotBefore(track.timeSeconds(frame)) - length / 2, samples, length);
        for (int order = 1; order < levels.length; order++) {
            double re = 0;
            double im = 0;
            for (int i = 0; i < length; i++) {
                double weight = 1 - Math.cos(2 * Math.PI * (i + 0.5) / length);
                double angle = 2 * Math.PI * order * hz * i / waveform.rateHz();
                re += weight * samples[i] * Math.cos(angle);
                im += weight * samples[i] * Math.sin(angle);
            }
            levels[order][place] = 2 * Math.hypot(re, im) / length;
        }
    }
}
