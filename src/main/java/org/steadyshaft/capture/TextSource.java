package org.steadyshaft.capture;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.steadyshaft.signal.BlockReader;
import org.steadyshaft.signal.DoubleSeries;
import org.steadyshaft.signal.SampleFormat;
import org.steadyshaft.signal.SampleSource;

/**
 * A recording in delimited text. The file is read once through when it is opened, to count its rows and to fit the
 * sampling interval over all of them. The samples of a short one are kept; a long one is read once more each time it is
 * streamed.
 */
public final class TextSource implements SampleSource {
    /** A file of which more is damaged is refused. */
    private static final double MOST_DAMAGED_SHARE = 0.01;

    /** Samples of all channels that are kept: 16 MB. */
    private static final long MOST_KEPT_SAMPLES = 1 << 21;

    private final Path file;
    private final String name;
    private final TextLayout layout;
    private final double intervalSeconds;
    private final long rows;
    private final Optional<List<DoubleSeries>> kept;
    private final List<String> remarks;
    /** The middle between the levels of a list of edges; absent if it is none. */
    private final OptionalDouble edges;

    private TextSource(
            Path file,
            String name,
            TextLayout layout,
            double intervalSeconds,
            long rows,
            Optional<List<DoubleSeries>> kept,
            List<String> remarks,
            OptionalDouble edges) {
        this.kept = kept;
        this.edges = edges;
        this.file = file;
        this.name = name;
        this.layout = layout;
        this.intervalSeconds = intervalSeconds;
        this.rows = rows;
        this.remarks = List.copyOf(remarks);
    }

    /**
     * Infers the layout and reads the file through.
     *
     * @throws CaptureException if there is no table of numbers, a row is damaged, or the time base is missing
     */
    public static TextSource open(Path file, String name, ReadOptions options) throws IOException {
        TextLayout layout = new TextLayoutFinder(name, firstLines(file, name)).find();
        EdgeCheck edges = new EdgeCheck(layout);
        TimeBase times = new TimeBase();
        List<String> remarks = new ArrayList<>();
        List<DoubleSeries.Builder> samples =
                layout.channels().stream().map(c -> new DoubleSeries.Builder()).toList();
        long rows = 0;
        try (Rows in = new Rows(file, name, layout)) {
            while (in.next()) {
                rows++;
                edges.add(in);
                for (int c = 0; c < samples.size() && rows * samples.size() <= MOST_KEPT_SAMPLES; c++) {
                    samples.get(c).add(volts(in, layout, c));
                }
                if (layout.timeColumn().isPresent()) {
                    times.add(in.value(layout.timeColumn().getAsInt()));
                }
            }
            if (edges.isEdges() && in.firstLeftOut().isPresent()) {
                // an edge that is lost is two half-waves less
                throw in.notNumbers(in.firstLeftOut().get());
            }
            remarkDamage(in, rows, remarks);
        }
        if (edges.isEdges()) {
            double apart = times.interval() * layout.secondsPerUnit();
            new TextInterval(name, layout).checkEdges(apart);
            return new TextSource(
                    file, name, layout, apart, rows, Optional.empty(), remarks, OptionalDouble.of(edges.middle()));
        }
        TextInterval intervals = new TextInterval(name, layout);
        double interval = intervals.of(options, times, remarks);
        intervals.check(interval, times.interval() > 0);
        return new TextSource(
                file, name, layout, interval, rows, kept(samples, layout, rows), remarks, OptionalDouble.empty());
    }

    private static double volts(Rows in, TextLayout layout, int channel) {
        TextLayout.Channel column = layout.channels().get(channel);
        return in.value(column.column()) * column.voltsPerUnit();
    }

    /** The samples, if all of them were kept. */
    private static Optional<List<DoubleSeries>> kept(List<DoubleSeries.Builder> samples, TextLayout layout, long rows) {
        boolean all = rows * layout.channels().size() <= MOST_KEPT_SAMPLES;
        return all
                ? Optional.of(samples.stream().map(DoubleSeries.Builder::build).toList())
                : Optional.empty();
    }

