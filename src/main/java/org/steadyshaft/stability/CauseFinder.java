package org.steadyshaft.stability;

import java.util.OptionalDouble;

/** Names the likely cause of a ripple line by its frequency. */
final class CauseFinder {
    /** The mains may stand 0.4 % off (49.8 to 50.2 Hz occur), the line's own frequency a little more. */
    static final double MAINS_TOLERANCE = 0.006;

    /** Where the recording shows the mains frequency, a multiple of it is known this well. */
    private static final double TRACKED_TOLERANCE = 0.0006;

    /** The shaft's frequency is the mean of the recording; a line is an order of it only this close. */
    private static final double SHAFT_TOLERANCE = 0.0015;

    private static final double HIGHEST_HUNTING_HZ = 10;
    private static final double HUNTING_SHARE_OF_SHAFT = 0.25;
    private static final int MOST_MAINS_MULTIPLES = 6;

    /** Pick-up explains a line that is not larger than this many times what it would cause. */
    private static final double HUM_MARGIN = 1.5;

    /**
     * A cause and how sure it is.
     *
     * @param coincides whether a multiple of the mains and an order of the shaft both lie there and cannot be told apart
     */
    record Verdict(RippleCause cause, Certainty certainty, boolean coincides) {
        Verdict(RippleCause cause, Certainty certainty) {
            this(cause, certainty, false);
        }
    }

    private final double mainsHz;
    private final double tolerance;
    private final double shaftHz;
    private final double cycleHz;
    private final double resolutionHz;
    private final double humRatio;

    /**
     * @param nominalHz 50 or 60
     * @param trackedHz the mains frequency as the recording shows it, if it does
     * @param resolutionHz how close two frequencies must be to be the same for want of resolution
     * @param humRatio amplitude of the mains pick-up over that of the tacho; 0 if none was seen
     */
    CauseFinder(
            double nominalHz,
            OptionalDouble trackedHz,
            double shaftHz,
            double cycleHz,
            double resolutionHz,
            double humRatio) {
        this.humRatio = humRatio;
        this.mainsHz = trackedHz.orElse(nominalHz);
        this.tolerance = trackedHz.isPresent() ? TRACKED_TOLERANCE : MAINS_TOLERANCE;
        this.shaftHz = shaftHz;
        this.cycleHz = cycleHz;
        this.resolutionHz = resolutionHz;
    }

    Verdict causeOf(double frequencyHz, double amplitudePercent) {
        if (fromPickUp(frequencyHz, amplitudePercent)) {
            return new Verdict(RippleCause.PICK_UP, Certainty.HIGH);
        }
        boolean shaft = atShaftOrder(frequencyHz);
        for (int multiple = 1; multiple <= MOST_MAINS_MULTIPLES; multiple++) {
            if (2 * multiple * mainsHz <= cycleHz && near(frequencyHz, multiple * mainsHz, tolerance)) {
                return new Verdict(mainsCause(multiple), shaft ? Certainty.LOW : Certainty.HIGH, shaft);
            }
        }
        if (folds(frequencyHz, 2)) {
            return new Verdict(RippleCause.FOLDED_TWICE_MAINS, Certainty.LOW, shaft);
        }
        if (folds(frequencyHz, 1)) {
            return new Verdict(RippleCause.FOLDED_MAINS, Certainty.LOW, shaft);
        }
        if (shaft) {
            return new Verdict(RippleCause.SHAFT, Certainty.MEDIUM);
        }
        if (frequencyHz < HIGHEST_HUNTING_HZ) {
            boolean slow = frequencyHz < HUNTING_SHARE_OF_SHAFT * shaftHz;
            return new Verdict(RippleCause.HUNTING, slow ? Certainty.MEDIUM : Certainty.LOW);
        }
        return new Verdict(RippleCause.UNKNOWN, Certainty.LOW);
    }

    /**
     * Hum of h times the tacho's amplitude shifts a crossing by h / (2 pi fc); from cycle to cycle that is a swing of the
     * speed of h f / fc, at the mains frequency f or where it folds to (derived here).
     */
    private boolean fromPickUp(double frequencyHz, double amplitudePercent) {
        double folded = Folding.foldedHz(mainsHz, cycleHz);
        return near(frequencyHz, folded, MAINS_TOLERANCE * mainsHz / Math.max(folded, resolutionHz))
                && amplitudePercent <= HUM_MARGIN * 100 * humRatio * frequencyHz / cycleHz;
    }

    private static RippleCause mainsCause(int multiple) {
        return multiple == 1 ? RippleCause.MAINS : multiple == 2 ? RippleCause.TWICE_MAINS : RippleCause.MAINS_MULTIPLE;
    }

    private boolean atShaftOrder(double frequencyHz) {
        double order = Math.rint(frequencyHz / shaftHz);
        return order >= 1 && near(frequencyHz, order * shaftHz, SHAFT_TOLERANCE);
    }

    private boolean folds(double frequencyHz, int multiple) {
        double source = multiple * mainsHz;
        double folded = Folding.foldedHz(source, cycleHz);
        return 2 * source > cycleHz
                && Math.abs(frequencyHz - folded) <= Math.max(MAINS_TOLERANCE * source, resolutionHz);
    }

    private boolean near(double frequencyHz, double expectedHz, double share) {
        return Math.abs(frequencyHz - expectedHz) <= Math.max(share * expectedHz, resolutionHz);
    }
}
