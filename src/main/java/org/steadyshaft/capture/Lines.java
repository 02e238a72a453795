package org.steadyshaft.capture;

import java.io.Closeable;
import java.io.IOException;
import java.io.Reader;

/** Reads text line by line (LF, CR LF, CR, also CR CR LF) and refuses lines no recorder would write, however long they are. */
final class Lines implements Closeable {
    private static final int LONGEST_LINE = 1 << 16;

    private final Reader reader;
    private final String name;
    private final char[] buffer = new char[1 << 15];
    private final StringBuilder line = new StringBuilder();
    private int at;
    private int end;
    private long number;
    private boolean afterReturn;

    Lines(Reader reader, String name) {
        this.reader = reader;
        this.name = name;
    }

    /** Number of the line last read, from 1. */
    long number() {
        return number;
    }

    /** Reads the next line into {@link #line()}; false at the end of the text. */
    boolean next() throws IOException {
        line.setLength(0);
        boolean any = false;
        while (at < end || fill()) {
            char c = buffer[at++];
            if (c == '\n' && afterReturn && line.length() == 0 && !any) {
                afterReturn = false;
                continue;
            }
            if (c == '\r' && afterReturn && line.length() == 0 && !any) {
                continue;
            }
            any = true;
            if (c == '\n' || c == '\r') {
                afterReturn = c == '\r';
                number++;
                return true;
            }
            afterReturn = false;
            line.append(c);
            if (line.length() > LONGEST_LINE) {
                throw new CaptureException(name + ":" + (number + 1) + ": a line of more than " + LONGEST_LINE
                        + " characters; expected a table of numbers");
            }
        }
        if (any) {
            number++;
        }
        return any;
    }

    private boolean fill() throws IOException {
        at = 0;
        end = Math.max(0, reader.read(buffer));
        return end > 0;
    }

    String line() {
        return line.toString();
    }

    @Override
    public void close() throws IOException {
        reader.close();
    }
}
