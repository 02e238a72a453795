package org.steadyshaft.ripple;

/** Names the cause of a line that stands on no multiple of the mains: what turns with the shaft or the driven wheel, or swings slowly. */
final class CauseFinder {
    /** The driven wheel turns at the shaft's speed over the ratio as good as the user knows the ratio. */
    private static final double RATIO_SHARE = 0.03;

    /** Orders of the driven wheel that lumps and ovals make. */
    private static final int WHEEL_ORDERS = 4;

    /** Loops hunt below this; faster swings have other causes (common practice). */
    private static final double HIGHEST_HUNTING_HZ = 10;

    /** Hunting smaller than this is no hunting [%]. */
    private static final double LEAST_HUNTING_PERCENT = 0.3;

    /** Bars of commutators of such motors, or twice as many where their number is odd (common practice). */
    private static final int FEWEST_BARS = 12;

    private static final int MOST_BARS = 96;

    /** A cause and how sure it is. */
    record Verdict(RippleCause cause, Certainty certainty) {}

    private final double shaftHz;
    private final double resolutionHz;
    private final DriveHints hints;

    /** @param resolutionHz how close two frequencies must be to be the same for want of resolution */
    CauseFinder(double shaftHz, double resolutionHz, DriveHints hints) {
        this.shaftHz = shaftHz;
        this.resolutionHz = resolutionHz;
        this.hints = hints;
    }

    /** Cause of a line on a multiple of the mains. */
    static RippleCause ofMultiple(int multiple) {
        return multiple == 1 ? RippleCause.MAINS : multiple == 2 ? RippleCause.TWICE_MAINS : RippleCause.MAINS_MULTIPLE;
    }

    /** @param steady whether the line kept its rhythm over whole pieces, as the waveform's lines do and loops seldom */
    Verdict causeOf(double frequencyHz, double amplitudePercent, boolean steady) {
        if (hints.beltRatio().isPresent()) {
            double wheelHz = shaftHz / hints.beltRatio().getAsDouble();
            double order = Math.rint(frequencyHz / wheelHz);
            double reach = Math.max(resolutionHz, RATIO_SHARE * frequencyHz);
            if (order >= 1 && order <= WHEEL_ORDERS && Math.abs(frequencyHz - order * wheelHz) < reach) {
                return new Verdict(RippleCause.DRIVEN_WHEEL, Certainty.MEDIUM);
            }
        }
        boolean open = !hints.loop().orElse(!steady);
        if (hints.beltRatio().isPresent() && open && frequencyHz < shaftHz) {
            return new Verdict(RippleCause.BELT, Certainty.LOW);
        }
        if (frequencyHz > HIGHEST_HUNTING_HZ || frequencyHz > shaftHz) {
            return new Verdict(isOfBars(frequencyHz) ? RippleCause.COMMUTATOR : RippleCause.UNKNOWN, Certainty.LOW);
        }
        boolean told = hints.loop().isPresent();
        boolean loop = hints.loop().orElse(!steady);
        if (!loop || amplitudePercent < LEAST_HUNTING_PERCENT) {
            return new Verdict(RippleCause.SWING, loop ? Certainty.LOW : Certainty.MEDIUM);
        }
        return new Verdict(RippleCause.HUNTING, told ? Certainty.MEDIUM : Certainty.LOW);
    }

    /** Whether a line keeps time with the shaft as often a turn as there may be bars; nothing else is known to do that. */
    private boolean isOfBars(double frequencyHz) {
        double order = Math.rint(frequencyHz / shaftHz);
        return order >= FEWEST_BARS && order <= MOST_BARS && Math.abs(frequencyHz - order * shaftHz) < resolutionHz;
    }
}
