package org.steadyshaft.compare;

import java.util.Collections;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * The runs of one circuit in one band of speeds with one load, and what they tell together.
 *
 * @param circuit the circuit
 * @param band the band
 * @param load the load as the run sheet has it
 * @param runs one at least, in the order of the batch
 * @param estimates what could be measured
 */
public record Group(String circuit, SpeedBand band, String load, List<Run> runs, Map<Measure, Estimate> estimates) {
    public Group {
        runs = List.copyOf(runs);
        if (runs.isEmpty()) {
            throw new IllegalArgumentException("a group without runs");
        }
        EnumMap<Measure, Estimate> sorted = new EnumMap<>(Measure.class);
        sorted.putAll(estimates);
        estimates = Collections.unmodifiableMap(sorted);
    }

    public Optional<Estimate> estimate(Measure measure) {
        return Optional.ofNullable(estimates.get(measure));
    }

    /** Mean of the runs' mean speeds [rpm]. */
    public double meanRpm() {
        return runs.stream().mapToDouble(Run::meanRpm).average().orElse(0);
    }
}
