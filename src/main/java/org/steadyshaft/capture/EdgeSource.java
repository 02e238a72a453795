package org.steadyshaft.capture;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import org.steadyshaft.signal.BlockReader;
import org.steadyshaft.signal.DoubleSeries;
import org.steadyshaft.signal.SampleFormat;
import org.steadyshaft.signal.SampleSource;

/**
 * The list of edges that a logic recorder writes: one row each time a level changes, at uneven times. It is handed out as
 * even samples, each the mean level over its interval, so that every edge keeps its exact place: the mean of the sample it
 * falls into says where. Memory grows with the edges.
 */
final class EdgeSource implements SampleSource {
    /** Samples in the mean time from edge to edge; the mean over a sample keeps the place of an edge within it. */
    private static final double SAMPLES_AN_EDGE = 24;

    private static final double HIGHEST_RATE_HZ = 2e6;

    /** Hours of the fastest tacho; they are all held in memory. */
    private static final int MOST_EDGES = 50_000_000;

    private final String name;
    private final TextLayout layout;
    private final List<DoubleSeries> changes;
    private final List<Boolean> startsHigh;
    private final double firstSeconds;
    private final List<String> remarks;
    private final double rateHz;
    private final long samples;

    private EdgeSource(
            String name,
            TextLayout layout,
            List<DoubleSeries> changes,
            List<Boolean> startsHigh,
            double first,
            double last,
            List<String> remarks)
            throws CaptureException {
        this.name = name;
        this.layout = layout;
        this.changes = changes;
        this.startsHigh = startsHigh;
        this.firstSeconds = first;
        this.remarks = List.copyOf(remarks);
        int most = changes.stream().mapToInt(DoubleSeries::size).max().orElse(0);
        if (most < 2 || !(last > first)) {
            throw new CaptureException(name + ":" + layout.firstDataLine()
                    + ": found a list of edges with fewer than two" + " changes of level; expected some hundred");
        }
        this.rateHz = Math.min(HIGHEST_RATE_HZ, SAMPLES_AN_EDGE * most / (last - first));
        this.samples = (long) Math.floor((last - first) * rateHz);
    }

    /**
     * Reads all edges of a text export whose rows are changes of level.
     *
     * @param middle between the two levels
     * @param remarks what is odd about the text
     */
    static EdgeSource read(Path file, String name, TextLayout layout, double middle, List<String> remarks)
            throws IOException {
        List<DoubleSeries.Builder> changes = new ArrayList<>();
        List<Boolean> startsHigh = new ArrayList<>();
        int time = layout.timeColumn().orElseThrow();
        double first = 0;
        double last = 0;
        double[] level = new double[layout.channels().size()];
        try (Rows rows = new Rows(file, name, layout)) {
            long edges = 0;
            for (boolean any = false; rows.next(); any = true) {
                if (++edges > MOST_EDGES) {
                    throw new CaptureException(name + ": found more than " + MOST_EDGES
                            + " edges; expected fewer (cut the recording into parts)");
                }
                last = rows.value(time) * layout.secondsPerUnit();
                for (int c = 0; c < level.length; c++) {
                    double now = rows.value(layout.channels().get(c).column()) > middle ? 1 : 0;
                    if (!any) {
                        first = last;
                        changes.add(new DoubleSeries.Builder());
                        startsHigh.add(now > 0);
                    } else if (now != level[c]) {
                        changes.get(c).add(last);
                    }
                    level[c] = now;
                }
            }
        }
        return new EdgeSource(
                name,
                layout,
                changes.stream().map(DoubleSeries.Builder::build).toList(),
                startsHigh,
                first,
                last,
                remarks);
    }

    @Override
    public String name() {
        return name;
    }

    @Override
    public double sampleRateHz() {
        return rateHz;
    }

    @Override
    public long samples() {
        return samples;
    }

    @Override
    public int channels() {
        return changes.size();
    }

    @Override
    public String channelName(int channel) {
        return layout.channels().get(channel).name();
    }

    @Override
    public SampleFormat format() {
        return new SampleFormat(
                "text",
                "list of edges",
                "level",
                OptionalDouble.empty(),
                OptionalDouble.empty(),
                SampleFormat.RecorderKind.SCOPE);
    }

    @Override
    public List<String> remarks() {
        return remarks;
    }

    @Override
    public BlockReader open() {
        return new Reader();
    }

    private final class Reader implements BlockReader {
        private final int[] next = new int[changes.size()];
        private long sample;

        @Override
        public int read(double[][] block) {
            int count = (int) Math.min(block[0].length, samples - sample);
            for (int i = 0; i < count; i++, sample++) {
                double from = firstSeconds + (sample - 0.5) / rateHz;
                for (int c = 0; c < block.length; c++) {
                    block[c][i] = mean(c, from, from + 1 / rateHz);
                }
            }
            return count;
        }

        /** Share of the time between two instants that a channel is high. */
        private double mean(int channel, double from, double to) {
            DoubleSeries edges = changes.get(channel);
            double high = 0;
            double at = from;
            while (next[channel] < edges.size() && edges.get(next[channel]) <= to) {
                double edge = Math.max(at, edges.get(next[channel]));
                high += isHigh(channel) ? edge - at : 0;
                at = edge;
                next[channel]++;
            }
            high += isHigh(channel) ? to - at : 0;
            // exactly 0 and 1 where nothing changes, whatever the rounding of the times
            return at == from ? (isHigh(channel) ? 1 : 0) : Math.max(0, Math.min(1, high / (to - from)));
        }

        private boolean isHigh(int channel) {
            return startsHigh.get(channel) == (next[channel] % 2 == 0);
        }

        @Override
        public void close() {
            // nothing is held open
        }
    }
}
