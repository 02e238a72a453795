package org.steadyshaft.capture;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;

/**
 * How a line of a text table falls into cells and a cell into a number.
 *
 * @param separator between cells, not inside quotes; a space stands for any run of blanks
 * @param decimalMark '.' or ','
 */
record Cells(char separator, char decimalMark) {
    /** The cells of a line, without blanks and quotes around them; empty cells at the end are left out. */
    List<String> split(String line) {
        List<String> cells = new ArrayList<>();
        String text = separator == ' ' ? line.trim() : line;
        boolean quoted = false;
        int from = 0;
        for (int i = 0; i < text.length(); i++) {
            char c = text.charAt(i);
            if (c == '"') {
                quoted = !quoted;
            } else if (separates(c) && !quoted) {
                boolean sameRun = separator == ' ' && i > 0 && separates(text.charAt(i - 1)) && from == i;
                if (!sameRun) {
                    cells.add(bare(text.substring(from, i)));
                }
                from = i + 1;
            }
        }
        cells.add(bare(text.substring(from)));
        while (!cells.isEmpty() && cells.get(cells.size() - 1).isEmpty()) {
            cells.remove(cells.size() - 1);
        }
        return cells;
    }

    private boolean separates(char c) {
        return c == separator || separator == ' ' && c == '\t';
    }

    private static String bare(String cell) {
        String text = cell.trim();
        if (text.length() >= 2 && text.charAt(0) == '"' && text.charAt(text.length() - 1) == '"') {
            return text.substring(1, text.length() - 1).trim();
        }
        return text;
    }

    /** The number in a cell; empty if it holds anything else. */
    OptionalDouble number(String cell) {
        if (cell.isEmpty() || !looksNumeric(cell)) {
            return OptionalDouble.empty();
        }
        try {
            double value = Double.parseDouble(decimalMark == ',' ? cell.replace(',', '.') : cell);
            return Double.isFinite(value) ? OptionalDouble.of(value) : OptionalDouble.empty();
        } catch (NumberFormatException e) {
            return OptionalDouble.empty();
        }
    }

    /** The number in a cell, or the seconds since midnight of a time of day; 0 for a date alone; empty for anything else. */
    OptionalDouble value(String cell) {
        OptionalDouble number = number(cell);
        return number.isPresent() ? number : ClockTime.secondsOfDay(cell);
    }

    /** Digits, a sign, the decimal mark, an exponent: nothing else that Java's own parser would let pass. */
    private boolean looksNumeric(String cell) {
        boolean digit = false;
        for (int i = 0; i < cell.length(); i++) {
            char c = cell.charAt(i);
            digit |= c >= '0' && c <= '9';
            boolean allowed = c >= '0' && c <= '9' || c == '+' || c == '-' || c == decimalMark || c == 'e' || c == 'E';
            if (!allowed) {
                return false;
            }
        }
        return digit;
    }

    /** How many cells the line has if every one of them holds a number, a time of day or nothing, and one of them something; else 0. */
    int numericCells(String line) {
        List<String> cells = split(line);
        for (String cell : cells) {
            if (!cell.isEmpty() && value(cell).isEmpty()) {
                return 0;
            }
        }
        return cells.size();
    }
}
