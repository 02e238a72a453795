package org.steadyshaft.plan;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * What to record, and how.
 *
 * @param topHz the tacho's frequency at the top speed
 * @param lowestHz the same at the lowest speed
 * @param rateHz sample rate; one that recorders have
 * @param level at the input; absent without the tacho's voltage
 * @param length how long each run should be
 * @param runsEach how many runs of each circuit, speed and load
 * @param avoid speeds at which a swing of the mains cannot be told
 * @param denseBelowRpm below this such speeds lie too close to be listed
 * @param speeds what to record at, rising
 * @param seen what counting cycles alone would show of a swing at twice the mains, at these speeds, from -1 to 1
 * @param runs the list of runs, in the order in which to record them
 */
public record RecordingPlan(
        PlanRequest request,
        double topHz,
        double lowestHz,
        double rateHz,
        Optional<Level> level,
        Length length,
        int runsEach,
        List<Double> avoid,
        double denseBelowRpm,
        List<Double> speeds,
        List<Double> seen,
        List<PlannedRun> runs) {
    /**
     * The voltage at the recorder's input.
     *
     * @param tachoPeakVolts of the tacho at the top speed
     * @param divider absent where the tacho fits
     * @param topVolts peak at the input at the top speed
     * @param lowestVolts the same at the lowest speed
     * @param topPercent error of a single cycle's period by the converter's steps, rms, at the top speed [%]
     * @param lowestPercent the same at the lowest speed [%]
     */
    public record Level(
            double tachoPeakVolts,
            Optional<Divider> divider,
            double topVolts,
            double lowestVolts,
            double topPercent,
            double lowestPercent) {}

    /**
     * How long a run should be, and why.
     *
     * @param seconds whole tens
     * @param blipMinutes the time without a blip that proves the limit; absent where there is none
     * @param blipMinutesOneSided the same by a one-sided limit, which is not the one that is used
     */
    public record Length(double seconds, OptionalDouble blipMinutes, OptionalDouble blipMinutesOneSided) {}

    /** A run to be recorded; rounds on days of their own tell whether a circuit does tomorrow what it did today. */
    public record PlannedRun(String file, String circuit, double rpm, String load, int round) {}

    public RecordingPlan {
        avoid = List.copyOf(avoid);
        speeds = List.copyOf(speeds);
        seen = List.copyOf(seen);
        runs = List.copyOf(runs);
    }
}
