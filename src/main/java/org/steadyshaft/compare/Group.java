package org.steadyshaft.compare;

import java.util.Collections;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import org.steadyshaft.ripple.Untold;
import org.steadyshaft.stability.Alarm;

/**
 * The runs of one circuit at about one speed with one load, and what they tell together.
 *
 * @param circuit the circuit
 * @param level speeds of all circuits that it stands among
 * @param load the load as the run sheet has it
 * @param runs those that the measures come from; one at least, in the order of the batch
 * @param leftOut runs that were left out, because their recordings are doubtful and others are not
 * @param estimates what could be measured
 * @param untold why a measure could not be, where it was recorded
 */
public record Group(
        String circuit,
        SpeedLevel level,
        String load,
        List<Run> runs,
        List<Run> leftOut,
        Map<Measure, Estimate> estimates,
        Map<Measure, String> untold) {
    public Group {
        runs = List.copyOf(runs);
        leftOut = List.copyOf(leftOut);
        if (runs.isEmpty()) {
            throw new IllegalArgumentException("a group without runs");
        }
        EnumMap<Measure, Estimate> sorted = new EnumMap<>(Measure.class);
        sorted.putAll(estimates);
        estimates = Collections.unmodifiableMap(sorted);
        EnumMap<Measure, String> reasons = new EnumMap<>(Measure.class);
        reasons.putAll(untold);
        untold = Collections.unmodifiableMap(reasons);
    }

    public Optional<Estimate> estimate(Measure measure) {
        return Optional.ofNullable(estimates.get(measure));
    }

    /** From the slowest to the fastest of its own runs. */
    public SpeedLevel speeds() {
        return SpeedLevel.of(runs, Run::meanRpm);
    }

    /** Mean of the runs' mean speeds [rpm]. */
    public double meanRpm() {
        return meanRpm(runs);
    }

    static double meanRpm(List<Run> runs) {
        return runs.stream().mapToDouble(Run::meanRpm).average().orElse(0);
    }

    /** Whether it stands among the same speeds with the same load as another. */
    public boolean isBeside(Group other) {
        return level.equals(other.level) && load.equals(other.load);
    }

    /** Settings of the runs as the user wrote them, each once. */
    public List<String> settings() {
        return distinct(run -> run.label().setting());
    }

    /** Days of the runs as the user wrote them, each once. */
    public List<String> dates() {
        return distinct(Run::date);
    }

    private List<String> distinct(Function<Run, String> words) {
        return runs.stream().map(words).filter(w -> !w.isEmpty()).distinct().toList();
    }

    /** Runs whose recordings are doubtful and whose figures stand here all the same, as there are no better ones. */
    public List<Run> doubtful() {
        return runs.stream().filter(r -> r.trust().isDoubtful()).toList();
    }

    /** Kinds of alarm of all its runs. */
    public List<Alarm.Code> alarms() {
        return runs.stream()
                .flatMap(r -> r.trust().alarms().stream())
                .distinct()
                .toList();
    }

    /** Whether an alarm of one of its runs says that the motor ran too fast. */
    public boolean ranAway() {
        return runs.stream().anyMatch(r -> r.trust().ranAway());
    }

    /** Why the ripple of this group is not whole: a run whose line at the mains or twice the mains cannot be told; empty if it is. */
    public Optional<String> notWhole() {
        return notWhole(runs);
    }

    static Optional<String> notWhole(List<Run> runs) {
        for (Run run : runs) {
            Optional<Untold.Why> twice =
                    run.ripple().flatMap(r -> r.twiceMains().untold());
            Optional<Untold.Why> once = run.ripple().flatMap(r -> r.mains().untold());
            if (twice.isPresent() || once.isPresent()) {
                return Optional.of(
                        "the swing at " + (twice.isPresent() ? "twice the mains" : "the mains") + " cannot be told in "
                                + run.name() + " (" + words(twice.or(() -> once).get()) + ")");
            }
        }
        return Optional.empty();
    }

    private static String words(Untold.Why why) {
        return switch (why) {
            case SHAFT_ORDER -> "the tacho's own pattern stands there";
            case PICK_UP -> "mains pick-up stands there";
            case NOISE -> "noise hides it";
            case TOO_FAST -> "the sample rate is too low";
            case TOO_SHORT -> "too short";
            case CUT_OFF -> "the wave is cut off";
            case MISSING_TEETH -> "teeth or magnets are missing";
        };
    }

    /** Amplitude at the mains with its 95 % limits [%]; absent where a run does not tell it. */
    public Optional<WorkCheck.Figure> atMains() {
        return GroupMeter.atMains(runs);
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
