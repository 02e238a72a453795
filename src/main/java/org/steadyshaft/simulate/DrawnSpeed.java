package org.steadyshaft.simulate;

import java.util.ArrayList;
import java.util.List;
import java.util.function.DoubleUnaryOperator;

/**
 * A speed over time, drawn from parts whose figures are known: a level, lines, blips, steps, a drift. Every part knows its
 * own integral, so the angle is exact. Immutable; the speed must stay above 0.
 */
public final class DrawnSpeed implements ShaftAngle {
    /** A part: its relative change of the speed at a time, and the integral of that from time 0 on. */
    private record Part(DoubleUnaryOperator share, DoubleUnaryOperator integral) {}

    private final double levelRpm;
    private final List<Part> parts;

    private DrawnSpeed(double levelRpm, List<Part> parts) {
        this.levelRpm = levelRpm;
        this.parts = parts;
    }

    /** A constant speed [rpm], above 0. */
    public static DrawnSpeed level(double levelRpm) {
        if (!(levelRpm > 0)) {
            throw new IllegalArgumentException("level " + levelRpm + " rpm; expected above 0");
        }
        return new DrawnSpeed(levelRpm, List.of());
    }

    private DrawnSpeed with(DoubleUnaryOperator share, DoubleUnaryOperator integral) {
        List<Part> all = new ArrayList<>(parts);
        all.add(new Part(share, integral));
        return new DrawnSpeed(levelRpm, all);
    }

    /** Adds a sine of the given frequency and amplitude [% of the level, 0 to peak]. */
    public DrawnSpeed line(double frequencyHz, double amplitudePercent, double phaseRadians) {
        double w = 2 * Math.PI * frequencyHz;
        double a = amplitudePercent / 100;
        return with(
                t -> a * Math.sin(w * t + phaseRadians),
                t -> a / w * (Math.cos(phaseRadians) - Math.cos(w * t + phaseRadians)));
    }

    /**
     * Adds a sine whose amplitude [% of the level at time 0] changes with time.
     *
     * @param perSecond growth of the amplitude: exp(perSecond t); below 0 it dies
     */
    public DrawnSpeed swell(double frequencyHz, double amplitudePercent, double phaseRadians, double perSecond) {
        double w = 2 * Math.PI * frequencyHz;
        double a = amplitudePercent / 100;
        double norm = perSecond * perSecond + w * w;
        DoubleUnaryOperator whole = t -> a
                * Math.exp(perSecond * t)
                * (perSecond * Math.sin(w * t + phaseRadians) - w * Math.cos(w * t + phaseRadians))
                / norm;
        double start = whole.applyAsDouble(0);
        return with(
                t -> a * Math.exp(perSecond * t) * Math.sin(w * t + phaseRadians), t -> whole.applyAsDouble(t) - start);
    }

    /** Adds a blip: a straight rise to its peak [% of the level, signed], then an exponential return. */
    public DrawnSpeed blip(double fromSeconds, double riseSeconds, double peakPercent, double returnSeconds) {
        return ringingBlip(fromSeconds, riseSeconds, peakPercent, returnSeconds, 0);
    }

    /**
     * Adds a blip that returns ringing: a straight rise to its peak [% of the level, signed], then a cosine that dies. The integral of the damped
     * cosine is worked out here from its definition.
     *
     * @param ringingHz of the cosine; 0 for an exponential return
     */
    public DrawnSpeed ringingBlip(
            double fromSeconds, double riseSeconds, double peakPercent, double returnSeconds, double ringingHz) {
        double a = peakPercent / 100;
        double w = 2 * Math.PI * ringingHz;
        double u = 1 / returnSeconds;
        return with(
                t -> {
                    double since = t - fromSeconds;
                    double behind = since - riseSeconds;
                    return since <= 0
                            ? 0
                            : a * (behind < 0 ? since / riseSeconds : Math.exp(-u * behind) * Math.cos(w * behind));
                },
                t -> {
                    double up = Math.max(0, Math.min(t - fromSeconds, riseSeconds));
                    double s = Math.max(0, t - fromSeconds - riseSeconds);
                    double cosine =
                            (u + Math.exp(-u * s) * (w * Math.sin(w * s) - u * Math.cos(w * s))) / (u * u + w * w);
                    return a * (up * up / (2 * riseSeconds) + cosine);
                });
    }

