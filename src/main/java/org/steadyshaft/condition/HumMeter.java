package org.steadyshaft.condition;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.stream.IntStream;
import org.steadyshaft.numeric.FrameCutter;
import org.steadyshaft.numeric.HannPeak;
import org.steadyshaft.numeric.InOrder;
import org.steadyshaft.numeric.RealTransform;
import org.steadyshaft.numeric.Robust;
import org.steadyshaft.numeric.Window;
import org.steadyshaft.published.CosineWindow;
import org.steadyshaft.published.Mains;
import org.steadyshaft.signal.FundamentalTrack;
import org.steadyshaft.signal.KeptWaveform;
import org.steadyshaft.signal.MainsHum;

/**
 * Measures the mains pick-up in a channel from long Hann frames, whose power is averaged: mains keeps its frequency, so
 * its line stays narrow where a shaft's is wide.
 */
public final class HumMeter {
    /** Long enough to tell 50 Hz from a neighbour half a hertz away. */
    private static final double FRAME_SECONDS = 4;

    private static final int LONGEST_FRAME = 1 << 20;

    /** Frames worked on in one go. */
    private static final int SECTION_FRAMES = 16;

    /** Multiples of the mains frequency that are looked for: beside it, rectifiers and saturated transformers give these. */
    private static final int MOST_MULTIPLES = 3;

    /** The line must have this many times the median power of its surroundings (about 13 dB). */
    private static final double CLEAR_OF_NOISE = 20;

    /** Frames with the tacho in the line, as a share of all, beyond which it decides the line's mean power. */
    private static final double MOST_WITHIN = 0.05;

    private static final int TACHO_HARMONICS = 4;

    /** Half the width of a Hann line, in bins. */
    private static final double LOBE_BINS = 2;

    /** Surroundings reach this share of the mains frequency to both sides. */
    private static final double SURROUNDINGS = 0.12;

    /** What a header may say over what the recorder did: the usual sample rates taken for one another. */
    private static final double[] WRONG_RATES = {44100.0 / 48000, 48000.0 / 44100};

    /** The mains itself stands off by 0.4 % at most in practice. */
    private static final double SHIFTED_TOLERANCE = 0.005;

    private static final double[] USUAL = {50, 60};

    /** How far off the mains is looked for, as a share: the usual rates taken for one another, and 50 for 60 Hz. */
    private static final double LOWEST_ELSEWHERE = 0.82;

    private static final double HIGHEST_ELSEWHERE = 1.22;
    private static final int MOST_ELSEWHERE = 3;
    private static final int FEWEST_TOLD = 6;
    private static final int MOST_SIDEBANDS = 6;
    private static final double BESIDE_SIDEBAND_HZ = 1;

    /** A line that is the shaft's at the speeds of more than this share of the frames is taken for the shaft's. */
    private static final double MOST_OF_SHAFT = 0.1;

    /** A swing of the speed puts lines of one size on either side of the tacho; pick-up stands on one side only (power). */
    private static final double MIRRORED = 0.15;

    private static final int MIRROR_BINS = 2;

    private final double mainsHz;
    private final double binHz;
    private final Window window;
    private final double[] sum;
    private final List<HumLines> lines;
    private int frames;

    private HumMeter(double mainsHz, double binHz, Window window) {
        int length = window.length();
        this.mainsHz = mainsHz;
        this.binHz = binHz;
        this.window = window;
        this.sum = new double[(int) Math.min(length / 2 + 1, Math.ceil(4 * mainsHz / binHz))];
        this.lines = IntStream.rangeClosed(1, MOST_MULTIPLES)
                .mapToObj(order -> new HumLines(order, mainsHz, length, binHz))
                .toList();
    }

