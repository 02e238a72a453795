package org.steadyshaft.capture;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.stream.IntStream;
import org.steadyshaft.capture.TextColumn.Says;
import org.steadyshaft.signal.PlainText;

/**
 * Infers the layout of a text export from its first lines: {@link TextTable} finds the rows of numbers, {@link TextHeader}
 * names and units above them, {@link IntervalLine} a rate or interval; here it is decided which column holds the times and
 * which the voltages. Nothing depends on who wrote the file.
 */
final class TextLayoutFinder {
    /** Preambles of more lines than this are not looked through. */
    static final int LOOK_LINES = 400;

    /** As many as {@link WavHeaderReader} takes. */
    private static final int MOST_COLUMNS = WavHeaderReader.MOST_CHANNELS;

    private final String name;
    private final List<String> lines;
    private final List<String> remarks = new ArrayList<>();

    /** @param lines the first lines of the file, up to {@link #LOOK_LINES} */
    TextLayoutFinder(String name, List<String> lines) {
        this.name = name;
        this.lines = lines;
    }

    TextLayout find() throws CaptureException {
        TextTable table = TextTable.bestOf(lines).orElseThrow(this::noTable);
        if (table.columns() > MOST_COLUMNS) {
            throw refused(table, table.columns() + " columns; expected 1 to " + MOST_COLUMNS);
        }
        TextHeader header = TextHeader.above(table, lines);
        remarks.addAll(header.remarks());
        OptionalInt time = timeColumn(table, header);
        boolean counts = time.isPresent() && countsSamples(table, header, time.getAsInt());
        if (counts) {
            remarks.add("column " + (time.getAsInt() + 1) + " counts samples; it gives no time");
        }
        Optional<IntervalLine> interval = IntervalLine.above(table, lines);
        interval.ifPresent(line -> remarks.add(line.remark()));
        return new TextLayout(
                table.cells(),
                table.first() + 1L,
                table.columns(),
                counts ? OptionalInt.empty() : time,
                timeUnit(table, header, time),
                time.isPresent() && header.says(time.getAsInt()) == Says.TIME_WITH_UNIT
                        ? header.columns().get(time.getAsInt()).factor()
                        : 1,
                interval.isPresent() && interval.get().isKnown()
                        ? OptionalDouble.of(interval.get().seconds())
                        : OptionalDouble.empty(),
                interval.flatMap(IntervalLine::unknownUnit),
                channels(table, header, time),
                remarks);
    }

    private TextLayout.TimeUnit timeUnit(TextTable table, TextHeader header, OptionalInt time) {
        if (time.isPresent() && table.isClock(time.getAsInt())) {
            return TextLayout.TimeUnit.CLOCK;
        }
        boolean named = time.isPresent() && header.says(time.getAsInt()) == Says.TIME_WITH_UNIT;
        return named ? TextLayout.TimeUnit.NAMED : TextLayout.TimeUnit.NOT_NAMED;
    }

    private CaptureException noTable() {
        String sample = lines.isEmpty() ? "" : lines.get(0).strip();
        return new CaptureException(name + ":1: found no rows of numbers in "
                + (lines.size() == 1 ? "its only line" : "the first " + lines.size() + " lines")
                + " (the text begins with '" + shortened(sample)
                + "'); expected a table of voltages, with times or with a sample rate");
    }

    private CaptureException refused(TextTable table, String foundAndExpected) {
        return new CaptureException(name + ":" + (table.first() + 1) + ": found " + foundAndExpected);
    }

    /** A piece of the file for a message: short, and without characters that would act on a terminal. */
    static String shortened(String text) {
        String plain = PlainText.of(text);
        return plain.length() <= 40 ? plain : plain.substring(0, 37) + "...";
    }

    /**
     * The column of times: one of clock times, else one with a unit of time, else one with a name like it, each rather if it
     * rises; else the first, if it rises throughout and holds no volts.
     *
     * @throws CaptureException if only a column in a unit that is not known could be it
     */
    private OptionalInt timeColumn(TextTable table, TextHeader header) throws CaptureException {
        Comparator<Integer> best = Comparator.comparing((Integer c) -> !table.increases(c))
                .thenComparing(c -> !table.isClock(c))
                .thenComparing(c -> header.says(c) != Says.TIME_WITH_UNIT)
                .thenComparing(c -> header.says(c) == Says.TIME_IN_UNKNOWN_UNIT)
                .thenComparing(c -> c);
        OptionalInt found = IntStream.range(0, table.columns())
                .boxed()
                .filter(c -> mayBeTimes(table, header, c))
                .min(best)
                .map(OptionalInt::of)
                .orElse(OptionalInt.empty());
        found = found.isPresent() ? found : unnamedTimes(table, header);
        if (found.isPresent()) {
            TextColumn column = header.columns().get(found.getAsInt());
            refuseUnknownUnit(table, column, found.getAsInt());
            remarks.add("times in column " + (found.getAsInt() + 1)
                    + (column.says() == Says.TIME_WITH_UNIT
                            ? " (unit " + column.unit().get() + ")"
                            : table.isClock(found.getAsInt()) ? " (times of day)" : ", taken for seconds"));
        }
        return found;
    }

