package org.steadyshaft.report;

import java.text.FieldPosition;
import java.text.NumberFormat;
import java.text.ParsePosition;

/** Axis labels without exponents and without the marks of any locale. */
final class PlainNumbers extends NumberFormat {
    private static final long serialVersionUID = 1L;
    private static final int DIGITS = 6;

    @Override
    public StringBuffer format(double number, StringBuffer out, FieldPosition position) {
        String text = Numbers.significant(number, DIGITS);
        return out.append(text.contains(".") ? text.replaceAll("0+$", "").replaceAll("\\.$", "") : text);
    }

    @Override
    public StringBuffer format(long number, StringBuffer out, FieldPosition position) {
        return out.append(number);
    }

    @Override
    public Number parse(String text, ParsePosition position) {
        throw new UnsupportedOperationException("labels are only written");
    }
}