    /**
     * Measures a channel; frames are worked on side by side, section by section. A short recording gets a shorter frame.
     *
     * @param mainsHz nominal mains frequency
     * @throws IOException if the recording has to be read again and cannot be
     */
    public static HumMeter of(KeptWaveform waveform, double mainsHz) throws IOException {
        int length = frameSamples(waveform.rateHz(), waveform.samples());
        double binHz = waveform.rateHz() / length;
        Window window = Window.of(CosineWindow.HANN, length);
        int hop = length / 2;
        long frames = waveform.samples() < length ? 0 : (waveform.samples() - length) / hop + 1;
        int sections = (int) ((frames + SECTION_FRAMES - 1) / SECTION_FRAMES);
        List<HumMeter> parts = InOrder.map(sections, index -> {
            long from = (long) index * SECTION_FRAMES;
            long end = Math.min(frames, from + SECTION_FRAMES);
            HumMeter part = new HumMeter(mainsHz, binHz, window);
            part.look(waveform, from * hop, (end - 1) * hop + length);
            return part;
        });
        HumMeter whole = new HumMeter(mainsHz, binHz, window);
        parts.forEach(whole::add);
        return whole;
    }

    private void look(KeptWaveform waveform, long from, long to) throws IOException {
        int length = window.length();
        RealTransform transform = new RealTransform(length);
        double[] work = new double[length];
        double[] power = new double[sum.length];
        FrameCutter cutter = new FrameCutter(length, length / 2, 0, (frame, index) -> {
            window.applyCentred(frame, work);
            transform.forward(work);
            transform.power(work, power);
            frame(work, power);
        });
        waveform.stream(from, to, (samples, count, first) -> cutter.add(samples, count));
    }

    private void frame(double[] transformed, double[] power) {
        for (int k = 0; k < sum.length; k++) {
            sum[k] += power[k];
        }
        lines.forEach(line -> line.frame(transformed));
        frames++;
    }

    /** Appends the frames of another. */
    private void add(HumMeter next) {
        for (int k = 0; k < sum.length; k++) {
            sum[k] += next.sum[k];
        }
        for (int i = 0; i < lines.size(); i++) {
            lines.get(i).add(next.lines.get(i));
        }
        frames += next.frames;
    }

    private static int frameSamples(double sampleRateHz, long samples) {
        int length = RealTransform.powerOfTwoFrom(Math.min(LONGEST_FRAME, sampleRateHz * FRAME_SECONDS));
        while (length > 256 && length > samples) {
            length /= 2;
        }
        return length;
    }

    /**
     * Amplitude of a line within 1 % of the mains frequency, in the unit of the samples; empty if none stands clear or
     * the recording is too short to tell.
     */
    public OptionalDouble amplitude() {
        OptionalInt peak = linePeak(mainsHz, Mains.FREQUENCY_TOLERANCE * mainsHz);
        return peak.isPresent() ? OptionalDouble.of(lineAmplitude(peak.getAsInt())) : OptionalDouble.empty();
    }

    /**
     * The same beside a tacho: empty where the tacho itself, or one of its harmonics, lies in the line in a good part of the frames, for
     * then it is not the mains that was measured.
     */
    public OptionalDouble amplitudeBeside(FundamentalTrack track) {
        int within = 0;
        for (int i = 0; i < track.frames(); i++) {
            boolean near = false;
            for (int k = 1; k <= TACHO_HARMONICS && track.rotates(i); k++) {
                near |= Math.abs(k * track.frequencyHz(i) - mainsHz)
                        < Mains.FREQUENCY_TOLERANCE * mainsHz + LOBE_BINS * binHz;
            }
            within += near ? 1 : 0;
        }
        return within > MOST_WITHIN * track.frames() ? OptionalDouble.empty() : amplitude();
    }

    /**
     * Amplitude of a multiple of the mains while the tacho is elsewhere; empty if nothing stands at it, or the tacho is never away for long
     * enough.
     *
     * @param order 1 or 2
     */
    public OptionalDouble amplitudeAway(FundamentalTrack track, int order) {
        double hz = order * mainsHz;
        OptionalInt peak = linePeak(hz, Mains.FREQUENCY_TOLERANCE * hz);
        double lineHz = peak.isPresent() ? HannPeak.at(sum, peak.getAsInt()).bin() * binHz : hz;
        HumLines line = lines.get(order - 1);
        return line.reaches(lineHz) ? line.amplitudeAway(lineHz, 0.5 / binHz, track) : OptionalDouble.empty();
    }

