package org.steadyshaft.simulate;

import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Random;

/**
 * A drive whose zero detector now and then gives no interrupt, so that a half-cycle is not fired, or one too many: the timer then
 * starts anew somewhere within the half-cycle and fires early in the next one. One instance drives one run.
 */
public final class DetectorFaults implements Drive {
    private final Drive drive;
    private final double missed;
    private final double doubled;
    private final double halfCycleSeconds;
    private final Random chance;
    private OptionalDouble early = OptionalDouble.empty();
    private Optional<Disturbance.Kind> fault = Optional.empty();

    /**
     * @param drive what the interrupts start
     * @param missedPerMinute interrupts that do not come
     * @param doubledPerMinute interrupts too many
     * @param mainsHz frequency of the mains
     * @param seed of their times
     */
    public DetectorFaults(Drive drive, double missedPerMinute, double doubledPerMinute, double mainsHz, long seed) {
        if (!(missedPerMinute >= 0) || !(doubledPerMinute >= 0)) {
            throw new IllegalArgumentException("interrupts missed and doubled a minute: " + missedPerMinute + ", "
                    + doubledPerMinute + "; expected 0 and more");
        }
        double halfCyclesAMinute = 120 * mainsHz;
        this.drive = drive;
        this.missed = missedPerMinute / halfCyclesAMinute;
        this.doubled = doubledPerMinute / halfCyclesAMinute;
        this.halfCycleSeconds = 0.5 / mainsHz;
        this.chance = new Random(seed ^ 0x2545F4914F6CDD1DL);
    }

    @Override
    public OptionalDouble firing(double startSeconds, Shaft shaft) {
        OptionalDouble firing = drive.firing(startSeconds, shaft);
        fault = drive.fault();
        if (early.isPresent()) {
            double at = startSeconds + early.getAsDouble();
            early = OptionalDouble.empty();
            if (firing.isEmpty() || at < firing.getAsDouble()) {
                fault = Optional.of(Disturbance.Kind.EXTRA_CONDUCTION);
                return OptionalDouble.of(at);
            }
        }
        if (firing.isEmpty()) {
            return firing;
        }
        if (chance.nextDouble() < missed) {
            fault = Optional.of(Disturbance.Kind.MISSED_FIRING);
            return OptionalDouble.empty();
        }
        if (chance.nextDouble() < doubled) {
            double delay = firing.getAsDouble() - startSeconds;
            double beyond = halfCycleSeconds * chance.nextDouble() + delay - halfCycleSeconds;
            early = beyond > 0 ? OptionalDouble.of(beyond) : OptionalDouble.empty();
        }
        return firing;
    }

    @Override
    public Optional<Disturbance.Kind> fault() {
        return fault;
    }

    @Override
    public boolean rectified() {
        return drive.rectified();
    }

    @Override
    public boolean holdsGate() {
        return drive.holdsGate();
    }

    @Override
    public double overrunSeconds() {
        return drive.overrunSeconds();
    }

    @Override
    public double gatePulseSeconds() {
        return drive.gatePulseSeconds();
    }
}
