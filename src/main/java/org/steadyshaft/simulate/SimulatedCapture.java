package org.steadyshaft.simulate;

import java.util.ArrayList;
import java.util.List;
import java.util.function.DoubleUnaryOperator;
import org.steadyshaft.numeric.SinusoidFit;
import org.steadyshaft.signal.SampleSource;

/**
 * A simulated recording and the truth about it. All times are counted from the start of the recording.
 *
 * @param scenario where it comes from
 * @param seed of what happened by chance
 * @param seconds length
 * @param motion what the machine did, settling included
 * @param recording the samples: full scale 1 for a sound card, volts for a scope
 */
public record SimulatedCapture(Scenario scenario, long seed, double seconds, Motion motion, SampleSource recording) {
    /** A disturbance with what it did to the speed. */
    public record Event(Disturbance.Kind kind, double timeSeconds, double peakSeconds, double peakPercent) {}

    /** After an event its peak is looked for over this time. */
    private static final double PEAK_WITHIN_SECONDS = 0.06;

    /** At standstill an event has no relative size. */
    private static final double LEAST_RPM = 1;

    /** The shaft in the recording's time. */
    public ShaftAngle shaft() {
        return motion.from(scenario.settleSeconds());
    }

    /** Mean speed over the recording [rpm]. */
    public double meanRpm() {
        return 60 * shaft().turns(seconds) / seconds;
    }

    /** Mean speed over a part of it [rpm]. */
    public double meanRpm(double fromSeconds, double toSeconds) {
        return 60 * (shaft().turns(toSeconds) - shaft().turns(fromSeconds)) / (toSeconds - fromSeconds);
    }

    /**
     * Amplitude of a line of the true speed between two times [% of the mean, 0 to peak], by a fit of a sine and an offset to
     * the speed on the simulation's grid.
     */
    public double linePercent(double hz, double fromSeconds, double toSeconds) {
        ShaftAngle shaft = shaft();
        int count = (int) Math.floor((toSeconds - fromSeconds) / MotionRecorder.GRID_SECONDS);
        SinusoidFit fit = SinusoidFit.of(
                new SinusoidFit.Values() {
                    @Override
                    public int count() {
                        return count;
                    }

                    @Override
                    public double timeSeconds(int index) {
                        return fromSeconds + index * MotionRecorder.GRID_SECONDS;
                    }

                    @Override
                    public double value(int index) {
                        return shaft.rpm(timeSeconds(index));
                    }

                    @Override
                    public double weight(int index) {
                        return 0.5 - 0.5 * Math.cos(2 * Math.PI * index / count);
                    }
                },
                hz);
        return 100 * fit.amplitude() / meanRpm(fromSeconds, toSeconds);
    }

    /**
     * Amplitude of a swing locked to the mains between two times [% of the mean, 0 to peak], projected on the mains' own phase, which may
     * wander.
     *
     * @param multiple of the mains' frequency
     */
    public double mainsPercent(int multiple, double fromSeconds, double toSeconds) {
        return lockedPercent(
                t -> multiple * scenario.mains().cycles(scenario.settleSeconds() + t), fromSeconds, toSeconds);
    }

    /** The same of a swing locked to the shaft, so many swings a turn. */
    public double orderPercent(double perTurn, double fromSeconds, double toSeconds) {
        ShaftAngle shaft = shaft();
        return lockedPercent(t -> perTurn * shaft.turns(t), fromSeconds, toSeconds);
    }

    private double lockedPercent(DoubleUnaryOperator cycles, double fromSeconds, double toSeconds) {
        ShaftAngle shaft = shaft();
        double mean = meanRpm(fromSeconds, toSeconds);
        int count = (int) Math.floor((toSeconds - fromSeconds) / MotionRecorder.GRID_SECONDS);
        double weights = 0;
        double cosines = 0;
        double sines = 0;
        for (int i = 0; i < count; i++) {
            double t = fromSeconds + i * MotionRecorder.GRID_SECONDS;
            double weight = 0.5 - 0.5 * Math.cos(2 * Math.PI * i / count);
            double angle = 2 * Math.PI * cycles.applyAsDouble(t);
            double away = shaft.rpm(t) - mean;
            weights += weight;
            cosines += weight * away * Math.cos(angle);
            sines += weight * away * Math.sin(angle);
        }
        return weights > 0 ? 100 * 2 * Math.hypot(cosines, sines) / weights / mean : 0;
    }

    /**
     * What happened in the recording. The size of an event is the largest departure, in the direction that its kind pushes,
     * of the speed averaged over a half-cycle of the mains from the mean over the fifth of a second before it.
     */
    public List<Event> events() {
        List<Event> events = new ArrayList<>();
        double half = scenario.mains().halfCycleSeconds();
        for (Disturbance disturbance : motion.disturbances()) {
            double at = disturbance.timeSeconds() - scenario.settleSeconds();
            if (at < 0.2 || at > seconds - 0.2) {
                continue;
            }
            double before = meanRpm(at - 10 * 2 * half, at);
            if (!(before > LEAST_RPM)) {
                continue;
            }
            double sign = disturbance.kind() == Disturbance.Kind.EXTRA_CONDUCTION ? 1 : -1;
            double peak = 0;
            double peakAt = at;
            for (double t = at; t < at + PEAK_WITHIN_SECONDS; t += 0.0005) {
                double away = sign * (meanRpm(t - 0.5 * half, t + 0.5 * half) / before - 1);
                if (away > peak) {
                    peak = away;
                    peakAt = t;
                }
            }
            events.add(new Event(disturbance.kind(), at, peakAt, 100 * sign * peak));
        }
        return events;
    }
}
