package org.steadyshaft.report;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.Locale;

/** Numbers as text, the same in every locale. */
final class Numbers {
    private static final MathContext MACHINE_DIGITS = new MathContext(10, RoundingMode.HALF_EVEN);

    private Numbers() {}

    /** For files: ten significant digits, no exponent, no useless zeros. */
    static String machine(double value) {
        if (value == 0) {
            return "0";
        }
        return new BigDecimal(value).round(MACHINE_DIGITS).stripTrailingZeros().toPlainString();
    }

    /** For readers: a fixed number of decimals. */
    static String fixed(double value, int decimals) {
        String text = String.format(Locale.ROOT, "%." + decimals + "f", value);
        return text.matches("-0(\\.0*)?") ? text.substring(1) : text;
    }

    /** For readers: about {@code digits} significant digits, never an exponent. */
    static String significant(double value, int digits) {
        if (value == 0) {
            return "0";
        }
        BigDecimal rounded = new BigDecimal(value).round(new MathContext(digits, RoundingMode.HALF_EVEN));
        return rounded.setScale(Math.max(0, rounded.scale()), RoundingMode.UNNECESSARY)
                .toPlainString();
    }

    /** A speed with its uncertainty's last two digits, for example "437.710 ± 0.025". */
    static String withUncertainty(double value, double uncertainty) {
        int decimals = uncertainty > 0 ? (int) Math.max(0, Math.min(6, 1 - Math.floor(Math.log10(uncertainty)))) : 3;
        return fixed(value, decimals) + " \u00B1 " + fixed(uncertainty, decimals);
    }
}