    /** Frequency of the mains line [Hz]; empty as {@link #amplitude}. */
    public OptionalDouble frequencyHz() {
        OptionalInt peak = linePeak(mainsHz, Mains.FREQUENCY_TOLERANCE * mainsHz);
        return peak.isPresent()
                ? OptionalDouble.of(HannPeak.at(sum, peak.getAsInt()).bin() * binHz)
                : OptionalDouble.empty();
    }

    /**
     * The pick-up over time: the mains line and its multiples, as far as they stand clear and exceed a share of the tacho. Without a
     * line at the mains itself a multiple is more likely a sideband of ripple, and is left alone.
     *
     * @param track where the tacho is: what lies near it is left alone
     * @param leastAmplitude smaller lines are left alone too
     */
    public MainsHum hum(FundamentalTrack track, double leastAmplitude) {
        OptionalDouble base = frequencyHz();
        if (base.isEmpty()) {
            return MainsHum.NONE;
        }
        double baseHz = base.getAsDouble();
        double hopSeconds = 0.5 / binHz;
        List<MainsHum.Line> found = new ArrayList<>();
        for (HumLines line : lines) {
            OptionalInt peak = linePeak(line.order() * baseHz, binHz);
            if (peak.isPresent() && lineAmplitude(peak.getAsInt()) > leastAmplitude) {
                double hz = HannPeak.at(sum, peak.getAsInt()).bin() * binHz;
                boolean near = Math.abs(hz - line.order() * mainsHz) < Mains.REACH * line.order() * mainsHz;
                if (near && line.reaches(hz)) {
                    MainsHum.Line steady = line.line(hz, hopSeconds, track);
                    if (HumLines.keepsItsPhase(steady)) {
                        found.add(steady);
                    }
                }
            }
        }
        return new MainsHum(hopSeconds, hopSeconds, found);
    }

    /** Bin of the highest local maximum within reach of a frequency; empty if it does not stand clear of the noise. */
    private OptionalInt linePeak(double aboutHz, double reachHz) {
        int centre = (int) Math.round(aboutHz / binHz);
        int reach = (int) Math.ceil(reachHz / binHz);
        int wide = (int) Math.ceil(SURROUNDINGS * mainsHz / binHz);
        if (frames == 0 || wide < reach + 6 || centre + wide + 1 >= sum.length) {
            return OptionalInt.empty();
        }
        int peak = highest(centre, reach);
        boolean local = sum[peak] > sum[peak - 1] && sum[peak] >= sum[peak + 1];
        boolean clear = local && sum[peak] >= CLEAR_OF_NOISE * surroundings(peak, wide);
        return clear ? OptionalInt.of(peak) : OptionalInt.empty();
    }

    /** The frequency that is taken for that of the mains [Hz]. */
    public double mainsHz() {
        return mainsHz;
    }

    /**
     * The pick-up of a mains that stands elsewhere: the other of the two usual frequencies, or where a wrong sample rate in the header moves
     * it. Such a line keeps its phase over the recording, stands on no turn of the shaft and on no sideband that ripple at the mains makes;
     * in a recording too short to show that it must stand where the usual rates taken for one another put it.
     *
     * @param track where the tacho is
     * @param polePairs its cycles a turn: lines at the shaft's multiples belong to it
     * @param leastAmplitude smaller lines are left alone
     * @return the meter of that mains; empty if there is none, or if a line stands at the mains frequency itself
     * @throws IOException if the recording has to be read again and cannot be
     */
    public Optional<HumMeter> elsewhere(
            KeptWaveform waveform, FundamentalTrack track, int polePairs, double leastAmplitude) throws IOException {
        if (frames == 0 || track.rotatingFrames() == 0 || amplitude().isPresent()) {
            return Optional.empty();
        }
        for (double hz : standingApart(track.rotating(track::frequencyHz), polePairs, leastAmplitude)) {
            HumMeter other = HumMeter.of(waveform, usual(hz));
            MainsHum.Line line = other.lines.get(0).line(hz, 0.5 / binHz, track);
            boolean isTold = other.lines.get(0).frames() >= FEWEST_TOLD
                    ? HumLines.keepsItsPhaseWell(line)
                    : isOfUsualRates(hz / mainsHz);
            if (isTold && other.amplitude().isPresent()) {
                return Optional.of(other);
            }
        }
        return Optional.empty();
    }

