package org.steadyshaft.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.steadyshaft.analysis.Rotation;
import org.steadyshaft.compare.Measure;
import org.steadyshaft.compare.Run;
import org.steadyshaft.compare.RunJudgement;
import org.steadyshaft.compare.SpeedHeld;
import org.steadyshaft.compare.WorkCheck;
import org.steadyshaft.signal.FindingCode;
import org.steadyshaft.signal.SpeedTrack;
import org.steadyshaft.stability.Alarm;

/** Why a motor holds its speed or not, in plain words, the gravest first. */
final class MotorReasons {
    /** A shorter recording is told as too short [s]. */
    private static final double ENOUGH_SECONDS = 6;

    /** Fewer jumps tell no rate. */
    private static final int FEWEST_FOR_A_RATE = 3;

    /** A speed that changed by such a factor is no question of steadiness. */
    private static final double FAR = 1.5;

    /** At such a share of its fastest it has not begun to slow. */
    private static final double STILL = 0.97;

    /** A value above this share of its limit is near to it. */
    private static final double NEAR = 0.7;

    private final Run run;
    private final Rotation rotation;
    private final RunJudgement judgement;
    private final List<String> reasons = new ArrayList<>();

    MotorReasons(Run run, Rotation rotation, RunJudgement judgement) {
        this.run = run;
        this.rotation = rotation;
        this.judgement = judgement;
    }

    List<String> reasons() {
        rotation.alarms().forEach(this::alarm);
        if (run.trust().faults().contains(FindingCode.POLE_COUNT)) {
            reasons.add("the number of pole pairs is doubtful, and speeds, jumps and ripple with it");
            return reasons;
        }
        judgement.with(WorkCheck.Status.FAIL).forEach(c -> add(words(c), allowed(c)));
        if (judgement.held() == SpeedHeld.CANNOT_TELL) {
            notSteady();
        }
        judgement.with(WorkCheck.Status.NOT_PROVEN).forEach(this::notProven);
        if (judgement.held() == SpeedHeld.YES || judgement.held() == SpeedHeld.MOSTLY) {
            well();
        }
        return reasons;
    }

    private void add(String what, String beside) {
        // hunting stands for ripple and swing alike, and is told once
        if (reasons.stream().noneMatch(r -> r.startsWith(what))) {
            reasons.add(what + beside);
        }
    }

    private void add(String reason) {
        if (!reasons.contains(reason)) {
            reasons.add(reason);
        }
    }

    private void alarm(Alarm alarm) {
        add(withoutStop(alarm.text()));
    }

    static String withoutStop(String sentence) {
        return sentence.endsWith(".") ? sentence.substring(0, sentence.length() - 1) : sentence;
    }

    /** What does not show, in the order of what explains it: too short, never steady, or what the measures themselves say. */
    private void notSteady() {
        double seconds = rotation.track().toSeconds(rotation.track().size() - 1)
                - rotation.track().fromSeconds(0);
        boolean wentFar = rotation.steady().isEmpty()
                && rotation.speed().fastestRpm() > FAR * rotation.speed().slowestRpm();
        if (wentFar) {
            add("it was never steady, but ran from "
                    + MotorVerdict.rpm(rotation.speed().slowestRpm()) + " to "
                    + MotorVerdict.rpm(rotation.speed().fastestRpm()));
            stillRising();
        } else if (seconds < ENOUGH_SECONDS) {
            add("the recording is too short, " + Numbers.significant(seconds, 2) + " s; record ten seconds or more");
        } else if (rotation.steady().isEmpty()) {
            add("it was never steady, but ran from "
                    + MotorVerdict.rpm(rotation.speed().slowestRpm()) + " to "
                    + MotorVerdict.rpm(rotation.speed().fastestRpm()));
        } else {
            judgement.with(WorkCheck.Status.CANNOT_TELL).forEach(c -> add(c.reason()));
        }
        if (reasons.isEmpty()) {
            add("too little of it was steady; record ten seconds or more");
        }
    }

    /** A motor that nobody meant to run up is not to be recorded for longer. */
    private void stillRising() {
        SpeedTrack track = rotation.track();
        double end = track.speedRpm(track.size() - 1);
        boolean rose =
                end > FAR * track.speedRpm(0) && end > STILL * rotation.speed().fastestRpm();
        if (rose) {
            add(
                    "it was still at its fastest when the recording ended: a series motor without load has no speed limit of its"
                            + " own, so if nobody set this speed, unplug it before anything else");
        }
    }

