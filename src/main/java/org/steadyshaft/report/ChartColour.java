package org.steadyshaft.report;

import java.awt.Color;

/**
 * The colours of the charts. In the page each is a CSS variable, so that light, dark and paper can each have their own.
 */
enum ChartColour {
    INK(new Color(42, 37, 33), "--ink"),
    MUTED(new Color(94, 85, 75), "--muted"),
    GRID(new Color(221, 212, 198), "--grid"),
    SPEED(new Color(27, 90, 109), "--line"),
    MARK(new Color(164, 64, 26), "--mark"),
    BAND(new Color(231, 238, 222), "--band"),
    ALARM(new Color(247, 218, 209), "--alarm"),
    SECOND(new Color(135, 72, 15), "--second"),
    THIRD(new Color(58, 105, 41), "--third"),
    FOURTH(new Color(109, 58, 119), "--fourth"),
    FIFTH(new Color(76, 73, 81), "--fifth");

    private final Color colour;
    private final String variable;

    ChartColour(Color colour, String variable) {
        this.colour = colour;
        this.variable = variable;
    }

    Color colour() {
        return colour;
    }

    /** What an SVG writer's "rgb(r,g,b)" becomes: a reference to the variable; other paints stay as they are. */
    static String css(String paint) {
        String plain = paint.replace(" ", "");
        if (plain.equals("black")) {
            return "var(" + INK.variable + ")";
        }
        for (ChartColour candidate : values()) {
            Color c = candidate.colour;
            if (plain.equals("rgb(" + c.getRed() + "," + c.getGreen() + "," + c.getBlue() + ")")) {
                return "var(" + candidate.variable + ")";
            }
        }
        return paint;
    }
}