    /** Adds a steady rise [% of the level a minute]. */
    public DrawnSpeed drift(double percentPerMinute) {
        double slope = percentPerMinute / 100 / 60;
        return with(t -> slope * t, t -> 0.5 * slope * t * t);
    }

    /** Adds a straight change of the speed [% of the level] between two times, which it keeps from then on. */
    public DrawnSpeed ramp(double fromSeconds, double toSeconds, double percent) {
        double a = percent / 100;
        double span = toSeconds - fromSeconds;
        return with(t -> a * Math.max(0, Math.min(1, (t - fromSeconds) / span)), t -> {
            double inside = Math.max(0, Math.min(span, t - fromSeconds));
            return a * (0.5 * inside * inside / span + Math.max(0, t - toSeconds));
        });
    }

    /** Adds a first-order step [% of the level] with a time constant. */
    public DrawnSpeed step(double atSeconds, double percent, double constantSeconds) {
        double a = percent / 100;
        return with(
                t -> t <= atSeconds ? 0 : a * (1 - Math.exp((atSeconds - t) / constantSeconds)),
                t -> t <= atSeconds
                        ? 0
                        : a * (t - atSeconds - constantSeconds * (1 - Math.exp((atSeconds - t) / constantSeconds))));
    }

    /**
     * Adds an underdamped second-order step [% of the level]: with s the time since it, u = zeta w, v = w sqrt(1 - zeta^2), the
     * share is a (1 - e(-u s) (cos v s + u / v sin v s)). Its integral is a (s - I1 - u / v I2), where I1 and I2 are the
     * integrals of the damped cosine and sine (definition, worked out here).
     *
     * @param naturalRadiansASecond natural angular frequency w; above 0
     * @param damping zeta; above 0, below 1
     */
    public DrawnSpeed secondOrderStep(double atSeconds, double percent, double naturalRadiansASecond, double damping) {
        if (!(naturalRadiansASecond > 0) || !(damping > 0) || !(damping < 1)) {
            throw new IllegalArgumentException("natural frequency " + naturalRadiansASecond + " rad/s, damping "
                    + damping + "; expected above 0, between 0 and 1");
        }
        double a = percent / 100;
        double w = naturalRadiansASecond;
        double u = damping * w;
        double v = w * Math.sqrt(1 - damping * damping);
        return with(
                t -> {
                    double s = Math.max(0, t - atSeconds);
                    return a * (1 - Math.exp(-u * s) * (Math.cos(v * s) + u / v * Math.sin(v * s)));
                },
                t -> {
                    double s = Math.max(0, t - atSeconds);
                    double e = Math.exp(-u * s);
                    double cosine = (u + e * (v * Math.sin(v * s) - u * Math.cos(v * s))) / (w * w);
                    double sine = (v - e * (u * Math.sin(v * s) + v * Math.cos(v * s))) / (w * w);
                    return a * (s - cosine - u / v * sine);
                });
    }

    /**
     * Adds the dip of a load that a controller answers [% of the level, positive = the speed falls]: with s the time since it,
     * the share is -d (s / p) e(1 - s / p), largest after the time p, where it is d, and back by and by.
     */
    public DrawnSpeed dip(double atSeconds, double dipPercent, double peakAfterSeconds) {
        double d = dipPercent / 100 * Math.E;
        double p = peakAfterSeconds;
        return with(
                t -> {
                    double s = Math.max(0, t - atSeconds) / p;
                    return -d * s * Math.exp(-s);
                },
                t -> {
                    double s = Math.max(0, t - atSeconds) / p;
                    return -d * p * (1 - (1 + s) * Math.exp(-s));
                });
    }

    @Override
    public double rpm(double timeSeconds) {
        double share = 1;
        for (Part part : parts) {
            share += part.share.applyAsDouble(timeSeconds);
        }
        return levelRpm * share;
    }

    @Override
    public double turns(double timeSeconds) {
        double seconds = timeSeconds;
        for (Part part : parts) {
            seconds += part.integral.applyAsDouble(timeSeconds);
        }
        return levelRpm / 60 * seconds;
    }
}
