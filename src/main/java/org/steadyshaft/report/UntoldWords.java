package org.steadyshaft.report;

import java.util.Locale;
import org.steadyshaft.ripple.MainsRipple;
import org.steadyshaft.ripple.Untold;

/** Says why a line of the mains cannot be told, and what to record instead. */
final class UntoldWords {
    private UntoldWords() {}

    /** A sentence without its full stop. */
    static String of(double frequencyHz, Untold untold) {
        return switch (untold.why()) {
            case SHAFT_ORDER ->
                say(
                        "%.2f Hz is %d times the shaft's turns: uneven poles and a swing of the speed look the same there in a record of"
                                + " %.0f s; record at %.0f or %.0f rpm instead, or name the tacho in the run sheet's column 'tacho', so that"
                                + " its captures at other speeds tell what the poles give",
                        frequencyHz, untold.order(), untold.seconds(), untold.slowerRpm(), untold.fasterRpm());
            case PICK_UP ->
                say(
                        "mains pick-up stands where the swing at %.2f Hz would show; keep the tacho's wires away from the mains, or"
                                + " record at another speed",
                        frequencyHz);
            case NOISE ->
                say(
                        "the noise hides any swing at %.2f Hz smaller than %s %%; record longer, or with more level",
                        frequencyHz, Numbers.significant(untold.hiddenPercent(), 2));
            case TOO_FAST ->
                say(
                        "the recorder does not keep what a swing at %.2f Hz does; record with a higher sample rate",
                        frequencyHz);
            case TOO_SHORT ->
                say(
                        "steady running of %.1f s is too short for a swing at %.2f Hz; record ten seconds or more",
                        untold.seconds(), frequencyHz);
            case CUT_OFF ->
                say(
                        "the tacho's wave is cut off or squared, which bends a swing at %.2f Hz and makes false ones; record the wave itself,"
                                + " with less gain or a divider",
                        frequencyHz);
            case MISSING_TEETH ->
                say(
                        "a wheel with missing teeth, or a magnet that fell off, tells the speed once a tooth only, and pick-up looks like a swing at"
                                + " %.2f Hz there; record from a tacho with all its poles",
                        frequencyHz);
        };
    }

    /** Figure with its interval, or why there is none. */
    static String of(MainsRipple ripple) {
        return ripple.figure()
                .map(f -> Numbers.withUncertainty(f.amplitudePercent(), f.expandedPercent())
                        + " % (0 to peak, k = 2) at " + Numbers.fixed(ripple.frequencyHz(), 2) + " Hz" + by(f.others()))
                .orElseGet(() -> "cannot be told: "
                        + of(ripple.frequencyHz(), ripple.untold().orElseThrow()));
    }

    private static String by(int others) {
        return others == 0
                ? ""
                : ", told from the poles by " + others + (others == 1 ? " other capture" : " other captures")
                        + " of the tacho";
    }

    private static String say(String format, Object... values) {
        return String.format(Locale.ROOT, format, values);
    }
}
