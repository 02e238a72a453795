package org.steadyshaft.report;

import java.awt.Color;

/**
 * The colours of the charts. In the page each is a CSS variable, so that light, dark and paper can each have their own.
 */
enum ChartColour {
    INK(new Color(31, 35, 40), "--ink"),
    MUTED(new Color(87, 96, 106), "--muted"),
    GRID(new Color(216, 222, 228), "--grid"),
    SPEED(new Color(11, 95, 165), "--line"),
    MARK(new Color(180, 60, 10), "--mark"),
    BAND(new Color(228, 240, 230), "--band"),
    ALARM(new Color(250, 222, 218), "--alarm"),
    SECOND(new Color(154, 70, 12), "--second"),
    THIRD(new Color(28, 112, 60), "--third"),
    FOURTH(new Color(122, 48, 140), "--fourth"),
    FIFTH(new Color(70, 70, 76), "--fifth");

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
