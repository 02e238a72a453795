package org.steadyshaft.report;

import org.steadyshaft.compare.SpeedHeld;

/** Whether a motor holds its speed, in a word or two, with a sign, and the name of its colour. */
public final class HeldWords {
    private HeldWords() {}

    /** For a table or a badge. */
    public static String brief(SpeedHeld held) {
        return switch (held) {
            case YES -> "holds";
            case MOSTLY -> "mostly";
            case NO -> "does NOT";
            case RUNAWAY -> "RAN AWAY";
            case CANNOT_TELL -> "cannot tell";
        };
    }

    /** After a number of motors: "3 do NOT hold their speed". */
    public static String counted(SpeedHeld held, long count) {
        boolean one = count == 1;
        return switch (held) {
            case YES -> one ? "holds its speed" : "hold their speed";
            case MOSTLY -> one ? "mostly holds it" : "mostly hold it";
            case NO -> one ? "does NOT hold its speed" : "do NOT hold their speed";
            case RUNAWAY -> "RAN AWAY";
            case CANNOT_TELL -> "cannot be told";
        };
    }

    static String sign(SpeedHeld held) {
        return switch (held) {
            case YES -> "\u2713";
            case MOSTLY -> "\u223c";
            case NO -> "\u2715";
            case RUNAWAY -> "\u26a0";
            case CANNOT_TELL -> "?";
        };
    }

    /** Name of its colour in the pages. */
    static String status(SpeedHeld held) {
        return switch (held) {
            case YES -> "pass";
            case MOSTLY -> "mostly";
            case NO, RUNAWAY -> "fail";
            case CANNOT_TELL -> "open";
        };
    }
}
