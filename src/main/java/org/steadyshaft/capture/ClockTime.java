package org.steadyshaft.capture;

import java.util.Locale;
import java.util.OptionalDouble;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * A time of day as loggers write it: 12:00:01.25, 12:00:01,25, 2024-05-01T12:00:01Z, 1:02:03.5 PM, 12:00:01:250. Source for
 * the order of its parts, for 'T', 'Z' and for either decimal sign: ISO 8601-1:2019, sections 5.3 and 5.4; the form with a
 * blank, AM and PM and that with a third colon before milliseconds are common practice.
 */
final class ClockTime {
    /** Seconds in a day. */
    static final double DAY_SECONDS = 86_400;

    private static final String DATE =
            "(?:\\d{4}-\\d{2}-\\d{2}|\\d{4}/\\d{1,2}/\\d{1,2}|\\d{1,2}[./]\\d{1,2}[./]\\d{2,4})";
    private static final Pattern DATE_ALONE = Pattern.compile(DATE);
    private static final Pattern TIME =
            Pattern.compile("(?:" + DATE + "[T ,]?\\s*)?(\\d{1,2}):(\\d{2})(?::(\\d{2})(?:([.,:])(\\d+))?)?"
                    + "\\s*([AaPp][Mm])?(?:Z|[+-]\\d{2}:?\\d{2})?");
    private static final Pattern MINUTES = Pattern.compile("(\\d{1,2}):(\\d{2})[.,](\\d+)");

    private ClockTime() {}

    static boolean isDate(String cell) {
        return DATE_ALONE.matcher(cell).matches();
    }

    /** Seconds since midnight, or since the hour where only minutes stand; 0 for a date alone; empty for anything else. */
    static OptionalDouble secondsOfDay(String cell) {
        if (cell.length() < 4 || cell.length() > 40 || !Character.isDigit(cell.charAt(0))) {
            return OptionalDouble.empty();
        }
        if (isDate(cell)) {
            return OptionalDouble.of(0);
        }
        Matcher minutes = MINUTES.matcher(cell);
        if (minutes.matches()) {
            return seconds(
                    0,
                    Integer.parseInt(minutes.group(1)),
                    Integer.parseInt(minutes.group(2)),
                    fraction(minutes.group(3)));
        }
        Matcher time = TIME.matcher(cell);
        if (!time.matches() || ":".equals(time.group(4)) && time.group(5).length() != 3) {
            return OptionalDouble.empty();
        }
        int hours = Integer.parseInt(time.group(1));
        if (time.group(6) != null) {
            hours = hours % 12 + (time.group(6).toLowerCase(Locale.ROOT).startsWith("p") ? 12 : 0);
        }
        int seconds = time.group(3) == null ? 0 : Integer.parseInt(time.group(3));
        return seconds(hours, Integer.parseInt(time.group(2)), seconds, fraction(time.group(5)));
    }

    private static double fraction(String digits) {
        return digits == null ? 0 : Double.parseDouble("0." + digits);
    }

    private static OptionalDouble seconds(int hours, int minutes, int seconds, double fraction) {
        boolean valid = hours <= 24 && minutes < 60 && seconds <= 60;
        return valid ? OptionalDouble.of(3600.0 * hours + 60.0 * minutes + seconds + fraction) : OptionalDouble.empty();
    }
}
