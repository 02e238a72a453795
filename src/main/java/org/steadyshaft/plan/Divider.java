package org.steadyshaft.plan;

import java.util.Optional;
import java.util.OptionalDouble;

/**
 * Two resistors before an input.
 *
 * @param upperOhms from the tacho to the input
 * @param lowerOhms from the input to its ground
 * @param peakVolts what reaches the input at the highest voltage, its own resistance counted
 * @param upperWatts what the upper one turns into heat at the highest voltage
 * @param loadingPercent by how much a tacho of 600 ohm, the largest that is usual, gives less with it
 */
public record Divider(double upperOhms, double lowerOhms, double peakVolts, double upperWatts, double loadingPercent) {
    /** The upper one: large beside any tacho (20 to 600 ohm, common practice), small beside an input, and of little noise. */
    private static final double UPPER_OHMS = 100e3;

    private static final double TACHO_OHMS = 600;

    /** So much of an input's range is used at the top speed: an overshoot of two fifths still fits. */
    private static final double SHARE = 0.7;

    /**
     * The largest of standard values that leaves room at the input.
     *
     * @param peakVolts of the tacho at its fastest
     * @param inputVolts the input's range, to either side of zero
     * @param inputOhms the input's resistance; absent where it is not known, and then it is left out
     * @return absent where the tacho needs none
     */
    static Optional<Divider> of(double peakVolts, double inputVolts, OptionalDouble inputOhms) {
        double wanted = SHARE * inputVolts;
        if (peakVolts <= wanted) {
            return Optional.empty();
        }
        double together = UPPER_OHMS * wanted / (peakVolts - wanted);
        double lower = StandardValues.atMost(
                inputOhms.isPresent() && together < inputOhms.getAsDouble()
                        ? together * inputOhms.getAsDouble() / (inputOhms.getAsDouble() - together)
                        : together);
        return Optional.of(with(UPPER_OHMS, lower, peakVolts, inputOhms));
    }

    /** What two resistors give. */
    static Divider with(double upperOhms, double lowerOhms, double peakVolts, OptionalDouble inputOhms) {
        double together = inputOhms.isPresent() ? 1 / (1 / lowerOhms + 1 / inputOhms.getAsDouble()) : lowerOhms;
        double current = peakVolts / (upperOhms + together);
        return new Divider(
                upperOhms,
                lowerOhms,
                current * together,
                0.5 * current * current * upperOhms,
                100 * TACHO_OHMS / (TACHO_OHMS + upperOhms + together));
    }
}
