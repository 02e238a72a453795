package org.steadyshaft.simulate;

import java.util.Optional;
import java.util.OptionalDouble;

/** A drive circuit: decides when the triac is fired. One instance drives one run and may remember. */
public interface Drive {
    /** What a drive can see of the machine. */
    interface Shaft {
        /** Turns since the start at a time that has passed. */
        double turns(double timeSeconds);

        /** Latest time at which {@link #turns} can be asked. */
        double latestSeconds();
    }

    /** Whether the triac stands before a rectifier, so that the motor gets the voltage's magnitude. */
    boolean rectified();

    /**
     * Told at each zero crossing of the mains.
     *
     * @param startSeconds start of the half-cycle
     * @param shaft what has been seen of the shaft
     * @return when the gate is fired in this half-cycle; empty if it is not, or if a capacitor decides
     */
    OptionalDouble firing(double startSeconds, Shaft shaft);

    /** What went wrong in the half-cycle that {@link #firing} was last asked for; empty if nothing did. */
    default Optional<Disturbance.Kind> fault() {
        return Optional.empty();
    }

    /** Whether the gate is held at a time, once fired, to the end of the half-cycle. */
    boolean holdsGate();

    /** How far into the next half-cycle a held gate is held [s]: a train of pulses that overruns the zero. */
    default double overrunSeconds() {
        return 0;
    }

    /** How long a gate pulse lasts [s]; a triac that has not latched by its end goes out again. */
    double gatePulseSeconds();

    /** Change of the timing capacitor's voltage [V/s]; 0 without one. */
    default double capacitorSlope(double triacVoltage, double capacitorVoltage) {
        return 0;
    }

    /** Above 0 when the capacitor fires the gate; always below without one. */
    default double breakOver(double capacitorVoltage) {
        return -1;
    }

    /** The capacitor's voltage just after it has fired the gate. */
    default double afterBreakOver(double capacitorVoltage) {
        return capacitorVoltage;
    }

    /** Whether a capacitor decides the firing. */
    default boolean hasCapacitor() {
        return false;
    }
}
