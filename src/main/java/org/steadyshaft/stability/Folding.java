package org.steadyshaft.stability;

import java.util.Locale;
import java.util.Optional;
import org.steadyshaft.signal.Finding;
import org.steadyshaft.signal.FindingCode;

/**
 * What one speed value a cycle can show: everything up to half the tacho frequency; what is faster folds back below it.
 */
public final class Folding {
    private Folding() {}

    /** Highest frequency of a ripple that shows where it is [Hz]. */
    public static double observableToHz(double cycleHz) {
        return 0.5 * cycleHz;
    }

    /** Where a ripple of frequency {@code sourceHz} appears when sampled {@code cycleHz} times a second. */
    public static double foldedHz(double sourceHz, double cycleHz) {
        return Math.abs(sourceHz - cycleHz * Math.rint(sourceHz / cycleHz));
    }

    /** The warning that ripple at mains or twice mains cannot be seen in its place; empty where both can. */
    public static Optional<Finding> advice(double mainsHz, double cycleHz) {
        if (2 * mainsHz <= observableToHz(cycleHz)) {
            return Optional.empty();
        }
        boolean mainsToo = mainsHz > observableToHz(cycleHz);
        return Optional.of(Finding.note(
                FindingCode.ALIASED_RIPPLE,
                String.format(
                        Locale.ROOT,
                        "At this speed the tacho gives %.1f cycles a second, so ripple is seen up to %.1f Hz only. Ripple"
                                + " at twice mains (%.0f Hz) would appear folded at %.1f Hz%s. A line there has an unsure"
                                + " cause; a run at another speed moves a folded line, a true one stays.",
                        cycleHz,
                        observableToHz(cycleHz),
                        2 * mainsHz,
                        foldedHz(2 * mainsHz, cycleHz),
                        mainsToo
                                ? String.format(
                                        Locale.ROOT,
                                        ", at mains (%.0f Hz) at %.1f Hz",
                                        mainsHz,
                                        foldedHz(mainsHz, cycleHz))
                                : "")));
    }
}
