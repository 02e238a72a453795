package org.steadyshaft.condition;

import java.util.Locale;
import java.util.Optional;
import org.steadyshaft.signal.Finding;
import org.steadyshaft.signal.FindingCode;

/** Says whether the pick-up of the mains is worth a word. */
public final class HumJudge {
    /** Share of the tacho's level from which pick-up is told of, and from which it makes a recording doubtful. Our own figures. */
    private static final double NOTE = 0.02;

    private static final double DOUBT = 0.15;

    /**
     * Judges.
     *
     * @param humAmplitude amplitude of the mains line [unit of the samples], the tacho's own not in it
     * @param tachoAmplitude that of the tacho, above 0
     */
    public Optional<Finding> judge(double humAmplitude, double tachoAmplitude) {
        double ratio = humAmplitude / tachoAmplitude;
        if (!(ratio >= NOTE)) {
            return Optional.empty();
        }
        String text = String.format(
                Locale.ROOT,
                "Mains pick-up of %.0f %% of the tacho's level. It shifts the crossings and shows as a false swing of single cycles;"
                        + " it is taken out of the ripple. Twist the tacho's wires, keep them away from the motor's leads, use one"
                        + " earth point only.",
                100 * ratio);
        return Optional.of(
                ratio < DOUBT ? Finding.note(FindingCode.HUM, text) : Finding.caution(FindingCode.HUM, text));
    }
}
