package org.steadyshaft.report;

import java.util.List;

/**
 * A picture of values and their limits on one scale, a row each: drawn by the page itself, so that its words keep their size on a phone.
 *
 * @param heading what it shows
 * @param caption how to read it
 * @param ticks places of the scale that are named
 * @param groups rows that belong together
 */
public record Strip(String heading, String caption, List<Tick> ticks, List<Group> groups) {
    /** A named place of the scale [% of the width]. */
    public record Tick(String place, String name) {}

    /** Rows under a heading, with the place of a limit, empty without one. */
    public record Group(String heading, String limitPlace, List<Row> rows) {}

    /**
     * A row.
     *
     * @param name whose it is
     * @param style number of the circuit's mark and colour
     * @param marks the values; none where there is none
     * @param fromPlace lower limit [% of the width]
     * @param toPlace upper limit
     * @param text the value in words
     */
    public record Row(String name, int style, List<Mark> marks, String fromPlace, String toPlace, String text) {}

    /** A sign at a place [% of the width]. */
    public record Mark(String place, String sign) {}
}
