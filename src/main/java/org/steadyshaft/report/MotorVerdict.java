package org.steadyshaft.report;

import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.Optional;
import org.steadyshaft.analysis.Outcome;
import org.steadyshaft.analysis.Rotation;
import org.steadyshaft.compare.Needs;
import org.steadyshaft.compare.Run;
import org.steadyshaft.compare.RunJudge;
import org.steadyshaft.compare.RunJudgement;
import org.steadyshaft.compare.RunMeter;
import org.steadyshaft.compare.SpeedHeld;
import org.steadyshaft.compare.Work;
import org.steadyshaft.compare.WorkCheck;
import org.steadyshaft.response.LoadEvent;
import org.steadyshaft.response.Step;
import org.steadyshaft.signal.Grade;
import org.steadyshaft.signal.Stretch;

/**
 * Whether the motor holds its speed, in words: what a reader wants to know first. It is the motor's verdict; whether the recording can be
 * trusted is its grade.
 *
 * @param held the answer
 * @param headline one sentence
 * @param reasons the two or three that decide, in plain words
 * @param basis what it was held against; empty where it was not
 */
public record MotorVerdict(SpeedHeld held, String headline, List<String> reasons, String basis) {
    private static final int MOST_REASONS = 3;

    /** A lasting change of less than this under a load is not worth a word [%]. */
    private static final double LEAST_DROOP_PERCENT = 0.3;

    /** A recording of which less was steady ran up, down or otherwise for a good part of it. */
    private static final double MOSTLY_STEADY = 0.8;

    /** Speeds below this are told with a decimal [rpm]. */
    private static final double SLOW_RPM = 100;

    public MotorVerdict {
        Objects.requireNonNull(held, "held");
        reasons = List.copyOf(reasons);
    }

    /**
     * By what works need; the first that a capture was made for decides.
     *
     * @param outcome of the capture
     * @param measured what {@link RunMeter} makes of it
     * @param needs what it is held against
     */
    public static MotorVerdict of(Outcome outcome, Optional<Run> measured, Needs needs) {
        Optional<Run> run = measured.map(r -> r.withName("this recording"));
        if (run.isEmpty()) {
            return new MotorVerdict(
                    SpeedHeld.CANNOT_TELL,
                    "This recording gives no speed.",
                    outcome.findings().stream().limit(1).map(f -> f.text()).toList(),
                    "");
        }
        Rotation rotation = ((Outcome.Analysed) outcome).rotation().orElseThrow();
        RunJudgement judgement = new RunJudge(needs.works()).judge(run.get());
        List<String> reasons = new MotorReasons(run.get(), rotation, judgement).reasons();
        return new MotorVerdict(
                judgement.held(),
                headline(judgement.held(), speed(run.get(), rotation), reasons, outcome.grade()),
                reasons.stream().skip(1).limit(MOST_REASONS - 1L).toList(),
                basis(judgement, needs.own()));
    }

    /** Headline and reasons in one text. */
    String words() {
        StringBuilder words = new StringBuilder(headline);
        reasons.forEach(r -> words.append(' ').append(sentence(r)));
        return words.toString();
    }

    /** A reason as a sentence of its own. */
    static String sentence(String reason) {
        String capital = reason.isEmpty() ? "" : reason.substring(0, 1).toUpperCase(Locale.ROOT) + reason.substring(1);
        return capital.endsWith(".") ? capital : capital + ".";
    }

    private static String headline(SpeedHeld held, String speed, List<String> reasons, Grade grade) {
        String reason = reasons.isEmpty() ? "" : ": " + reasons.get(0);
        String far = grade == Grade.GOOD ? "" : " (the recording is doubtful)";
        return switch (held) {
            case YES -> "Holds its speed, " + speed + far + reason + ".";
            case MOSTLY -> "Mostly holds its speed, " + speed + far + reason + ".";
            case NO -> "Does NOT hold its speed, " + speed + far + reason + ".";
            case RUNAWAY -> "RAN AWAY" + far + reason + ".";
            case CANNOT_TELL -> "Cannot tell whether it holds its speed, " + speed + far + reason + ".";
        };
    }

    /** Says how much of a recording was steady, where much was not: what is held is the steady part. */
    private static String ofWhat(Rotation rotation) {
        double all = rotation.track().toSeconds(rotation.track().size() - 1)
                - rotation.track().fromSeconds(0);
        double steady =
                rotation.steady().stream().mapToDouble(Stretch::durationSeconds).sum();
        return steady > 0 && steady < MOSTLY_STEADY * all
                ? String.format(Locale.ROOT, ", in the %.0f s of %.0f s that were steady", steady, all)
                : "";
    }

    /** One speed, or those before and after a step or a load. */
    private static String speed(Run run, Rotation rotation) {
        if (!rotation.steps().isEmpty()) {
            Step first = rotation.steps().get(0);
            int more = rotation.steps().size() - 1;
            return rpm(first.fromRpm()) + " and, after a step at " + Numbers.fixed(first.timeSeconds(), 1) + " s, "
                    + rpm(first.toRpm())
                    + (more > 0 ? " (" + more + (more == 1 ? " more step" : " more steps") + ")" : "");
        }
        Optional<LoadEvent> lasting = rotation.loadEvents().stream()
                .filter(e -> Math.abs(e.droopPercent().orElse(0)) >= LEAST_DROOP_PERCENT)
                .findFirst();
        return lasting.map(e -> rpm(run.meanRpm())
                        + String.format(
                                Locale.ROOT,
                                " (%.1f %% %s from %.1f s on, %s)",
                                Math.abs(e.droopPercent().getAsDouble()),
                                e.droopPercent().getAsDouble() > 0 ? "less" : "more",
                                e.timeSeconds(),
                                e.dipPercent() > 0 ? "under a load" : "as a load let go"))
                .orElse(rpm(run.meanRpm()) + ofWhat(rotation));
    }

    static String rpm(double rpm) {
        return Numbers.fixed(rpm, rpm < SLOW_RPM ? 1 : 0) + " rpm";
    }

    private static String basis(RunJudgement judgement, boolean own) {
        Work work = judgement.work();
        StringBuilder words =
                new StringBuilder("Held against what ").append(work.title()).append(" needs");
        String before = ": at most ";
        for (WorkCheck check : judgement.checks()) {
            words.append(before).append(CheckWords.allowed(check.measure(), check.most()));
            before = ", ";
        }
        words.append(own ? "." : " (the program's own starting points; give your own with --limits).");
        if (!judgement.applies()) {
            words.append(String.format(
                    Locale.ROOT,
                    " No work's limits are meant for this speed and load; these, for %.0f to %.0f rpm, come nearest.",
                    work.fromRpm(),
                    work.toRpm()));
        }
        return words.toString();
    }
}
