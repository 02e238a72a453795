package org.steadyshaft.simulate;

import org.hipparchus.ode.sampling.ODEStateInterpolator;
import org.hipparchus.ode.sampling.ODEStepHandler;
import org.steadyshaft.signal.DoubleSeries;

/** Writes down a run on an even grid while it is integrated, and lets a controller look back at it. */
final class MotionRecorder implements ODEStepHandler, Drive.Shaft {
    /** Grid of 4000 points a second: a cubic between them follows the torque pulses of 50 Hz to a millionth. */
    static final double GRID_SECONDS = 1.0 / 4000;

    private final MachineEquations equations;
    private final DoubleSeries.Builder turns = new DoubleSeries.Builder();
    private final DoubleSeries.Builder turnsPerSecond = new DoubleSeries.Builder();
    private final DoubleSeries.Builder current = new DoubleSeries.Builder();
    private final DoubleSeries.Builder voltage = new DoubleSeries.Builder();

    MotionRecorder(MachineEquations equations) {
        this.equations = equations;
    }

    /** Writes down the grid points up to a time at which nothing was integrated, with the state as it stands. */
    void hold(double timeSeconds, double[] state) {
        while (nextSeconds() <= timeSeconds) {
            add(nextSeconds(), state);
        }
    }

    @Override
    public void handleStep(ODEStateInterpolator step) {
        double to = step.getCurrentState().getTime();
        while (nextSeconds() <= to) {
            double time = nextSeconds();
            add(time, step.getInterpolatedState(time).getPrimaryState());
        }
    }

    private double nextSeconds() {
        return turns.size() * GRID_SECONDS;
    }

    private void add(double timeSeconds, double[] state) {
        turns.add(state[MachineEquations.TURNS]);
        turnsPerSecond.add(state[MachineEquations.ANGULAR_SPEED] / (2 * Math.PI));
        current.add(state[MachineEquations.LINE_CURRENT]);
        voltage.add(equations.drivingVoltage(timeSeconds));
    }

    @Override
    public double turns(double timeSeconds) {
        double place = Math.max(0, Math.min(turns.size() - 1.0, timeSeconds / GRID_SECONDS));
        int i = (int) Math.min(turns.size() - 2.0, Math.floor(place));
        return i < 0 ? turns.get(0) : turns.get(i) + (place - i) * (turns.get(i + 1) - turns.get(i));
    }

    @Override
    public double latestSeconds() {
        return (turns.size() - 1) * GRID_SECONDS;
    }

    DoubleSeries turns() {
        return turns.build();
    }

    DoubleSeries turnsPerSecond() {
        return turnsPerSecond.build();
    }

    DoubleSeries current() {
        return current.build();
    }

    DoubleSeries voltage() {
        return voltage.build();
    }
}
