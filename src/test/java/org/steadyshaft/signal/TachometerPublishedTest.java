package org.steadyshaft.signal;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.steadyshaft.PublishedTable;
import org.steadyshaft.PublishedTable.Row;

/**
 * Speed and frequency of a machine with p pole pairs, n = 60 f / p.
 *
 * <p>Sources: the standard relation of any electrical-machines textbook (relation read, figures recomputed:
 * tacho_frequency.csv, synchronous_speed.csv); textbook-companion collection items 1445 (chapter 10, examples 5 and 11) and
 * 1994 (chapter 10, example 19), inputs and method read, results recomputed (speed_worked_examples.csv).
 *
 * <p>Tolerance: whole numbers must come out exactly, for every step of the sum is then exact in doubles; the tables print
 * the others to 12 digits, so half a unit of the last one; the worked examples 1e-9, as their note asks.
 */
class TachometerPublishedTest {
    private static final Pattern POLES = Pattern.compile("(\\d+) poles");
    private static final Pattern SPEED = Pattern.compile("([\\d.]+) rpm");
    private static final Pattern FREQUENCY = Pattern.compile("([\\d.]+) Hz");
    private static final Pattern SLIP = Pattern.compile("slip ([\\d.]+)");

    static List<Row> tachoFrequencies() {
        return PublishedTable.rows("tacho_frequency.csv");
    }

    static List<Row> synchronousSpeeds() {
        return PublishedTable.rows("synchronous_speed.csv");
    }

    /** The examples that turn poles and a frequency into a speed or back; the others are about torque or load. */
    static List<Row> workedExamples() {
        return PublishedTable.rows(
                "speed_worked_examples.csv",
                row -> POLES.matcher(row.text("inputs")).find());
    }

    @ParameterizedTest
    @MethodSource("tachoFrequencies")
    void tachoFrequencyOfASpeed(Row row) {
        Tachometer tachometer = new Tachometer(row.whole("pole_pairs_or_periods_per_rev"));
        double rpm = row.number("rpm");
        double cycleHz = tachometer.cycleHz(rpm);
        assertEquals(row.number("f_hz"), cycleHz, allowed(row, "f_hz"), row.toString());
        assertEquals(rpm, tachometer.rpm(cycleHz), 1e-12 * rpm, "there and back");
        assertEquals(rpm / 60, tachometer.shaftHz(cycleHz), 1e-12 * rpm, "turns a second");
    }

    @ParameterizedTest
    @MethodSource("synchronousSpeeds")
    void speedOfAFrequency(Row row) {
        Tachometer tachometer = new Tachometer(row.whole("pole_pairs"));
        assertEquals(row.whole("poles"), 2 * tachometer.polePairs(), "a pair has two poles");
        assertEquals(row.number("rpm"), tachometer.rpm(row.number("f_hz")), row.toString());
        assertEquals(row.number("f_hz"), tachometer.cycleHz(row.number("rpm")), row.toString());
    }

    @ParameterizedTest
    @MethodSource("workedExamples")
    void workedExample(Row row) {
        Tachometer tachometer = new Tachometer((int) input(POLES, row) / 2);
        double found = switch (row.text("quantity")) {
            case "f" -> tachometer.cycleHz(input(SPEED, row));
            case "n" -> tachometer.rpm(input(FREQUENCY, row)) * (1 - slip(row));
            default -> throw new AssertionError(row + ": unknown quantity " + row.text("quantity"));
        };
        assertEquals(row.number("recomputed"), found, 1e-9, row.text("example") + ", " + row.text("inputs"));
    }

    private static double allowed(Row row, String column) {
        return row.text(column).contains(".") ? row.halfUnit(column) : 0;
    }

    private static double input(Pattern pattern, Row row) {
        Matcher matcher = pattern.matcher(row.text("inputs"));
        if (!matcher.find()) {
            throw new AssertionError(row + ": no " + pattern + " in " + row.text("inputs"));
        }
        return Double.parseDouble(matcher.group(1));
    }

    private static double slip(Row row) {
        return row.text("example").equals("motor_speed") ? input(SLIP, row) : 0;
    }
}
