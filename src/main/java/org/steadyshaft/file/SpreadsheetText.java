package org.steadyshaft.file;

import java.util.regex.Pattern;

/** Words of others in a table's cell, as a spreadsheet will show them and not run them. */
public final class SpreadsheetText {
    /** What a spreadsheet takes for the beginning of a formula, in both widths. Source: OWASP, "CSV Injection"; from memory. */
    private static final String BEGINS_FORMULA = "=+-@\uFF1D\uFF0B\uFF0D\uFF20";

    private static final Pattern NUMBER = Pattern.compile("[-+]?[0-9]{1,20}([.,][0-9]{1,20})?([eE][-+]?[0-9]{1,3})?");

    private SpreadsheetText() {}

    /** The cell, with an apostrophe before it where it begins like a formula and is no number. */
    public static String of(String cell) {
        boolean runs = !cell.isEmpty()
                && BEGINS_FORMULA.indexOf(cell.charAt(0)) >= 0
                && !NUMBER.matcher(cell).matches();
        return runs ? "'" + cell : cell;
    }
}
