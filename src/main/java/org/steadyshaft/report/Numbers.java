package org.steadyshaft.report;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.Locale;

/** Numbers as text, the same in every locale. */
final class Numbers {
    private static final MathContext MACHINE_DIGITS = new MathContext(10, RoundingMode.HALF_EVEN);

    private static final double[] TENS = {1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12};

    /** Ten digits of a value from here on, without the point, fit {@link #TENS}. */
    private static final double SMALLEST_QUICK = 1e-2;

    /** The smallest whole number of ten digits. */
    private static final double TEN_DIGITS = 1e9;

    /** Scaled values below this are off by less than {@link #NEAR_TIE}: 2^-53 of them. */
    private static final double LARGEST_FIXED = 1e12;

    private static final double NEAR_TIE = 1e-3;

    /** A reader keeps no more digits of a figure in mind. */
    private static final int MOST_DIGITS = 3;

    private Numbers() {}

    /** For files: ten significant digits, no exponent, no useless zeros. */
    static String machine(double value) {
        StringBuilder out = new StringBuilder(16);
        appendMachine(out, value);
        return out.toString();
    }

    /** For readers: a fixed number of decimals. */
    static String fixed(double value, int decimals) {
        StringBuilder out = new StringBuilder(16);
        appendFixed(out, value, decimals);
        return out.toString();
    }

    /**
     * Appends what {@link #machine} gives. The value is scaled to a whole number of ten digits; the product is off by 1e-6 at most, so
     * its rounding is sure but beside a tie, and there, as for very large and small values, the exact way decides.
     */
    static void appendMachine(StringBuilder out, double value) {
        double size = Math.abs(value);
        int decimals = MACHINE_DIGITS.getPrecision() - 1;
        if (size >= SMALLEST_QUICK && size < TEN_DIGITS) {
            while (size * TENS[decimals] < TEN_DIGITS) {
                decimals++;
            }
            while (size * TENS[decimals] >= 10 * TEN_DIGITS) {
                decimals--;
            }
        }
        double scaled = size * TENS[decimals];
        if (!(scaled >= TEN_DIGITS && scaled < 10 * TEN_DIGITS - 1) || isNearTie(scaled)) {
            out.append(exactMachine(value));
            return;
        }
        long digits = (long) (scaled + 0.5);
        while (decimals > 0 && digits % 10 == 0) {
            digits /= 10;
            decimals--;
        }
        append(out, value < 0, digits, decimals);
    }

    /** Appends what {@link #fixed} gives, in the same way. */
    static void appendFixed(StringBuilder out, double value, int decimals) {
        double scaled = decimals < TENS.length ? Math.abs(value) * TENS[decimals] : Double.NaN;
        if (!(scaled < LARGEST_FIXED) || isNearTie(scaled)) {
            out.append(exactFixed(value, decimals));
            return;
        }
        long digits = (long) (scaled + 0.5);
        append(out, value < 0 && digits > 0, digits, decimals);
    }

    private static boolean isNearTie(double scaled) {
        return Math.abs(scaled - (long) scaled - 0.5) < NEAR_TIE;
    }

    private static void append(StringBuilder out, boolean negative, long digits, int decimals) {
        if (negative) {
            out.append('-');
        }
        long unit = (long) TENS[decimals];
        long whole = digits / unit;
        out.append(whole);
        if (decimals > 0) {
            out.append('.');
            long rest = digits - whole * unit;
            for (long place = unit / 10; place > 1 && rest < place; place /= 10) {
                out.append('0');
            }
            out.append(rest);
        }
    }

    private static String exactMachine(double value) {
        if (value == 0) {
            return "0";
        }
        return new BigDecimal(value).round(MACHINE_DIGITS).stripTrailingZeros().toPlainString();
    }

    private static String exactFixed(double value, int decimals) {
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

    /**
     * For readers: as many decimals as an interval is worth, so that half of it shows one digit, or two where that would be a 1; never more
     * than three digits.
     */
    static String within(double value, double low, double high) {
        double half = 0.5 * (high - low);
        if (!(half > 0) || !Double.isFinite(half)) {
            return significant(value, 2);
        }
        double size = Math.log10(half);
        boolean small = half / Math.pow(10, Math.floor(size)) < 2;
        double own = Math.max(Math.abs(value), half);
        double most = MOST_DIGITS - 1 - Math.floor(Math.log10(own));
        int decimals = (int) Math.max(0, Math.min(most, (small ? 1 : 0) - Math.floor(size)));
        return fixed(value, decimals);
    }

    /** A speed with its uncertainty's last two digits, for example "437.710 ± 0.025". */
    static String withUncertainty(double value, double uncertainty) {
        int decimals = uncertainty > 0 ? (int) Math.max(0, Math.min(6, 1 - Math.floor(Math.log10(uncertainty)))) : 3;
        return fixed(value, decimals) + " \u00B1 " + fixed(uncertainty, decimals);
    }
}
