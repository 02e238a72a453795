package org.steadyshaft.compare;

import java.util.Collections;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * What a kind of work needs of a drive.
 *
 * @param name its table in the limits file
 * @param title its name in words
 * @param fromRpm lowest speed of the motor's shaft at which the limits hold
 * @param toRpm highest speed
 * @param loads only runs with one of these loads; empty for all
 * @param most largest value of each measure that is limited
 * @param blipPercent smallest blip that counts; absent where all do
 * @param beltRatio turns of the motor for one of the driven wheel, where the speeds were given for that; absent else
 */
public record Work(
        String name,
        String title,
        double fromRpm,
        double toRpm,
        List<String> loads,
        Map<Measure, Double> most,
        OptionalDouble blipPercent,
        OptionalDouble beltRatio) {
    public Work {
        if (title.isBlank() || !(fromRpm > 0) || !(toRpm > fromRpm) || most.isEmpty()) {
            throw new IllegalArgumentException("work " + name + " from " + fromRpm + " to " + toRpm + " rpm");
        }
        if (blipPercent.isPresent() && !(blipPercent.getAsDouble() >= 0)) {
            throw new IllegalArgumentException("smallest blip of " + blipPercent.getAsDouble() + " %");
        }
        loads = List.copyOf(loads);
        most = Collections.unmodifiableMap(new EnumMap<>(most));
    }

    /** Whether a run at this speed and with this load is one of this work; loads are known by their meaning, not their spelling. */
    public boolean applies(double rpm, String runLoad) {
        return rpm >= fromRpm
                && rpm <= toRpm
                && (loads.isEmpty()
                        || loads.stream().anyMatch(l -> LoadWords.loadKey(l).equals(LoadWords.loadKey(runLoad))));
    }

    /**
     * The limit on a measure. What is a part of the ripple and has none of its own cannot matter where it would be small beside the ripple's:
     * wander has the limit of the ripple's rms, and the swing at twice the mains that of a sine of this rms.
     */
    Optional<Double> limit(Measure measure) {
        Optional<Double> own = Optional.ofNullable(most.get(measure));
        Optional<Double> ripple = Optional.ofNullable(most.get(Measure.RIPPLE));
        return switch (measure) {
            case TWICE_MAINS -> own.or(() -> ripple.map(rms -> Math.sqrt(2) * rms));
            case WANDER -> own.or(() -> ripple);
            case RIPPLE, SWING, BLIPS, SAG, SETTLING, HUNTING -> own;
        };
    }

    boolean applies(Group group) {
        return applies(group.meanRpm(), group.load());
    }
}
