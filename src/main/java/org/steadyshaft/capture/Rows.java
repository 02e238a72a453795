package org.steadyshaft.capture;

import java.io.Closeable;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayDeque;
import java.util.BitSet;
import java.util.Deque;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;

/**
 * The rows of numbers of a text export, one after the other. Blank lines are passed over; a damaged last line (the record
 * was cut) ends the table. A damaged line before that, or one whose time is out of order, is left out; where a sample is
 * missing there, a straight line between its neighbours keeps its place, so that nothing behind it moves. More than
 * {@link #MOST_DAMAGED_TOGETHER} such lines together are an error. Only the columns that are used must hold numbers.
 */
final class Rows implements Closeable {
    /** So many damaged lines in a row may be a slip of the recorder; more are damage. */
    static final int MOST_DAMAGED_TOGETHER = 2;

    /** A tacho gives volts; a number beyond this is damage. */
    private static final double LARGEST_VALUE = 1e12;

    /** A clock that goes back by more than half a day has passed midnight. */
    private static final double HALF_DAY_SECONDS = ClockTime.DAY_SECONDS / 2;

    private final Lines lines;
    private final String name;
    private final TextLayout layout;
    private final BitSet used = new BitSet();
    private final Deque<Row> ahead = new ArrayDeque<>();
    private final Deque<Row> drawn = new ArrayDeque<>();
    private Row last;
    private Row current;
    private double lastStep = Double.NaN;
    private double daySeconds;
    private double clockBefore = Double.NaN;
    private boolean tooLarge;
    private boolean ended;
    private Optional<Damage> cut = Optional.empty();
    private Optional<Damage> firstLeftOut = Optional.empty();
    private long leftOut;

    /** A row of numbers, how many damaged lines stood before it, and where it stands. */
    private static final class Row {
        private final double[] values;
        private final int damagedBefore;
        private final long line;
        private final String text;

        Row(double[] values, int damagedBefore, long line, String text) {
            this.values = values;
            this.damagedBefore = damagedBefore;
            this.line = line;
            this.text = text;
        }
    }

    /** A line that was left out. */
    record Damage(long line, String text) {}

    Rows(Path file, String name, TextLayout layout) throws IOException {
        this.name = name;
        this.layout = layout;
        layout.timeColumn().ifPresent(used::set);
        layout.channels().forEach(channel -> used.set(channel.column()));
        this.lines = new Lines(TextBytes.open(file), name);
        while (lines.number() < layout.firstDataLine() - 1 && lines.next()) {
            continue;
        }
    }

    /** Moves to the next row; false at the end. */
    boolean next() throws IOException {
        if (drawn.isEmpty()) {
            Row next = inOrder();
            if (next == null) {
                return false;
            }
            drawMissing(next);
            drawn.add(next);
        }
        current = drawn.poll();
        if (last != null && layout.timeColumn().isPresent()) {
            lastStep = time(current) - time(last);
        }
        last = current;
        return true;
    }

    /** The next row whose time is in order; null at the end. */
    private Row inOrder() throws IOException {
        Row row = take();
        int outOfOrder = 0;
        while (row != null && layout.timeColumn().isPresent()) {
            Row after = peek(0);
            boolean back = last != null && time(row) < time(last);
            if (back && after == null) {
                cut = Optional.of(new Damage(row.line, row.text));
                return null;
            }
            if (!back && !isTooFarAhead(row, after)) {
                return outOfOrder == 0 ? row : new Row(row.values, row.damagedBefore + outOfOrder, row.line, row.text);
            }
            if (back && (time(after) < time(last) && !isPadding(row) || ++outOfOrder > MOST_DAMAGED_TOGETHER)) {
                throw goesBack(row);
            }
            if (back && time(after) < time(last)) {
                endWithPadding(row);
                return null;
            }
            noteLeftOut(row.line, row.text);
            outOfOrder += back ? 0 : 1;
            row = take();
        }
        return row;
    }

    /** Whether a stamp alone is out of order: the one behind it goes on from the one before it. */
    private boolean isTooFarAhead(Row row, Row after) throws IOException {
        if (after == null || time(after) >= time(row)) {
            return false;
        }
        Row second = peek(1);
        return last != null
                ? time(after) >= time(last)
                : second != null && time(second) >= time(after) && time(second) < time(row);
    }

    /** Rows of zeros at the end are what some recorders fill their memory with. */
    private boolean isPadding(Row row) {
        return used.stream().allMatch(c -> row.values[c] == 0);
    }

    private void endWithPadding(Row row) throws IOException {
        for (Row next = take(); next != null; next = take()) {
            if (!isPadding(next)) {
                throw goesBack(row);
            }
        }
        cut = Optional.of(new Damage(row.line, row.text));
    }