    /** Frequencies of narrow lines around the mains that are not the shaft's, highest first. */
    private List<Double> standingApart(double[] trackHz, int polePairs, double leastAmplitude) {
        List<Integer> peaks = new ArrayList<>();
        for (int k = (int) Math.ceil(LOWEST_ELSEWHERE * mainsHz / binHz);
                k * binHz < HIGHEST_ELSEWHERE * mainsHz;
                k++) {
            int wide = (int) Math.ceil(SURROUNDINGS * k);
            boolean inside = wide > 8 && k - wide > 1 && k + wide + 1 < sum.length;
            if (inside
                    && sum[k] > sum[k - 1]
                    && sum[k] >= sum[k + 1]
                    && sum[k] > CLEAR_OF_NOISE * surroundings(k, wide)
                    && lineAmplitude(k) > leastAmplitude) {
                peaks.add(k);
            }
        }
        return peaks.stream()
                .sorted(Comparator.comparingDouble(k -> -sum[k]))
                .map(k -> HannPeak.at(sum, k).bin() * binHz)
                .filter(hz -> Arrays.stream(trackHz)
                                .filter(f -> isOfTheShaft(hz, f, polePairs))
                                .count()
                        <= MOST_OF_SHAFT * trackHz.length)
                .filter(hz -> !isMirrored(hz, Robust.median(trackHz)))
                .limit(MOST_ELSEWHERE)
                .toList();
    }

    private boolean isOfTheShaft(double hz, double tachoHz, int polePairs) {
        double order = hz * polePairs / tachoHz;
        if (Math.abs(order - Math.rint(order)) * tachoHz / polePairs < 2.5 * binHz) {
            return true;
        }
        return IntStream.rangeClosed(1, MOST_SIDEBANDS)
                .anyMatch(m -> Math.abs(hz - Math.abs(tachoHz - m * mainsHz)) < BESIDE_SIDEBAND_HZ);
    }

    /** Whether a line has a counterpart as far on the other side of the tacho or a harmonic: both belong to a swing of its speed. */
    private boolean isMirrored(double hz, double tachoHz) {
        int own = (int) Math.round(hz / binHz);
        return IntStream.rangeClosed(1, TACHO_HARMONICS)
                .map(k -> (int) Math.round((2 * k * tachoHz - hz) / binHz))
                .filter(other -> other > MIRROR_BINS && other + MIRROR_BINS < sum.length - 1)
                .anyMatch(other -> sum[highest(other, MIRROR_BINS)] > MIRRORED * sum[highest(own, 1)]);
    }

    /** One of the two usual frequencies if it is next to it, else as it is. */
    private static double usual(double hz) {
        for (double nominal : USUAL) {
            if (Math.abs(hz / nominal - 1) < Mains.FREQUENCY_TOLERANCE) {
                return nominal;
            }
        }
        return hz;
    }

    private static boolean isOfUsualRates(double ratio) {
        for (double wrong : WRONG_RATES) {
            if (Math.abs(ratio / wrong - 1) < SHIFTED_TOLERANCE) {
                return true;
            }
        }
        return false;
    }

    private int highest(int centre, int reach) {
        int peak = Math.max(1, Math.min(sum.length - 2, centre));
        for (int k = Math.max(1, centre - reach); k <= Math.min(sum.length - 2, centre + reach); k++) {
            peak = sum[k] > sum[peak] ? k : peak;
        }
        return peak;
    }

    private double lineAmplitude(int peak) {
        return 2 * HannPeak.at(sum, peak).magnitude() / Math.sqrt(frames) / window.sum();
    }

    /** Median power beside the line, its own width of three bins to each side left out. */
    private double surroundings(int peak, int wide) {
        double[] beside = new double[2 * (wide - 3)];
        for (int i = 0; i < wide - 3; i++) {
            beside[2 * i] = sum[Math.max(0, peak - 4 - i)];
            beside[2 * i + 1] = sum[Math.min(sum.length - 1, peak + 4 + i)];
        }
        return Robust.median(beside);
    }
}
