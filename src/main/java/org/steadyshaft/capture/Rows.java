package org.steadyshaft.capture;

import java.io.Closeable;
import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.OptionalDouble;

/**
 * The rows of numbers of a text export, one after the other. Blank lines are passed over; a damaged last line (the record
 * was cut) ends the table; a damaged line before that is an error.
 */
final class Rows implements Closeable {
    private final Lines lines;
    private final String name;
    private final TextLayout layout;
    private final double[] values;

    Rows(Path file, String name, TextLayout layout) throws IOException {
        this.name = name;
        this.layout = layout;
        this.values = new double[layout.columns()];
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
                        + "'; expected " + layout.columns() + " numbers");
            }
            return false;
        }
        return false;
    }

    private boolean parse(String line) {
        List<String> cells = layout.cells().split(line);
        if (cells.size() < layout.columns()) {
            return false;
        }
        for (int i = 0; i < values.length; i++) {
            OptionalDouble number = layout.cells().number(cells.get(i));
            if (number.isEmpty()) {
                return false;
            }
            values[i] = number.getAsDouble();
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

    long lineNumber() {
        return lines.number();
    }

    @Override
    public void close() throws IOException {
        lines.close();
    }
}