    /** The first column, if it rises throughout; behind a count of samples the next, if it rises in even steps. */
    private static OptionalInt unnamedTimes(TextTable table, TextHeader header) {
        int first = table.firstFilled();
        boolean free = header.says(first) == Says.NOTHING || header.says(first) == Says.COUNT;
        if (!free || table.columns() <= first + 1 || !table.increases(first)) {
            return OptionalInt.empty();
        }
        boolean next = table.counts(first)
                && table.columns() > first + 2
                && header.says(first + 1) == Says.NOTHING
                && table.risesEvenly(first + 1);
        return OptionalInt.of(next ? first + 1 : first);
    }

    private static boolean mayBeTimes(TextTable table, TextHeader header, int column) {
        if (table.isClock(column)) {
            return !table.isDate(column);
        }
        // a single column called "time" is a column of times and nothing else only if it says in what
        return header.columns().get(column).saysTime()
                && !table.isEmpty(column)
                && (table.columns() > 1 || header.says(column) == Says.TIME_WITH_UNIT);
    }

    private void refuseUnknownUnit(TextTable table, TextColumn column, int index) throws CaptureException {
        if (column.says() == Says.TIME_IN_UNKNOWN_UNIT && !table.isClock(index)) {
            throw refused(
                    table,
                    "times in '" + shortened(column.unit().orElseThrow()) + "' (column '" + shortened(column.name())
                            + "'), which is no unit that is known; expected s, ms, us, ns, min, h or a time of day");
        }
    }

    /** A column 0, 1, 2, ... without a unit of time counts samples, and so does one that is called so. */
    private static boolean countsSamples(TextTable table, TextHeader header, int column) {
        return header.says(column) != Says.TIME_WITH_UNIT
                && !table.isClock(column)
                && (table.counts(column) || header.says(column) == Says.COUNT);
    }

    private List<TextLayout.Channel> channels(TextTable table, TextHeader header, OptionalInt time)
            throws CaptureException {
        List<TextLayout.Channel> channels = new ArrayList<>();
        List<TextColumn> speeds = new ArrayList<>();
        for (int c = 0; c < table.columns(); c++) {
            TextColumn column = header.columns().get(c);
            if (isSpeed(table, column, c)) {
                speeds.add(column);
            } else if (!isBeside(table, header, c, time)) {
                channels.add(new TextLayout.Channel(
                        c,
                        column.name(),
                        column.says() == Says.VOLTS ? column.factor() : 1,
                        column.unit(),
                        column.says() == Says.VOLTS));
            }
        }
        if (channels.isEmpty() && !speeds.isEmpty()) {
            throw refused(
                    table,
                    "a log of speeds or frequencies (column '"
                            + shortened(speeds.get(0).name())
                            + "'); expected the voltage of the tacho itself, some thousand samples a second");
        }
        if (channels.isEmpty()) {
            throw refused(table, "times only; expected a column of voltages beside them");
        }
        speeds.forEach(s -> remarks.add("column '" + s.name() + "' holds speeds or frequencies; it was left out"));
        return channels;
    }

    private static boolean isSpeed(TextTable table, TextColumn column, int index) {
        return column.says() == Says.SPEED_WITH_UNIT && !table.isEmpty(index)
                || column.says() == Says.SPEED && table.staysUp(index);
    }

    /** Whether a column is no channel: times, dates, counts, empty, or a quantity that is no waveform. */
    private boolean isBeside(TextTable table, TextHeader header, int column, OptionalInt time) {
        Says says = header.says(column);
        boolean isTime = time.isPresent() && time.getAsInt() == column || says == Says.TIME_WITH_UNIT;
        boolean counts = table.columns() > 1
                && (table.counts(column) || says == Says.COUNT && table.increases(column))
                && says != Says.VOLTS;
        boolean other = says == Says.OTHER_QUANTITY;
        if (!isTime && counts) {
            remarks.add("column " + (column + 1) + " counts samples; it was left out");
        }
        if (other) {
            remarks.add("column '" + header.name(column) + "' holds no voltage; it was left out");
        }
        return isTime || counts || other || table.isEmpty(column) || table.isClock(column);
    }
}
