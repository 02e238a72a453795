package org.steadyshaft.analysis;

import java.util.EnumSet;
import java.util.List;
import java.util.OptionalInt;
import java.util.Set;
import org.steadyshaft.blip.RecorderFault;
import org.steadyshaft.signal.CycleTimes;
import org.steadyshaft.signal.Stretch;

/**
 * Places in which the cycles are not to be counted: where the recorder lost its place or the lead was open, and where noise covers the tacho
 * so that more or fewer cycles were counted across it than the speed on either side gives.
 */
final class UncountedPlaces {
    private static final Set<RecorderFault.Kind> JUMPS = EnumSet.of(
            RecorderFault.Kind.SAMPLES_LOST,
            RecorderFault.Kind.SAMPLES_DOUBLED,
            RecorderFault.Kind.REVERSED,
            RecorderFault.Kind.LEAD_OPEN);

    private static final Set<RecorderFault.Kind> COVERED =
            EnumSet.of(RecorderFault.Kind.NOISE_BURST, RecorderFault.Kind.CONTACT);

    /** The band-limit of the crossings spreads a jump over so many cycles on either side. */
    private static final double BESIDE_CYCLES = 3;

    /** The speed beside a covered place is taken over so many cycles. */
    private static final int CYCLES_FOR_SPEED = 8;

    /** So much of a cycle more or less is no noise of the crossings: that stays below a hundredth where anything is counted at all. */
    private static final double DISAGREES_CYCLES = 0.1;

    /** The speeds on either side agree within this share, else it changed meanwhile and nothing can be said. */
    private static final double SAME_SPEED = 0.02;

    private final CycleTimes cycles;
    private final double usualSeconds;

    UncountedPlaces(CycleTimes cycles) {
        this.cycles = cycles;
        this.usualSeconds = (cycles.timeSeconds(cycles.crossings() - 1) - cycles.timeSeconds(0)) / cycles.cycles();
    }

    /** The places among the faults, widened by what the band-limit spreads. */
    List<Stretch> of(List<RecorderFault> faults) {
        return faults.stream()
                .filter(f -> JUMPS.contains(f.kind()) || (COVERED.contains(f.kind()) && isMiscounted(f.where())))
                .map(f -> widened(f.where()))
                .toList();
    }

    private Stretch widened(Stretch where) {
        double beside = BESIDE_CYCLES * usualSeconds;
        return new Stretch(where.fromSeconds() - beside, where.toSeconds() + beside);
    }

    private boolean isMiscounted(Stretch covered) {
        Stretch where = widened(covered);
        OptionalInt segment = segmentAround(where);
        if (segment.isEmpty()) {
            return false;
        }
        int before = cycles.firstNotBefore(segment.getAsInt(), where.fromSeconds()) - 1;
        int after = cycles.firstNotBefore(segment.getAsInt(), where.toSeconds());
        if (before - CYCLES_FOR_SPEED < cycles.firstOf(segment.getAsInt())
                || after + CYCLES_FOR_SPEED >= cycles.endOf(segment.getAsInt())) {
            return false;
        }
        double slow = (cycles.timeSeconds(before) - cycles.timeSeconds(before - CYCLES_FOR_SPEED)) / CYCLES_FOR_SPEED;
        double fast = (cycles.timeSeconds(after + CYCLES_FOR_SPEED) - cycles.timeSeconds(after)) / CYCLES_FOR_SPEED;
        double expected = (cycles.timeSeconds(after) - cycles.timeSeconds(before)) / (0.5 * (slow + fast));
        return Math.abs(slow / fast - 1) < SAME_SPEED && Math.abs(after - before - expected) > DISAGREES_CYCLES;
    }

    private OptionalInt segmentAround(Stretch where) {
        for (int segment = 0; segment < cycles.segments(); segment++) {
            if (cycles.cyclesOf(segment) > 0
                    && cycles.timeSeconds(cycles.firstOf(segment)) < where.fromSeconds()
                    && cycles.timeSeconds(cycles.endOf(segment) - 1) > where.toSeconds()) {
                return OptionalInt.of(segment);
            }
        }
        return OptionalInt.empty();
    }
}
