package org.steadyshaft.condition;

import java.util.OptionalDouble;
import java.util.stream.IntStream;
import org.steadyshaft.numeric.Robust;
import org.steadyshaft.published.Mains;
import org.steadyshaft.signal.DoubleSeries;
import org.steadyshaft.signal.FundamentalTrack;
import org.steadyshaft.signal.MainsHum;

/**
 * The bins around one multiple of the mains frequency in Hann frame after Hann frame, and the amplitude and phase of a line
 * in them. A frame in which the tacho, one of its harmonics or a ripple sideband of it passes by is not believed.
 */
final class HumLines {
    /** Bins from the line to either side that its shape is fitted to: the main lobe of a Hann line. */
    private static final int LOBE_BINS = 2;

    /** What comes closer to the line than this many bins is not told from it. */
    private static final double GUARD_BINS = 3;

    private static final int MOST_HARMONICS = 4;

    /** Ripple at the mains frequency and twice that puts sidebands so many mains multiples away from the tacho. */
    private static final int SIDEBANDS = 2;

    /** A line is carried on over this many frames that are not believed. */
    private static final int FRAMES_CARRIED = 2;

    private static final int FEWEST_PAIRS = 3;
    private static final int FEWEST_AWAY = 2;

    /** Mean cosine of the phase step between such frames: near 1 for the mains, near 0 for what wanders. */
    private static final double COHERENT = 0.65;

    /** A grid that wanders by 20 mHz from frame to frame still gives 0.87; a tacho that sagged to the line for some seconds 0.68. */
    private static final double VERY_COHERENT = 0.85;

    private final int order;
    private final int length;
    private final double binHz;
    private final int firstBin;
    private final int bins;
    private final DoubleSeries.Builder re = new DoubleSeries.Builder();
    private final DoubleSeries.Builder im = new DoubleSeries.Builder();
    private int frames;

    /**
     * @param order multiple of the mains frequency
     * @param length samples in a frame
     * @param binHz distance of the bins; a frame lasts 1 / binHz
     */
    HumLines(int order, double mainsHz, int length, double binHz) {
        double reachHz = Mains.FREQUENCY_TOLERANCE * order * mainsHz;
        this.order = order;
        this.length = length;
        this.binHz = binHz;
        this.firstBin = Math.max(1, (int) Math.floor((order * mainsHz - reachHz) / binHz) - LOBE_BINS);
        int last = (int) Math.ceil((order * mainsHz + reachHz) / binHz) + LOBE_BINS;
        this.bins = Math.max(0, Math.min(length / 2 - 1, last) - firstBin + 1);
    }

    /** Whether the fit of a line at a frequency finds all its bins. */
    boolean reaches(double frequencyHz) {
        int middle = (int) Math.floor(frequencyHz / binHz);
        return frames > 0 && middle - LOBE_BINS + 1 >= firstBin && middle + LOBE_BINS < firstBin + bins;
    }

    int frames() {
        return frames;
    }

    int order() {
        return order;
    }

    /** Keeps the bins of a frame's transform (real and imaginary parts by turns). */
    void frame(double[] transform) {
        for (int k = firstBin; k < firstBin + bins; k++) {
            re.add(transform[2 * k]);
            im.add(transform[2 * k + 1]);
        }
        frames++;
    }

    /** Appends the frames of another. */
    void add(HumLines next) {
        next.re.build().stream().forEach(re::add);
        next.im.build().stream().forEach(im::add);
        frames += next.frames;
    }

    /**
     * The line at a frequency over time.
     *
     * @param frequencyHz where it stands
     * @param hopSeconds from one frame's start to the next one's
     */
    MainsHum.Line line(double frequencyHz, double hopSeconds, FundamentalTrack track) {
        double[] cosine = new double[frames];
        double[] sine = new double[frames];
        boolean[] believed = new boolean[frames];
        double bin = frequencyHz / binHz;
        for (int frame = 0; frame < frames; frame++) {
            double fromSeconds = frame * hopSeconds;
            believed[frame] = isFree(frequencyHz, fromSeconds, track);
            fit(frame, bin, frequencyHz * fromSeconds, cosine, sine);
        }
        bridge(believed, cosine, sine);
        return new MainsHum.Line(frequencyHz, DoubleSeries.of(cosine), DoubleSeries.of(sine));
    }

    /** Median amplitude of a line over the frames to which the tacho does not come near; empty if those are too few. */
    OptionalDouble amplitudeAway(double frequencyHz, double hopSeconds, FundamentalTrack track) {
        MainsHum.Line line = line(frequencyHz, hopSeconds, track);
        double[] away = IntStream.range(0, frames)
                .filter(frame -> isFree(frequencyHz, frame * hopSeconds, track))
                .mapToDouble(frame ->
                        Math.hypot(line.cosine().get(frame), line.sine().get(frame)))
                .toArray();
        return away.length < FEWEST_AWAY ? OptionalDouble.empty() : OptionalDouble.of(Robust.median(away));
    }

