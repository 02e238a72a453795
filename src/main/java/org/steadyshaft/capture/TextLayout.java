package org.steadyshaft.capture;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;

/**
 * How a text export is laid out.
 *
 * @param cells separator and decimal mark
 * @param firstDataLine line of the first row of numbers, from 1
 * @param columns cells in a row of numbers
 * @param timeColumn the column that holds times or sample numbers, from 0; absent without one
 * @param timeUnit how the unit of the time column is known
 * @param secondsPerUnit what turns the time column into seconds
 * @param interval seconds between samples as the preamble gives it; absent if it does not
 * @param unknownIntervalUnit what the preamble gives an interval or rate in, where that is no known unit
 * @param channels the columns that hold voltages
 * @param remarks where each of these was read, for {@code inspect}
 */
record TextLayout(
        Cells cells,
        long firstDataLine,
        int columns,
        OptionalInt timeColumn,
        TimeUnit timeUnit,
        double secondsPerUnit,
        OptionalDouble interval,
        Optional<String> unknownIntervalUnit,
        List<Channel> channels,
        List<String> remarks) {
    /** How the unit of a column of times is known. */
    enum TimeUnit {
        /** The header names it. */
        NAMED,
        /** Nothing names it; seconds are taken, if that can be. */
        NOT_NAMED,
        /** The cells are times of day. */
        CLOCK
    }

    TextLayout {
        channels = List.copyOf(channels);
        remarks = List.copyOf(remarks);
        if (firstDataLine < 1 || columns < 1 || channels.isEmpty() || !(secondsPerUnit > 0)) {
            throw new IllegalArgumentException("text layout out of range");
        }
    }

    /**
     * A column of samples.
     *
     * @param column index of the column, from 0
     * @param name as the header gives it, or its number from 1
     * @param voltsPerUnit what turns the numbers into volts
     * @param unit the unit it was given in; absent if the header names none
     * @param isVolts whether that is a unit of voltage
     */
    record Channel(int column, String name, double voltsPerUnit, Optional<String> unit, boolean isVolts) {}
}