    private CaptureException goesBack(Row row) {
        return new CaptureException(String.format(
                Locale.ROOT,
                "%s:%d: time goes back from %.9g s to %.9g s; expected increasing times",
                name,
                row.line,
                time(last) * layout.secondsPerUnit(),
                time(row) * layout.secondsPerUnit()));
    }

    /** Draws a straight line over the samples that damaged lines took away; by the times, where there are any. */
    private void drawMissing(Row next) {
        int missing = last == null ? 0 : next.damagedBefore;
        if (missing > 0 && layout.timeColumn().isPresent() && lastStep > 0) {
            missing = (int) Math.max(0, Math.min(missing, Math.rint((time(next) - time(last)) / lastStep) - 1));
        }
        for (int i = 1; i <= missing; i++) {
            double share = i / (missing + 1.0);
            double[] values = new double[layout.columns()];
            used.stream().forEach(c -> values[c] = last.values[c] + share * (next.values[c] - last.values[c]));
            drawn.add(new Row(values, 0, next.line, ""));
        }
    }

    private double time(Row row) {
        OptionalInt column = layout.timeColumn();
        return row.values[column.getAsInt()];
    }

    private Row take() throws IOException {
        return ahead.isEmpty() ? read() : ahead.poll();
    }

    /** The row that is so many behind the next one; null if there is none. */
    private Row peek(int index) throws IOException {
        while (ahead.size() <= index && !ended) {
            Row row = read();
            if (row == null) {
                break;
            }
            ahead.add(row);
        }
        return ahead.stream().skip(index).findFirst().orElse(null);
    }

    private Row read() throws IOException {
        int damaged = 0;
        Damage first = null;
        while (!ended && lines.next()) {
            String line = lines.line();
            if (line.isBlank()) {
                continue;
            }
            Optional<double[]> values = parse(line);
            if (values.isPresent()) {
                if (damaged > 0) {
                    noteLeftOut(first.line, first.text);
                    leftOut += damaged - 1;
                }
                return new Row(values.get(), damaged, lines.number(), line);
            }
            first = first == null ? new Damage(lines.number(), line) : first;
            if (++damaged > MOST_DAMAGED_TOGETHER) {
                throw notNumbers(first);
            }
        }
        ended = true;
        cut = first == null ? cut : Optional.of(first);
        return null;
    }

    /** That a line holds something else than the numbers that were expected. */
    CaptureException notNumbers(Damage damage) {
        return new CaptureException(name + ":" + damage.line + ": found '"
                + TextLayoutFinder.shortened(damage.text.strip()) + "'; expected " + layout.columns() + " numbers"
                + (tooLarge ? ", none beyond 1e12" : ""));
    }

    private void noteLeftOut(long line, String text) {
        firstLeftOut = firstLeftOut.isPresent() ? firstLeftOut : Optional.of(new Damage(line, text));
        leftOut++;
    }

    private Optional<double[]> parse(String line) {
        List<String> cells = layout.cells().split(line);
        double[] values = new double[layout.columns()];
        int time = layout.timeColumn().orElse(-1);
        for (int c = used.nextSetBit(0); c >= 0; c = used.nextSetBit(c + 1)) {
            String cell = c < cells.size() ? cells.get(c) : "";
            boolean clock = c == time && layout.timeUnit() == TextLayout.TimeUnit.CLOCK;
            OptionalDouble number = clock ? clock(cell) : layout.cells().number(cell);
            boolean large = c != time && number.isPresent() && Math.abs(number.getAsDouble()) > LARGEST_VALUE;
            tooLarge |= large;
            if (number.isEmpty() || large) {
                return Optional.empty();
            }
            values[c] = number.getAsDouble();
        }
        return Optional.of(values);
    }

    /** Seconds since midnight of the first day. */
    private OptionalDouble clock(String cell) {
        OptionalDouble seconds =
                layout.cells().number(cell).isPresent() ? OptionalDouble.empty() : ClockTime.secondsOfDay(cell);
        if (seconds.isEmpty()) {
            return seconds;
        }
        daySeconds += seconds.getAsDouble() < clockBefore - HALF_DAY_SECONDS ? ClockTime.DAY_SECONDS : 0;
        clockBefore = seconds.getAsDouble();
        return OptionalDouble.of(seconds.getAsDouble() + daySeconds);
    }

    /** Whether the row was drawn between its neighbours. */
    boolean isDrawn() {
        return current.text.isEmpty();
    }

    double value(int column) {
        return current.values[column];
    }

    /** The last line, if it was damaged or out of order and left out. */
    Optional<Damage> cut() {
        return cut;
    }

    /** The first of the lines before the last that were left out. */
    Optional<Damage> firstLeftOut() {
        return firstLeftOut;
    }

    /** Lines before the last that were left out. */
    long leftOut() {
        return leftOut;
    }

    @Override
    public void close() throws IOException {
        lines.close();
    }
}
