package org.steadyshaft.simulate;

import java.util.Optional;
import java.util.OptionalDouble;

/**
 * A microcontroller that closes the loop on the tacho: a comparator gives an edge a tacho cycle, its last full period is
 * the speed; a detector with a delay of its own finds the zero crossings of the mains; every so many half-cycles a PID with
 * clamped integral sets the firing delay.
 */
public final class LoopDrive implements Drive {
    /**
     * Everything that can be set.
     *
     * @param polePairs of the tacho
     * @param mainsHz frequency of the mains
     * @param detectorDelaySeconds from the zero crossing to the detector's edge
     * @param everyHalfCycles half-cycles from one step of the controller to the next
     * @param proportional gain [drive / rpm]; drive runs from 0 (nothing) to 1 (whole half-cycle)
     * @param integral gain [drive / (rpm s)]
     * @param derivative gain [drive s / rpm]
     * @param gainOverRpm gains are divided by the set-point over this speed, so that slow and fast ranges behave alike; 0 to
     *     leave them
     * @param firstDrive drive at the start
     * @param leadBreaksSeconds when the tacho's lead breaks; infinity for never
     * @param windsUp whether the integral goes on growing while the drive is at its end, up to {@link #WOUND} times the whole
     * @param timerSeconds longest delay the timer counts: a longer one starts again from nothing and fires early; infinity for a
     *     timer that is long enough and a program that fires nothing behind the latest angle
     */
    public record Settings(
            int polePairs,
            double mainsHz,
            double detectorDelaySeconds,
            int everyHalfCycles,
            double proportional,
            double integral,
            double derivative,
            double gainOverRpm,
            double firstDrive,
            double leadBreaksSeconds,
            boolean windsUp,
            double timerSeconds) {
        /** A controller that holds its integral at the ends, with a timer that is long enough. */
        public Settings(
                int polePairs,
                double mainsHz,
                double detectorDelaySeconds,
                int everyHalfCycles,
                double proportional,
                double integral,
                double derivative,
                double gainOverRpm,
                double firstDrive,
                double leadBreaksSeconds) {
            this(
                    polePairs,
                    mainsHz,
                    detectorDelaySeconds,
                    everyHalfCycles,
                    proportional,
                    integral,
                    derivative,
                    gainOverRpm,
                    firstDrive,
                    leadBreaksSeconds,
                    false,
                    Double.POSITIVE_INFINITY);
        }

        public Settings {
            if (polePairs < 1 || everyHalfCycles < 1 || !(mainsHz > 0) || !(detectorDelaySeconds >= 0)) {
                throw new IllegalArgumentException("controller of " + polePairs + " pole pairs, a step every "
                        + everyHalfCycles + " half-cycles, detector delay " + detectorDelaySeconds
                        + " s; expected 1 and more, 0 and more");
            }
            if (!(timerSeconds > 0)) {
                throw new IllegalArgumentException("a timer that counts " + timerSeconds + " s; expected above 0");
            }
        }
    }

    /** Set-point over time. */
    @FunctionalInterface
    public interface SetPoint {
        double rpm(double timeSeconds);
    }

    /** The latest the timer may fire, as a share of the half-cycle: later a triac would not latch. */
    private static final double LATEST_SHARE = 0.93;

    private static final double PULSE_SECONDS = 100e-6;

    /** A wound-up integral stops here, as a number in a small controller does somewhere. */
    private static final double WOUND = 4;

    private final Settings settings;
    private final SetPoint setPoint;
    private double sum;
    private double drive;
    private double lastError;
    private long halfCycles;
    private boolean overflowed;

    public LoopDrive(Settings settings, SetPoint setPoint) {
        this.settings = settings;
        this.setPoint = setPoint;
        this.sum = settings.firstDrive();
        this.drive = settings.firstDrive();
    }

    @Override
    public boolean rectified() {
        return false;
    }

    @Override
    public OptionalDouble firing(double startSeconds, Shaft shaft) {
        if (halfCycles++ % settings.everyHalfCycles() == 0) {
            control(startSeconds, shaft);
        }
        double half = 0.5 / settings.mainsHz();
        double angle = (1 - drive) * half + settings.detectorDelaySeconds();
        overflowed = angle > settings.timerSeconds();
        if (overflowed) {
            return OptionalDouble.of(startSeconds + angle - settings.timerSeconds());
        }
        return drive <= 0 || angle > LATEST_SHARE * half
                ? OptionalDouble.empty()
                : OptionalDouble.of(startSeconds + angle);
    }

    @Override
    public Optional<Disturbance.Kind> fault() {
        return overflowed ? Optional.of(Disturbance.Kind.EXTRA_CONDUCTION) : Optional.empty();
    }

    private void control(double now, Shaft shaft) {
        double target = setPoint.rpm(now);
        double measuredRpm = now < settings.leadBreaksSeconds() ? measure(now, shaft) : 0;
        double step = settings.everyHalfCycles() * 0.5 / settings.mainsHz();
        double scale = settings.gainOverRpm() > 0 ? settings.gainOverRpm() / target : 1;
        double error = target - measuredRpm;
        double wanted =
                scale * (settings.proportional() * error + settings.derivative() * (error - lastError) / step) + sum;
        drive = Math.max(0, Math.min(1, wanted));
        boolean pushesFurther = wanted > 1 && error > 0 || wanted < 0 && error < 0;
        if (!pushesFurther || settings.windsUp()) {
            double end = settings.windsUp() ? WOUND : 1;
            sum = Math.max(1 - end, Math.min(end, sum + scale * settings.integral() * error * step));
        }
        lastError = error;
    }

    /** Speed from the last whole period of the tacho [rpm]; 0 when there was none for a while. */
    private double measure(double now, Shaft shaft) {
        double latest = Math.min(now, shaft.latestSeconds());
        double cycles = shaft.turns(latest) * settings.polePairs();
        double edge = Math.floor(cycles);
        if (edge < 1) {
            return 0;
        }
        double later = timeOf(edge / settings.polePairs(), latest, shaft);
        double earlier = timeOf((edge - 1) / settings.polePairs(), later, shaft);
        return later > earlier ? 60 / ((later - earlier) * settings.polePairs()) : 0;
    }

    /** When the shaft had made so many turns, by bisection before a time. */
    private static double timeOf(double turns, double before, Shaft shaft) {
        double step = 0.01;
        double low = Math.max(0, before - step);
        while (low > 0 && shaft.turns(low) > turns) {
            step *= 2;
            low = Math.max(0, before - step);
        }
        double high = before;
        for (int i = 0; i < 40; i++) {
            double middle = 0.5 * (low + high);
            if (shaft.turns(middle) > turns) {
                high = middle;
            } else {
                low = middle;
            }
        }
        return 0.5 * (low + high);
    }

    @Override
    public boolean holdsGate() {
        return false;
    }

    @Override
    public double gatePulseSeconds() {
        return PULSE_SECONDS;
    }
}
