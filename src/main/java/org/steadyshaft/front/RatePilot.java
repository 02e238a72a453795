package org.steadyshaft.front;

import java.io.IOException;
import java.util.Arrays;
import java.util.List;
import java.util.Queue;
import java.util.concurrent.ConcurrentLinkedQueue;
import org.steadyshaft.numeric.InOrder;
import org.steadyshaft.numeric.RealTransform;
import org.steadyshaft.signal.SampleRange;
import org.steadyshaft.signal.SampleSource;
import org.steadyshaft.speed.PilotLook;

/**
 * Looks at frames here and there at the recorder's own rate, before anything is decimated, and tells for each channel how high the tacho
 * may lie. What lies between the frames is checked afterwards by {@link ChannelFront}: where the waveform bends more than in any frame that
 * was looked at, the pilot looks again.
 */
final class RatePilot {
    /** A frame follows a run-up and still shows a tacho of 10 Hz. */
    private static final double FRAME_SECONDS = 0.3;

    /** Frames looked at, evenly spread; a short recording is looked at as a whole. */
    private static final int FRAMES = 48;

    private final SampleSource source;
    private final double mainsHz;
    private final int frameSamples;
    private final Queue<PilotLook> idle = new ConcurrentLinkedQueue<>();

    RatePilot(SampleSource source, double mainsHz) {
        this.source = source;
        this.mainsHz = mainsHz;
        this.frameSamples =
                RealTransform.powerOfTwoFrom(Math.max(256, Math.min(1 << 20, FRAME_SECONDS * source.sampleRateHz())));
    }

    int frameSamples() {
        return frameSamples;
    }

    /** Places of frames that lie evenly over the recording; none where it is shorter than one. */
    long[] spread() {
        long room = source.samples() - frameSamples;
        if (room < 0) {
            return new long[0];
        }
        int count = (int) Math.min(FRAMES, room / frameSamples + 1);
        long[] places = new long[count];
        for (int i = 0; i < count; i++) {
            places[i] = count == 1 ? 0 : room * i / (count - 1);
        }
        return places;
    }

    /**
     * Highest frequency that may be the tacho's in the frames at some places, channel by channel; 0 where no line stands clear in any.
     *
     * @param places first samples of the frames, in order
     */
    double[] highestHz(long[] places) throws IOException {
        double[] highest = new double[source.channels()];
        for (double[] ofFrame : looks(places)) {
            for (int c = 0; c < highest.length; c++) {
                highest[c] = Math.max(highest[c], ofFrame[c]);
            }
        }
        return highest;
    }

    private List<double[]> looks(long[] places) throws IOException {
        if (source.opensAnywhere()) {
            return InOrder.map(places.length, i -> {
                try (SampleRange range = new SampleRange(source, places[i])) {
                    return look(range.next(frameSamples));
                }
            });
        }
        double[][] found = new double[places.length][];
        try (SampleRange range = new SampleRange(source, 0)) {
            long at = 0;
            double[][] frame = new double[0][];
            for (int i = 0; i < places.length; i++) {
                long fresh = Math.max(places[i], at);
                range.skip(fresh - at);
                double[][] next = range.next((int) (places[i] + frameSamples - fresh));
                frame = joined(frame, next);
                at = places[i] + frameSamples;
                found[i] = look(frame);
            }
        }
        return Arrays.asList(found);
    }

    /** The last samples of one frame and the fresh ones of the next make a frame. */
    private double[][] joined(double[][] before, double[][] fresh) {
        if (fresh[0].length == frameSamples) {
            return fresh;
        }
        double[][] frame = new double[fresh.length][];
        for (int c = 0; c < fresh.length; c++) {
            int kept = frameSamples - fresh[c].length;
            frame[c] = Arrays.copyOfRange(before[c], before[c].length - kept, before[c].length + fresh[c].length);
            System.arraycopy(fresh[c], 0, frame[c], kept, fresh[c].length);
        }
        return frame;
    }

    private double[] look(double[][] frame) {
        PilotLook known = idle.poll();
        PilotLook look = known == null ? new PilotLook(frameSamples, source.sampleRateHz(), mainsHz) : known;
        double[] highest = Arrays.stream(frame).mapToDouble(look::highestHz).toArray();
        idle.add(look);
        return highest;
    }
}
