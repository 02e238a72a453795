package org.steadyshaft.simulate;

import java.util.List;
import org.steadyshaft.signal.DoubleSeries;

/**
 * What a simulated machine did, on an even grid of times, and what happened on the way. Between grid points angle and speed
 * follow the cubic that has the right angle and speed at both ends.
 */
public final class Motion implements ShaftAngle {
    private final double stepSeconds;
    private final DoubleSeries turns;
    private final DoubleSeries turnsPerSecond;
    private final DoubleSeries current;
    private final DoubleSeries voltage;
    private final DoubleSeries firingSeconds;
    private final DoubleSeries gateSeconds;
    private final List<Disturbance> disturbances;
    private final Energy energy;

    /**
     * Where the energy went [J].
     *
     * @param in from the supply
     * @param lost in resistances and brushes
     * @param out to load, friction and fan
     * @param storedMore in inductances and inertia, at the end more than at the start
     */
    public record Energy(double in, double lost, double out, double storedMore) {}

    Motion(
            double stepSeconds,
            DoubleSeries turns,
            DoubleSeries turnsPerSecond,
            DoubleSeries current,
            DoubleSeries voltage,
            DoubleSeries firingSeconds,
            DoubleSeries gateSeconds,
            List<Disturbance> disturbances,
            Energy energy) {
        this.stepSeconds = stepSeconds;
        this.turns = turns;
        this.turnsPerSecond = turnsPerSecond;
        this.current = current;
        this.voltage = voltage;
        this.firingSeconds = firingSeconds;
        this.gateSeconds = gateSeconds;
        this.disturbances = List.copyOf(disturbances);
        this.energy = energy;
    }

    public double durationSeconds() {
        return (turns.size() - 1) * stepSeconds;
    }

    /** Turns since the start; held at the ends. */
    @Override
    public double turns(double timeSeconds) {
        int i = cell(timeSeconds);
        double u = Math.max(0, Math.min(1, timeSeconds / stepSeconds - i));
        double a = turns.get(i);
        double b = turns.get(i + 1);
        double slopeA = turnsPerSecond.get(i) * stepSeconds;
        double slopeB = turnsPerSecond.get(i + 1) * stepSeconds;
        double v = 1 - u;
        return a * (1 + 2 * u) * v * v + slopeA * u * v * v + b * u * u * (3 - 2 * u) - slopeB * u * u * v;
    }

    /** Speed [rpm], the slope of {@link #turns}. */
    @Override
    public double rpm(double timeSeconds) {
        int i = cell(timeSeconds);
        double u = Math.max(0, Math.min(1, timeSeconds / stepSeconds - i));
        double rise = (turns.get(i + 1) - turns.get(i)) / stepSeconds;
        double slope = 6 * u * (1 - u) * rise
                + (1 - 4 * u + 3 * u * u) * turnsPerSecond.get(i)
                + (3 * u * u - 2 * u) * turnsPerSecond.get(i + 1);
        return 60 * slope;
    }

    private int cell(double timeSeconds) {
        return (int) Math.max(0, Math.min(turns.size() - 2.0, Math.floor(timeSeconds / stepSeconds)));
    }

    /** Grid points. */
    public int points() {
        return turns.size();
    }

    public double timeSeconds(int point) {
        return point * stepSeconds;
    }

    /** Line current at a grid point [A]. */
    public double current(int point) {
        return current.get(point);
    }

    /** Voltage across the motor at a grid point [V]. */
    public double voltage(int point) {
        return voltage.get(point);
    }

    /** Times at which the triac began to conduct. */
    public DoubleSeries firingSeconds() {
        return firingSeconds;
    }

    /** Times at which the gate was fired by its drive, whether the triac latched or not. */
    public DoubleSeries gateSeconds() {
        return gateSeconds;
    }

    public List<Disturbance> disturbances() {
        return disturbances;
    }

    public Energy energy() {
        return energy;
    }
}
