package org.steadyshaft.simulate;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import java.util.Random;
import java.util.function.DoubleConsumer;
import org.hipparchus.ode.ODEState;
import org.hipparchus.ode.ODEStateAndDerivative;
import org.hipparchus.ode.nonstiff.DormandPrince54Integrator;
import org.steadyshaft.signal.DoubleSeries;
import org.steadyshaft.simulate.MachineEquations.Mode;

/**
 * A motor on the mains behind a triac. Between firing, end of current, zero crossings and corners of the load the equations
 * are integrated by Dormand and Prince's method of order 5 (Hipparchus) with step control; current zero and break-over of a
 * diac are found as events. Each run is used once.
 *
 * @param motor what turns
 * @param mains what feeds it
 * @param bypass resistor across the armature [ohm], which bounds the unloaded speed; absent without one
 * @param load what the work asks of it
 * @param misfiring how the triac fails
 * @param seed of what happens by chance
 * @param fieldLostSeconds when a field that is fed apart loses its supply; infinity for never
 */
public record Machine(
        Motor motor,
        Mains mains,
        OptionalDouble bypass,
        Load load,
        Misfiring misfiring,
        long seed,
        double fieldLostSeconds) {
    /** A machine whose field stays. */
    public Machine(Motor motor, Mains mains, OptionalDouble bypass, Load load, Misfiring misfiring, long seed) {
        this(motor, mains, bypass, load, misfiring, seed, Double.POSITIVE_INFINITY);
    }

    /**
     * Runs from a speed.
     *
     * @param startRpm speed at the start; 0 or more
     * @param seconds how long
     */
    public Motion run(Drive drive, double startRpm, double seconds) {
        return run(drive, startRpm, seconds, t -> {});
    }

    /**
     * The same with news of how far it is.
     *
     * @param progress told the time in the run at every half-cycle of the mains [s]
     */
    public Motion run(Drive drive, double startRpm, double seconds, DoubleConsumer progress) {
        return new Run(drive, startRpm, progress).to(seconds);
    }

    private final class Run {
        private static final double LEAST_STEP = 1e-13;
        private static final double LONGEST_STEP = 2e-3;
        private static final double ABSOLUTE = 1e-7;
        private static final double RELATIVE = 1e-7;

        /** Two instants closer than this are one. */
        private static final double SAME_SECONDS = 1e-9;

        /** Behind a rectifier a held gate waits for the voltage to pass the back EMF; looked at this often. */
        private static final double RETRY_SECONDS = 1e-4;

        private final Drive drive;
        private final DoubleConsumer progress;
        private final MachineEquations equations;
        private final MotionRecorder recorder;
        private final Random chance = new Random(seed);
        private final List<Disturbance> disturbances = new ArrayList<>();
        private final DoubleSeries.Builder firings = new DoubleSeries.Builder();
        private final DoubleSeries.Builder gates = new DoubleSeries.Builder();
        private double[] state = new double[MachineEquations.DIMENSION];
        private double now;
        private double nextFiring = Double.POSITIVE_INFINITY;
        private double gateHeldTo = Double.NEGATIVE_INFINITY;
        private boolean weakWaited;

        /** Whether the firing to come is one that was put off, not a pulse of its own. */
        private boolean putOff;

        private long halfCycle = -1;
        private double direction = 1;

        Run(Drive drive, double startRpm, DoubleConsumer progress) {
            this.drive = drive;
            this.progress = progress;
            this.equations = new MachineEquations(motor, mains, bypass, load, drive, fieldLostSeconds);
            this.recorder = new MotionRecorder(equations);
            state[MachineEquations.ANGULAR_SPEED] = startRpm * 2 * Math.PI / 60;
        }

        Motion to(double seconds) {
            double storedAtStart = equations.stored(state);
            recorder.hold(0, state);
            while (now < seconds - SAME_SECONDS) {
                if (mains.halfCycle(now) > halfCycle) {
                    beginHalfCycle();
                }
                if (nextFiring <= now + SAME_SECONDS) {
                    fire(true);
                } else {
                    advance(Math.min(seconds, nextCorner()));
                }
            }
            recorder.hold(seconds, state);
            return new Motion(
                    MotionRecorder.GRID_SECONDS,
                    recorder.turns(),
                    recorder.turnsPerSecond(),
                    recorder.current(),
                    recorder.voltage(),
                    firings.build(),
                    gates.build(),
                    disturbances,
                    new Motion.Energy(
                            state[MachineEquations.ENERGY_IN],
                            state[MachineEquations.ENERGY_LOST],
                            state[MachineEquations.ENERGY_OUT],
                            equations.stored(state) - storedAtStart));
        }

        private double nextCorner() {
            double boundary = mains.startSeconds(halfCycle + 1);
            double change = Math.min(load.nextEdgeSeconds(now), mains.nextStepSeconds(now));
            double failure = Math.min(after(misfiring.shortedSeconds()), after(fieldLostSeconds));
            return Math.min(Math.min(boundary, nextFiring), Math.min(change, failure));
        }

        private double after(double seconds) {
            return seconds > now + SAME_SECONDS ? seconds : Double.POSITIVE_INFINITY;
        }

        private boolean isShorted() {
            return now >= misfiring.shortedSeconds() - SAME_SECONDS;
        }

        private boolean isGateHeld() {
            return now < gateHeldTo || isShorted();
        }

        /** At a zero crossing a rectified triac goes out, and the drive says when to fire next. */
        private void beginHalfCycle() {
            progress.accept(now);
            halfCycle = mains.halfCycle(now);
            weakWaited = false;
            putOff = false;
            if (drive.rectified() && equations.mode() == Mode.ON) {
                boolean flows = state[MachineEquations.LINE_CURRENT] > 1e-9;
                equations.become(flows ? Mode.FREEWHEEL : Mode.OFF);
            }
            OptionalDouble firing = drive.firing(now, recorder);
            drive.fault().ifPresent(this::disturb);
            nextFiring = firing.isPresent() ? Math.max(now, firing.getAsDouble()) : Double.POSITIVE_INFINITY;
            if (isShorted()) {
                nextFiring = now;
            }
            if (drive.rectified() && happens(misfiring.refiresPerMinute())) {
                disturb(Disturbance.Kind.EXTRA_CONDUCTION);
                gateHeldTo = mains.startSeconds(halfCycle + 1);
                nextFiring = now;
            }
        }

        /** Whether something with a rate a minute happens in this half-cycle. */
        private boolean happens(double perMinute) {
            double halfCyclesAMinute = 60 / mains.halfCycleSeconds();
            return chance.nextDouble() < perMinute / halfCyclesAMinute;
        }

        private void disturb(Disturbance.Kind kind) {
            disturbances.add(new Disturbance(kind, now));
        }

        /** Gives the gate its pulse; {@code mayMiss} is false where the triac conducts on by itself. */
        private void fire(boolean mayMiss) {
            nextFiring = Double.POSITIVE_INFINITY;
            boolean isPulse = mayMiss && !isShorted() && !putOff;
            putOff = false;
            if (isPulse) {
                gates.add(now);
                if (drive.holdsGate()) {
                    gateHeldTo = mains.startSeconds(halfCycle + 1) + drive.overrunSeconds();
                }
            }
            if (equations.mode() == Mode.ON) {
                return;
            }
            double speed = state[MachineEquations.ANGULAR_SPEED];
            double forward = drive.rectified()
                    ? Math.abs(mains.voltage(now)) - equations.restingEmf(now, speed)
                    : mains.voltage(now) - equations.restingEmf(now, speed);
            boolean flows = equations.mode() == Mode.FREEWHEEL;
            if (drive.rectified() && forward <= 0 && !flows) {
                if (isGateHeld()) {
                    putOff(RETRY_SECONDS);
                }
                return;
            }
            if (mayMiss && waitsForWeakQuadrant(forward)) {
                return;
            }
            double rise = Math.abs(forward) / equations.lineInductance() * drive.gatePulseSeconds();
            boolean latches =
                    flows || isGateHeld() || rise >= Math.max(misfiring.latchingCurrent(), misfiring.holdingCurrent());
            if (mayMiss && !isShorted() && (!latches || happens(misfiring.missesPerMinute()))) {
                disturb(Disturbance.Kind.MISSED_FIRING);
                return;
            }
            direction = drive.rectified() ? 1 : direction(forward);
            equations.become(Mode.ON);
            firings.add(now);
        }

        /** Whether the weaker quadrant lets the gate wait, or fires not at all. */
        private boolean waitsForWeakQuadrant(double forward) {
            boolean weak =
                    misfiring.weakDelaySeconds() > 0 && !drive.rectified() && direction(forward) < 0 && !isShorted();
            if (!weak || weakWaited) {
                return false;
            }
            weakWaited = true;
            if (!misfiring.conductsOneWay()) {
                putOff(misfiring.weakDelaySeconds());
            }
            return true;
        }

        private void putOff(double seconds) {
            nextFiring = now + seconds;
            putOff = true;
        }

        /** Which way the current will go; at a zero of the voltage, the way of the half-cycle that begins. */
        private double direction(double forward) {
            boolean tiny = Math.abs(forward) < 1e-4 * mains.rms();
            return tiny ? mains.polarity(now) : Math.signum(forward);
        }

        /** Integrates to a time or to the event that comes before. */
        private void advance(double until) {
            if (until - now < SAME_SECONDS) {
                now = until;
                return;
            }
            DormandPrince54Integrator integrator =
                    new DormandPrince54Integrator(LEAST_STEP, LONGEST_STEP, ABSOLUTE, RELATIVE);
            integrator.setInitialStepSize(Math.min(1e-5, 0.1 * (until - now)));
            integrator.addStepHandler(recorder);
            StopAt currentEnds = new StopAt(y -> direction * y[MachineEquations.LINE_CURRENT], false);
            double holding = misfiring.holdingCurrent();
            StopAt holdingEnds = new StopAt(y -> direction * y[MachineEquations.LINE_CURRENT] - holding, false);
            StopAt diacFires = new StopAt(y -> drive.breakOver(y[MachineEquations.CAPACITOR]), true);
            if (equations.mode() != Mode.OFF) {
                integrator.addEventDetector(currentEnds);
                if (holding > 0 && !isGateHeld() && !drive.rectified()) {
                    integrator.addEventDetector(holdingEnds);
                }
            }
            if (equations.mode() != Mode.ON && drive.hasCapacitor()) {
                integrator.addEventDetector(diacFires);
            }
            ODEStateAndDerivative end = integrator.integrate(equations, new ODEState(now, state), until);
            state = end.getPrimaryState();
            now = end.getTime();
            if (diacFires.reached()) {
                state[MachineEquations.CAPACITOR] = drive.afterBreakOver(state[MachineEquations.CAPACITOR]);
                fire(true);
            } else if (currentEnds.reached() || holdingEnds.reached()) {
                endCurrent();
            }
        }

        private void endCurrent() {
            boolean conducted = equations.mode() == Mode.ON;
            equations.become(Mode.OFF);
            state[MachineEquations.LINE_CURRENT] = 0;
            if (bypass.isEmpty()) {
                state[MachineEquations.ARMATURE_CURRENT] = 0;
            }
            if (drive.rectified() || !conducted) {
                return;
            }
            if (happens(misfiring.refiresPerMinute())) {
                disturb(Disturbance.Kind.EXTRA_CONDUCTION);
                fire(false);
            } else if (isGateHeld()) {
                // the train of the half-cycle before goes on beyond the zero and fires the whole of the next one
                boolean overrun = !isShorted()
                        && drive.overrunSeconds() > 0
                        && now < mains.startSeconds(halfCycle) + drive.overrunSeconds();
                if (overrun) {
                    disturb(Disturbance.Kind.EXTRA_CONDUCTION);
                }
                fire(false);
            }
        }
    }
}
