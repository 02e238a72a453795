package org.steadyshaft.stability;

import java.util.OptionalDouble;

/**
 * Measures the shape of a blip and names its likely cause. One half-cycle of the mains too many throws the speed up within
 * that half-cycle; one or two too few let it sag while they last, a straight slope of one or two half-cycles; a hand takes longer.
 * What is over in a cycle or two is no shaft.
 */
final class BlipJudge {
    /** The filter of the crossings spreads a jump over so many cycles. */
    private static final double SPREAD_CYCLES = 3;

    /** An unwanted firing lasts a half-cycle, its torque a little longer; a missed pair of firings lasts a whole cycle. */
    private static final double JUMP_HALF_CYCLES = 3;

    private static final double RECORDER_CYCLES = 3;
    private static final double RECORDER_SECONDS = 0.04;
    private static final double TENTH = 0.1;

    private final double halfCycleSeconds;

    BlipJudge(double mainsHz) {
        this.halfCycleSeconds = 0.5 / mainsHz;
    }

    /**
     * The shape of a blip.
     *
     * @param rest deviations of the cycles of the piece without ripple lines [%]
     * @param start last cycle before the jump
     * @param peak its largest cycle
     * @param end last cycle that belongs to it
     * @param level deviation just before it [%]
     */
    BlipShape shape(SteadySpeed.Piece piece, double[] rest, int start, int peak, int end, double level) {
        double size = rest[peak] - level;
        double cycleSeconds = piece.cycleSeconds();
        double from = start;
        double to = peak;
        for (int i = peak; i > start; i--) {
            double here = (rest[i] - level) / size;
            double before = (rest[i - 1] - level) / size;
            if (here >= 1 - TENTH && before < 1 - TENTH) {
                to = i - 1 + (1 - TENTH - before) / (here - before);
            }
            if (here >= TENTH && before < TENTH) {
                from = i - 1 + (TENTH - before) / (here - before);
                break;
            }
        }
        double turns = 0;
        OptionalDouble recovery = OptionalDouble.empty();
        for (int i = start + 1; i <= end; i++) {
            double share = (rest[i] - level) / size;
            turns += piece.meanRpm / 60 * (rest[i] - level) / 100 * piece.weightSeconds[i];
            if (recovery.isEmpty() && i > peak && share < 1 / Math.E) {
                double before = (rest[i - 1] - level) / size;
                double part = (before - 1 / Math.E) / Math.max(1e-12, before - share);
                recovery = OptionalDouble.of((i - 1 + part - peak) * cycleSeconds);
            }
        }
        return new BlipShape(Math.max(1, to - from) * cycleSeconds, recovery, turns);
    }

    /** Whether a blip comes as fast as a firing too many or too few makes it. */
    boolean isSudden(BlipShape shape, double cycleSeconds) {
        return shape.riseSeconds() <= JUMP_HALF_CYCLES * halfCycleSeconds + SPREAD_CYCLES * cycleSeconds;
    }

    BlipCause cause(BlipShape shape, boolean up, double lengthSeconds, double cycleSeconds) {
        boolean back = shape.recoverySeconds().isPresent()
                && shape.recoverySeconds().getAsDouble() < Math.min(RECORDER_SECONDS, RECORDER_CYCLES * cycleSeconds);
        if (back || lengthSeconds <= Math.min(RECORDER_SECONDS, RECORDER_CYCLES * cycleSeconds)) {
            return BlipCause.RECORDER_FAULT;
        }
        boolean sudden = isSudden(shape, cycleSeconds);
        if (up) {
            return sudden ? BlipCause.EXTRA_CONDUCTION : BlipCause.UNKNOWN;
        }
        return sudden ? BlipCause.MISSED_FIRING : BlipCause.LOAD_TOUCH;
    }
}