    /** Least-squares fit of the Hann line's shape to the bins; the phase is turned back to time 0 of the recording. */
    private void fit(int frame, double bin, double cyclesBefore, double[] cosine, double[] sine) {
        double sumRe = 0;
        double sumIm = 0;
        double norm = 0;
        int middle = (int) Math.floor(bin);
        for (int k = middle - LOBE_BINS + 1; k <= middle + LOBE_BINS; k++) {
            double d = k - bin;
            double height = 0.5 * sinc(d) + 0.25 * sinc(d - 1) + 0.25 * sinc(d + 1);
            double angle = Math.PI * d;
            int at = frame * bins + k - firstBin;
            // conj of height e^(-i angle) times the bin
            sumRe += height * (re.get(at) * Math.cos(angle) - im.get(at) * Math.sin(angle));
            sumIm += height * (re.get(at) * Math.sin(angle) + im.get(at) * Math.cos(angle));
            norm += height * height;
        }
        double back = -2 * Math.PI * (cyclesBefore - Math.floor(cyclesBefore));
        double scale = 2 / (norm * length);
        cosine[frame] = scale * (sumRe * Math.cos(back) - sumIm * Math.sin(back));
        sine[frame] = -scale * (sumRe * Math.sin(back) + sumIm * Math.cos(back));
    }

    /**
     * Whether a line's phase goes on from each frame to the next that shares no samples with it, as that of the mains does; a
     * multiple of the shaft's speed wanders. True where too few frames tell.
     */
    static boolean keepsItsPhase(MainsHum.Line line) {
        return keepsItsPhase(line, COHERENT);
    }

    /** The same where more is asked: nothing else says that the line is the mains. */
    static boolean keepsItsPhaseWell(MainsHum.Line line) {
        return keepsItsPhase(line, VERY_COHERENT);
    }

    private static boolean keepsItsPhase(MainsHum.Line line, double coherent) {
        double together = 0;
        double all = 0;
        int pairs = 0;
        for (int i = 2; i < line.cosine().size(); i++) {
            double a = line.cosine().get(i);
            double b = line.sine().get(i);
            double c = line.cosine().get(i - 2);
            double d = line.sine().get(i - 2);
            together += a * c + b * d;
            all += Math.hypot(a, b) * Math.hypot(c, d);
            pairs++;
        }
        return pairs < FEWEST_PAIRS || together > coherent * all;
    }

    private static double sinc(double x) {
        return Math.abs(x) < 1e-9 ? 1 : Math.sin(Math.PI * x) / (Math.PI * x);
    }

    /** Whether nothing of the tacho lies near the line during a frame. */
    private boolean isFree(double lineHz, double fromSeconds, FundamentalTrack track) {
        double lowestHz = Double.POSITIVE_INFINITY;
        double highestHz = 0;
        int end = track.nearestFrame(fromSeconds + 1 / binHz);
        for (int i = track.nearestFrame(fromSeconds); i <= end; i++) {
            if (track.rotates(i)) {
                lowestHz = Math.min(lowestHz, track.frequencyHz(i));
                highestHz = Math.max(highestHz, track.frequencyHz(i));
            }
        }
        double guardHz = GUARD_BINS * binHz;
        boolean free = true;
        for (int k = 1; k <= MOST_HARMONICS; k++) {
            free &= k * highestHz < lineHz - guardHz || k * lowestHz > lineHz + guardHz;
        }
        double mainsHz = lineHz / order;
        for (int m = order - SIDEBANDS; m <= order + SIDEBANDS; m++) {
            free &= highestHz < m * mainsHz - guardHz || lowestHz > m * mainsHz + guardHz;
        }
        return free;
    }

    /** Carries believed values over the next frames that are not; further away the line counts as unknown. */
    private static void bridge(boolean[] believed, double[] cosine, double[] sine) {
        for (int i = 0; i < believed.length; i++) {
            if (!believed[i]) {
                int near = nearest(believed, i);
                boolean found = near < believed.length;
                cosine[i] = found ? cosine[near] : 0;
                sine[i] = found ? sine[near] : 0;
            }
        }
    }

    /** Index of the nearest believed frame within reach; the number of frames if there is none. */
    private static int nearest(boolean[] believed, int i) {
        for (int away = 1; away <= FRAMES_CARRIED; away++) {
            if (i - away >= 0 && believed[i - away]) {
                return i - away;
            }
            if (i + away < believed.length && believed[i + away]) {
                return i + away;
            }
        }
        return believed.length;
    }
}