    private void notProven(WorkCheck check) {
        boolean partUntold = !check.reason().isEmpty() && check.measure() != Measure.SETTLING;
        if (partUntold) {
            add(check.reason());
        } else if (check.shareOfLimit() > 0) {
            add(words(check), unsure(check));
        }
    }

    /** What was found, for a reader: "4 jumps of about +6 % in 16 s". */
    private String words(WorkCheck check) {
        return switch (check.measure()) {
            case BLIPS -> jumps();
            case RIPPLE, SWING ->
                hunts().orElseGet(() -> check.measure() == Measure.SWING
                        ? "the speed swings by " + value(check) + " % within a second"
                        : "it swings by " + value(check) + " % rms");
            case TWICE_MAINS -> "it swings by " + value(check) + " % at twice the mains";
            case WANDER -> "it wanders by " + value(check) + " % from second to second";
            case HUNTING ->
                hunts().orElse("it may hunt by up to "
                        + Numbers.significant(
                                check.figure().map(WorkCheck.Figure::high95).orElse(0.0), 1) + " %");
            case SETTLING -> "it takes " + value(check) + " s to settle after a step";
            case SAG -> "it slows by " + value(check) + " % under load";
        };
    }

    private static String value(WorkCheck check) {
        return check.figure()
                .map(f -> Numbers.within(f.value(), f.low95(), f.high95()))
                .orElse("");
    }

    /** Hunting explains ripple and swing alike, and is told once. */
    private Optional<String> hunts() {
        return run.hunting()
                .map(h -> String.format(
                        Locale.ROOT,
                        "it hunts, by %s %% to either side %s times a second",
                        Numbers.significant(h.amplitudePercent(), 2),
                        Numbers.significant(h.frequencyHz(), 2)));
    }

    private String jumps() {
        int count = run.jumps().events().size();
        long up = run.jumps().events().stream().filter(j -> j.percent() > 0).count();
        double[] sizes = run.jumps().events().stream()
                .mapToDouble(j -> Math.abs(j.percent()))
                .sorted()
                .toArray();
        if (count == 0) {
            return "no jump of more than " + Numbers.significant(run.jumps().smallestPercent(), 1) + " % in " + span();
        }
        String sign = up == count ? "+" : up == 0 ? "\u2212" : "\u00b1";
        boolean alike = sizes[count - 1] < 1.5 * sizes[0];
        return count + (count == 1 ? " jump of " : alike ? " jumps of about " : " jumps of up to ") + sign
                + Numbers.significant(alike ? sizes[count / 2] : sizes[count - 1], 2) + " % in " + span() + rate(count);
    }

    /** How often, where there were enough to say so. */
    private String rate(int count) {
        double minutes = run.jumps().minutes();
        return count < FEWEST_FOR_A_RATE || minutes < 1
                ? ""
                : ", about " + Numbers.significant(count / minutes, 1) + " a minute";
    }

    private String span() {
        double minutes = run.jumps().minutes();
        return minutes < 2
                ? String.format(Locale.ROOT, "%.0f s", 60 * minutes)
                : String.format(Locale.ROOT, "%.1f minutes", minutes);
    }

    private static String allowed(WorkCheck check) {
        return " (" + CheckWords.limit(check.most()) + " " + check.measure().unit() + " allowed)";
    }

    private static String unsure(WorkCheck check) {
        if (check.measure() == Measure.BLIPS) {
            return ", too short a time to say how often" + allowed(check);
        }
        if (check.measure() == Measure.SETTLING && !check.reason().isEmpty()) {
            return allowed(check) + "; one step alone does not prove it";
        }
        return (check.shareOfLimit() > 1
                        ? ", more than is allowed, but that is not proven"
                        : check.shareOfLimit() > NEAR ? ", near the limit" : ", too short to be sure")
                + allowed(check);
    }

    /** What speaks for it. */
    private void well() {
        if (run.jumps().events().isEmpty() && run.jumps().minutes() > 0) {
            add(jumps());
        }
        judgement
                .of(Measure.SWING)
                .or(() -> judgement.of(Measure.RIPPLE))
                .filter(c -> c.status() == WorkCheck.Status.PASS)
                .ifPresent(c -> add(words(c), allowed(c)));
    }
}
