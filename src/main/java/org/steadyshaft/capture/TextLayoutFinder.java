package org.steadyshaft.capture;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.regex.Pattern;
import org.steadyshaft.signal.PlainText;

/**
 * Infers the layout of a text export from its first lines: {@link TextTable} finds the rows of numbers, {@link TextHeader}
 * names and units above them, {@link IntervalLine} a rate or interval; here it is decided which column holds the times.
 * Nothing depends on who wrote the file.
 */
final class TextLayoutFinder {
    /** Preambles of more lines than this are not looked through. */
    static final int LOOK_LINES = 400;

    private static final Pattern TIME_NAME =
            Pattern.compile("(?i)\\b(time|times|zeit|temps|tiempo|tempo|t|x|x-axis|second|seconds|sekunden)\\b");
    private static final Pattern INDEX_NAME = Pattern.compile("(?i)\\b(index|sample|samples|no|nr|n|point)\\b");

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
        TextHeader header = TextHeader.above(table, lines);
        remarks.addAll(header.remarks());
        OptionalInt time = timeColumn(table, header);
        boolean counts = time.isPresent() && countsSamples(table, header, time.getAsInt());
        if (counts) {
            remarks.add("column " + (time.getAsInt() + 1) + " counts samples; it gives no time");
        }
        Optional<IntervalLine> interval = IntervalLine.above(table, lines);
        interval.ifPresent(line -> remarks.add(line.remark()));
        double secondsPerUnit = time.isPresent()
                ? header.units()
                        .get(time.getAsInt())
                        .map(u -> Units.seconds(u).orElse(1))
                        .orElse(1.0)
                : 1;
        return new TextLayout(
                table.cells(),
                table.first() + 1L,
                table.columns(),
                counts ? OptionalInt.empty() : time,
                secondsPerUnit,
                interval.isPresent() ? OptionalDouble.of(interval.get().seconds()) : OptionalDouble.empty(),
                channels(table, header, time),
                remarks);
    }

    private CaptureException noTable() {
        String sample = lines.isEmpty() ? "" : lines.get(0).strip();
        return new CaptureException(name + ":1: found no rows of numbers in the first " + lines.size()
                + " lines (the text begins with '" + shortened(sample)
                + "'); expected a table of voltages, with times or with a sample rate");
    }

    /** A piece of the file for a message: short, and without characters that would act on a terminal. */
    static String shortened(String text) {
        String plain = PlainText.of(text);
        return plain.length() <= 40 ? plain : plain.substring(0, 37) + "...";
    }

    /** A column with a unit of time or a name like one; else the first, if it rises throughout and holds no volts. */
    private OptionalInt timeColumn(TextTable table, TextHeader header) {
        OptionalInt found = OptionalInt.empty();
        for (int c = table.columns() - 1; c >= 0; c--) {
            boolean named = TIME_NAME.matcher(header.names().get(c)).find()
                    && header.units().get(c).isEmpty()
                    && table.columns() > 1;
            found = named && !header.hasVoltUnit(c) ? OptionalInt.of(c) : found;
        }
        for (int c = table.columns() - 1; c >= 0; c--) {
            found = header.hasTimeUnit(c) ? OptionalInt.of(c) : found;
        }
        int first = table.firstFilled();
        boolean rises = table.columns() > first + 1 && table.increases(first) && !header.hasVoltUnit(first);
        found = found.isEmpty() && rises ? OptionalInt.of(first) : found;
        found.ifPresent(c -> remarks.add("times in column " + (c + 1)
                + (header.hasTimeUnit(c) ? " (unit " + header.units().get(c).get() + ")" : "")));
        return found;
    }

    /** A column 0, 1, 2, ... without a unit of time counts samples, and so does one that is called so. */
    private static boolean countsSamples(TextTable table, TextHeader header, int column) {
        return !header.hasTimeUnit(column)
                && (table.counts(column)
                        || INDEX_NAME.matcher(header.names().get(column)).find());
    }

    private List<TextLayout.Channel> channels(TextTable table, TextHeader header, OptionalInt time)
            throws CaptureException {
        List<TextLayout.Channel> channels = new ArrayList<>();
        for (int c = 0; c < table.columns(); c++) {
            boolean isTime = time.isPresent() && time.getAsInt() == c || header.hasTimeUnit(c);
            if (!isTime && !table.isEmpty(c)) {
                Optional<String> unit = header.units().get(c);
                double volts = unit.map(u -> Units.volts(u).orElse(1)).orElse(1.0);
                channels.add(new TextLayout.Channel(c, header.names().get(c), volts, unit));
            }
        }
        if (channels.isEmpty()) {
            throw new CaptureException(
                    name + ":" + (table.first() + 1) + ": found times only; expected a column of voltages beside them");
        }
        return channels;
    }
}
