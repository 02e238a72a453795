package org.steadyshaft.plan;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import org.steadyshaft.numeric.PoissonLimits;

/** Reckons what to record. */
public final class Planner {
    /** Rates that recorders have (common practice). */
    private static final double[] RATES_HZ = {8000, 11025, 16000, 22050, 32000, 44100, 48000, 88200, 96000, 192000};

    /** So many samples a cycle show the wave and its harmonics well; six are the least that is accepted. */
    private static final double SAMPLES_PER_CYCLE = 20;

    /** The firing's needles are 0.1 ms wide: slower recorders blur them with the wave (a figure of our own). */
    private static final double LEAST_RATE_HZ = 16000;

    private static final double CONFIDENCE = 0.95;

    /** Shorter runs leave the ripple's limits wide: half a minute has thirty seconds to tell their scatter. */
    private static final double LEAST_SECONDS = 30;

    private static final double TEN_SECONDS = 10;

    /** One run tells nothing of the next one; three tell a scatter at all. */
    private static final int RUNS_EACH = 3;

    /** Speeds between the lowest and the top, both counted. */
    private static final int SPEEDS = 3;

    public RecordingPlan plan(PlanRequest request) {
        CleanSpeeds clean = new CleanSpeeds(request.mainsHz(), request.polePairs());
        List<Double> speeds = speeds(request, clean);
        double topHz = request.cycleHz(request.topRpm());
        return new RecordingPlan(
                request,
                topHz,
                request.cycleHz(request.lowestRpm()),
                rate(topHz),
                request.tacho().map(t -> level(request, t)),
                length(request.limits().blipsPerMinute()),
                RUNS_EACH,
                clean.coincidences(request.lowestRpm(), request.topRpm()),
                clean.denseBelowRpm(),
                speeds,
                speeds.stream()
                        .map(rpm -> sinc(2 * request.mainsHz() / request.cycleHz(rpm)))
                        .toList(),
                runs(request, speeds));
    }

    private static double rate(double topHz) {
        for (double rate : RATES_HZ) {
            if (rate >= LEAST_RATE_HZ && rate >= SAMPLES_PER_CYCLE * topHz) {
                return rate;
            }
        }
        return RATES_HZ[RATES_HZ.length - 1];
    }

    private static RecordingPlan.Level level(PlanRequest request, PlanRequest.TachoVoltage tacho) {
        double peak = tacho.peakVolts(request.topRpm());
        PlanRequest.Input input = request.input();
        Optional<Divider> divider = Divider.of(peak, input.peakVolts(), input.ohms());
        double top = divider.map(Divider::peakVolts).orElse(peak);
        double lowest = top * request.lowestRpm() / request.topRpm();
        return new RecordingPlan.Level(
                peak,
                divider,
                top,
                lowest,
                periodErrorPercent(input.stepVolts(), top),
                periodErrorPercent(input.stepVolts(), lowest));
    }

    /**
     * Error of a cycle's period by steps alone, rms, in %: the crossing is off by q / sqrt(12) over the slope 2 pi A / T at both ends.
     *
     * @param stepVolts the converter's step, q
     * @param peakVolts amplitude of the wave, A
     */
    static double periodErrorPercent(double stepVolts, double peakVolts) {
        return 100 * Math.sqrt(2) * stepVolts / (Math.sqrt(12) * 2 * Math.PI * peakVolts);
    }

    private static RecordingPlan.Length length(OptionalDouble blipsPerMinute) {
        OptionalDouble two = blipsPerMinute.isEmpty()
                ? OptionalDouble.empty()
                : OptionalDouble.of(PoissonLimits.of(0, CONFIDENCE).high() / blipsPerMinute.getAsDouble());
        OptionalDouble one = blipsPerMinute.isEmpty()
                ? OptionalDouble.empty()
                : OptionalDouble.of(PoissonLimits.upper(0, CONFIDENCE) / blipsPerMinute.getAsDouble());
        double seconds = Math.max(LEAST_SECONDS, 60 * two.orElse(0));
        return new RecordingPlan.Length(TEN_SECONDS * Math.ceil(seconds / TEN_SECONDS), two, one);
    }

    /** What a mean over a cycle leaves of a swing with so many periods a cycle. */
    static double sinc(double periods) {
        return Math.sin(Math.PI * periods) / (Math.PI * periods);
    }

    private static List<Double> speeds(PlanRequest request, CleanSpeeds clean) {
        List<Double> speeds = new ArrayList<>();
        double ratio = request.topRpm() / request.lowestRpm();
        for (int i = 0; i < SPEEDS; i++) {
            double rpm = Math.rint(clean.near(
                    request.lowestRpm() * Math.pow(ratio, i / (SPEEDS - 1.0)), request.lowestRpm(), request.topRpm()));
            if (!speeds.contains(rpm)) {
                speeds.add(rpm);
            }
        }
        return speeds.stream().sorted().toList();
    }

    private static List<RecordingPlan.PlannedRun> runs(PlanRequest request, List<Double> speeds) {
        List<RecordingPlan.PlannedRun> runs = new ArrayList<>();
        for (int round = 1; round <= RUNS_EACH; round++) {
            for (String circuit : request.circuits()) {
                for (double rpm : speeds) {
                    for (String load : request.loads()) {
                        String name = String.format(
                                Locale.ROOT, "%s-%.0f-%s-%d.wav", plain(circuit), rpm, plain(load), round);
                        runs.add(new RecordingPlan.PlannedRun(name, circuit, rpm, load, round));
                    }
                }
            }
        }
        return runs;
    }

    /** A name for a file. */
    private static String plain(String words) {
        String plain =
                words.toLowerCase(Locale.ROOT).replaceAll("[^\\p{L}0-9]+", "-").replaceAll("^-|-$", "");
        return plain.isEmpty() ? "run" : plain;
    }
}
