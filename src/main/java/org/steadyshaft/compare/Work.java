package org.steadyshaft.compare;

import java.util.Collections;
import java.util.EnumMap;
import java.util.Map;

/**
 * What a kind of work needs of a drive.
 *
 * @param name its table in the limits file
 * @param title its name in words
 * @param fromRpm lowest speed of the motor's shaft at which the limits hold
 * @param toRpm highest speed
 * @param load only runs with this load; empty for all
 * @param most largest value of each measure that is limited
 */
public record Work(String name, String title, double fromRpm, double toRpm, String load, Map<Measure, Double> most) {
    public Work {
        if (title.isBlank() || !(fromRpm > 0) || !(toRpm > fromRpm) || most.isEmpty()) {
            throw new IllegalArgumentException("work " + name + " from " + fromRpm + " to " + toRpm + " rpm");
        }
        most = Collections.unmodifiableMap(new EnumMap<>(most));
    }

    /** Whether a run at this speed and with this load is one of this work. */
    public boolean applies(double rpm, String runLoad) {
        return rpm >= fromRpm && rpm <= toRpm && (load.isEmpty() || load.equals(runLoad));
    }
}
