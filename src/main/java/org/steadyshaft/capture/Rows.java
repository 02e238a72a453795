package org.steadyshaft.capture;

import java.io.Closeable;
import java.io.IOException;
import java.nio.file.Path;
import java.util.BitSet;
import java.util.List;
import java.util.OptionalDouble;

/**
 * The rows of numbers of a text export, one after the other. Blank lines are passed over; a damaged last line (the record
 * was cut) ends the table; a damaged line before that is an error. Only the columns that are used must hold numbers.
 */
final class Rows implements Closeable {
    /** A tacho gives volts; a number beyond this is damage. */
    private static final double LARGEST_VALUE = 1e12;

    private final Lines lines;
    private final String name;
    private final TextLayout layout;
    private final BitSet used = new BitSet();
    private final double[] values;
    private boolean cut;
    private boolean tooLarge;

    Rows(Path file, String name, TextLayout layout) throws IOException {
        this.name = name;
        this.layout = layout;
        this.values = new double[layout.columns()];
        layout.timeColumn().ifPresent(used::set);
        layout.channels().forEach(channel -> used.set(channel.column()));
        this.lines = new Lines(TextBytes.open(file), name);
        while (lines.number() < layout.firstDataLine() - 1 && lines.next()) {
            continue;
        }
    }

    /** Moves to the next row; false at the end. */
    boolean next() throws IOException {
        while (lines.next()) {
            String line = lines.line();
            if (line.isBlank()) {
                continue;
            }
            if (parse(line)) {
                return true;
            }
            long at = lines.number();
            if (!onlyBlanksFollow()) {
                throw new CaptureException(name + ":" + at + ": found '" + TextLayoutFinder.shortened(line.strip())
                        + "'; expected " + layout.columns() + " numbers" + (tooLarge ? ", none beyond 1e12" : ""));
            }
            cut = true;
            return false;
        }
        return false;
    }

    private boolean parse(String line) {
        List<String> cells = layout.cells().split(line);
        for (int c = used.nextSetBit(0); c >= 0; c = used.nextSetBit(c + 1)) {
            OptionalDouble number = c < cells.size() ? layout.cells().number(cells.get(c)) : OptionalDouble.empty();
            tooLarge = number.isPresent() && Math.abs(number.getAsDouble()) > LARGEST_VALUE;
            if (number.isEmpty() || tooLarge) {
                return false;
            }
            values[c] = number.getAsDouble();
        }
        return true;
    }

    private boolean onlyBlanksFollow() throws IOException {
        while (lines.next()) {
            if (!lines.line().isBlank()) {
                return false;
            }
        }
        return true;
    }

    double value(int column) {
        return values[column];
    }

    /** Whether the last line was damaged and left out. */
    boolean wasCut() {
        return cut;
    }

    long lineNumber() {
        return lines.number();
    }

    @Override
    public void close() throws IOException {
        lines.close();
    }
}
