package org.steadyshaft.capture;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;
import org.steadyshaft.signal.BlockReader;
import org.steadyshaft.signal.SampleFormat;
import org.steadyshaft.signal.SampleSource;

/**
 * A recording in delimited text. The file is read once through when it is opened, to count its rows and to fit the
 * sampling interval over all of them, and once more each time it is streamed.
 */
public final class TextSource implements SampleSource {
    /** A step between stamps this many intervals long, and longer than rounding explains, is a hole in the record. */
    private static final double HOLE_INTERVALS = 20;

    /** Between these no recorder of a tacho samples more seldom or more often. */
    private static final double SHORTEST_INTERVAL_SECONDS = 1.0 / WavHeaderReader.HIGHEST_RATE_HZ;

    private static final double LONGEST_INTERVAL_SECONDS = 1;

    /**
     * Times without a unit are taken for seconds only if they stand at most this far apart: at 200 samples a second the
     * tacho of a motor at 100 rpm is hardly sampled any more, while milliseconds and microseconds of any usual rate lie above.
     */
    private static final double LONGEST_UNNAMED_SECONDS = 0.005;

    /** The same for edges: a tacho of 10 Hz has 20 of them a second. */
    private static final double LONGEST_UNNAMED_EDGE_SECONDS = 0.05;

    /** A file of which more is damaged is refused. */
    private static final double MOST_DAMAGED_SHARE = 0.01;

    /** Stamps and header may differ by this share before one of them must be wrong. */
    private static final double CONTRADICTION = 0.01;

    private final Path file;
    private final String name;
    private final TextLayout layout;
    private final double intervalSeconds;
    private final long rows;
    private final List<String> remarks;
    /** The middle between the levels of a list of edges; absent if it is none. */
    private final OptionalDouble edges;

    private TextSource(
            Path file,
            String name,
            TextLayout layout,
            double intervalSeconds,
            long rows,
            List<String> remarks,
            OptionalDouble edges) {
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
        long rows = 0;
        try (Rows in = new Rows(file, name, layout)) {
            while (in.next()) {
                rows++;
                edges.add(in);
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
            checkUnnamed(name, layout, apart, LONGEST_UNNAMED_EDGE_SECONDS);
            return new TextSource(file, name, layout, apart, rows, remarks, OptionalDouble.of(edges.middle()));
        }
        double interval = interval(name, layout, options, times, remarks);
        checkInterval(name, layout, interval, times.interval() > 0);
        return new TextSource(file, name, layout, interval, rows, remarks, OptionalDouble.empty());
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

    /** Holds an interval against what a recorder of a tacho may have, more narrowly where no unit is named. */
    private static void checkInterval(String name, TextLayout layout, double interval, boolean fromTimes)
            throws CaptureException {
        if (fromTimes) {
            checkUnnamed(name, layout, interval, LONGEST_UNNAMED_SECONDS);
        }
        if (!(interval >= SHORTEST_INTERVAL_SECONDS && interval <= LONGEST_INTERVAL_SECONDS)) {
            throw new CaptureException(String.format(
                    Locale.ROOT,
                    "%s:%d: found samples %.3g s apart; expected %.0e to %.0f s. If the unit of the times was misread,"
                            + " name it in the header; if they are no times, give --sample-rate",
                    name,
                    layout.firstDataLine(),
                    interval,
                    SHORTEST_INTERVAL_SECONDS,
                    LONGEST_INTERVAL_SECONDS));
        }
    }

    private static void checkUnnamed(String name, TextLayout layout, double apart, double longest)
            throws CaptureException {
        if (layout.timeUnit() == TextLayout.TimeUnit.NOT_NAMED && apart > longest) {
            throw new CaptureException(String.format(
                    Locale.ROOT,
                    "%s:%d: found times %.3g apart without a unit, too far for seconds; expected the unit in the header, such"
                            + " as 'Time (ms)', or --sample-rate if they are no times",
                    name,
                    layout.firstDataLine(),
                    apart));
        }
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

    private static double interval(
            String name, TextLayout layout, ReadOptions options, TimeBase times, List<String> remarks)
            throws CaptureException {
        double fitted = times.interval() * layout.secondsPerUnit();
        if (layout.timeColumn().isPresent() && fitted > 0) {
            if (layout.interval().isPresent()
                    && Math.abs(fitted / layout.interval().getAsDouble() - 1) > CONTRADICTION) {
                remarks.add(String.format(
                        Locale.ROOT,
                        "The time stamps stand %.6g s apart, the header says %.6g s: one of them is wrong. The time stamps were"
                                + " used.",
                        fitted,
                        layout.interval().getAsDouble()));
            }
            double largest = times.largestStep() * layout.secondsPerUnit();
            if (largest > HOLE_INTERVALS * fitted) {
                remarks.add(String.format(
                        Locale.ROOT,
                        "The time stamps jump by %.4g s where %.4g s was expected: samples are missing there, and the"
                                + " speed around that place cannot be trusted.",
                        largest,
                        fitted));
            }
            return fitted;
        }
        if (options.sampleRateHz().isPresent()) {
            return 1 / options.sampleRateHz().getAsDouble();
        }
        if (layout.interval().isPresent()) {
            return layout.interval().getAsDouble();
        }
        if (layout.unknownIntervalUnit().isPresent()) {
            throw new CaptureException(name + ": found the time between samples, or their rate, in '"
                    + TextLayoutFinder.shortened(layout.unknownIntervalUnit().get())
                    + "', which is no unit that is known; expected s, ms, us, ns or Hz, kHz, MHz, or --sample-rate");
        }
        throw new CaptureException(
                name + ":" + layout.firstDataLine() + ": found voltages but no times, interval or sample"
                        + " rate; give the rate of the recording with --sample-rate");
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
    public BlockReader open() throws IOException {
        return new Reader(new Rows(file, name, layout));
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
                    TextLayout.Channel channel = layout.channels().get(c);
                    block[c][count] = in.value(channel.column()) * channel.voltsPerUnit();
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