    private static void remarkDamage(Rows in, long rows, List<String> remarks) throws CaptureException {
        if (in.leftOut() > Math.max(1, MOST_DAMAGED_SHARE * rows)) {
            throw in.notNumbers(in.firstLeftOut().orElseThrow());
        }
        in.firstLeftOut()
                .ifPresent(
                        first -> remarks.add(
                                (in.leftOut() == 1 ? "Line " : in.leftOut() + " lines, the first of them ")
                                        + first.line() + " ('"
                                        + TextLayoutFinder.shortened(
                                                first.text().strip())
                                        + "') " + (in.leftOut() == 1 ? "holds" : "hold")
                                        + " no numbers or a time out of order: left out; where a sample is missing, a straight line stands."));
        in.cut()
                .ifPresent(
                        last -> remarks.add(
                                "The last line (" + last.line() + ", '"
                                        + TextLayoutFinder.shortened(last.text().strip())
                                        + "') is not whole or out of order: the record was cut there. What stands before it was used."));
    }

    /** The list of edges that this text is, or else the text itself. */
    SampleSource orEdges() throws IOException {
        return edges.isPresent() ? EdgeSource.read(file, name, layout, edges.getAsDouble(), remarks) : this;
    }

    private static List<String> firstLines(Path file, String name) throws IOException {
        List<String> first = new ArrayList<>();
        try (Lines lines = new Lines(TextBytes.open(file), name)) {
            while (first.size() < TextLayoutFinder.LOOK_LINES && lines.next()) {
                first.add(lines.line());
            }
        }
        return first;
    }

    @Override
    public String name() {
        return name;
    }

    @Override
    public double sampleRateHz() {
        return 1 / intervalSeconds;
    }

    @Override
    public long samples() {
        return rows;
    }

    @Override
    public int channels() {
        return layout.channels().size();
    }

    @Override
    public String channelName(int channel) {
        return layout.channels().get(channel).name();
    }

    @Override
    public SampleFormat format() {
        String separator = switch (layout.cells().separator()) {
            case '\t' -> "tab";
            case ' ' -> "blanks";
            default -> "'" + layout.cells().separator() + "'";
        };
        return new SampleFormat(
                "text",
                "separated by " + separator + (layout.cells().decimalMark() == ',' ? ", decimal comma" : ""),
                layout.channels().stream().allMatch(TextLayout.Channel::isVolts) ? "V" : "units of the file",
                OptionalDouble.empty(),
                OptionalDouble.empty(),
                SampleFormat.RecorderKind.SCOPE);
    }

    @Override
    public List<String> remarks() {
        return remarks;
    }

    /** What was inferred and from where, one line each. */
    public List<String> inferred() {
        List<String> all = new ArrayList<>();
        all.add("numbers from line " + layout.firstDataLine() + ", " + layout.columns() + " columns");
        all.addAll(layout.remarks());
        return all;
    }

    @Override
    public boolean opensAnywhere() {
        return kept.isPresent();
    }

    @Override
    public BlockReader open() throws IOException {
        return kept.isPresent() ? new KeptReader(kept.get(), 0) : new Reader(new Rows(file, name, layout));
    }

    @Override
    public BlockReader openAt(long sample) throws IOException {
        return kept.isPresent() ? new KeptReader(kept.get(), sample) : SampleSource.super.openAt(sample);
    }

    private final class KeptReader implements BlockReader {
        private final List<DoubleSeries> samples;
        private int at;

        KeptReader(List<DoubleSeries> samples, long from) {
            this.samples = samples;
            this.at = (int) Math.min(Math.max(0, from), rows);
        }

        @Override
        public int read(double[][] block) {
            int count = (int) Math.min(block[0].length, rows - at);
            for (int c = 0; c < block.length; c++) {
                for (int i = 0; i < count; i++) {
                    block[c][i] = samples.get(c).get(at + i);
                }
            }
            at += count;
            return count;
        }

        @Override
        public void close() {
            // nothing is held open
        }
    }

    private final class Reader implements BlockReader {
        private final Rows in;

        Reader(Rows in) {
            this.in = in;
        }

        @Override
        public int read(double[][] block) throws IOException {
            int count = 0;
            while (count < block[0].length && in.next()) {
                for (int c = 0; c < block.length; c++) {
                    block[c][count] = volts(in, layout, c);
                }
                count++;
            }
            return count;
        }

        @Override
        public void close() throws IOException {
            in.close();
        }
    }
}
