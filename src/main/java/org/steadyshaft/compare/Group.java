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

    /** Why the ripple of this group is not whole: a run whose line at the mains or twice the mains cannot be told; empty if it is. */
    public Optional<String> untold() {
        for (Run run : runs) {
            boolean twice =
                    run.ripple().map(r -> r.twiceMainsUntold().isPresent()).orElse(false);
            boolean once = run.ripple().flatMap(Run.RippleLines::mainsUntold).isPresent();
            if (twice || once) {
                return Optional.of("the swing at " + (twice ? "twice the mains" : "the mains") + " cannot be told in "
                        + run.name() + " (" + circuit + ")");
            }
        }
        return Optional.empty();
    }

    /** Lowest frequency from which on the ripple of all runs holds [Hz]; 0 without any. */
    public double bandFromHz() {
        return runs.stream()
                .flatMap(r -> r.ripple().stream())
                .mapToDouble(Run.RippleLines::bandFromHz)
                .max()
                .orElse(0);
    }

    /** Highest frequency up to which the ripple of all runs holds [Hz]; infinite without any. */
    public double bandToHz() {
        return runs.stream()
                .flatMap(r -> r.ripple().stream())
                .mapToDouble(Run.RippleLines::bandToHz)
                .min()
                .orElse(Double.POSITIVE_INFINITY);
    }
}
