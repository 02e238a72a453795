package org.steadyshaft.analysis;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import org.steadyshaft.blip.RecorderFault;
import org.steadyshaft.blip.RecorderFault.Kind;
import org.steadyshaft.signal.Finding;
import org.steadyshaft.signal.FindingCode;
import org.steadyshaft.signal.Stretch;

/** Words what the recording did: each kind one finding for its first places, with the count of the rest. */
final class FaultFindings {
    /** So many of one kind are told each by itself; the others with the last one. */
    private static final int MOST_SINGLE = 5;

    /** What is told from the voltage of one turn: with a wrong number of poles there is no such turn. */
    private static final Set<Kind> BY_TURN =
            EnumSet.of(Kind.LEVEL_STEP, Kind.OFFSET_STEP, Kind.HUM_STEP, Kind.NOISE_BURST, Kind.CONTACT, Kind.PICK_UP);

    private FaultFindings() {}

    /** Those that hold although the number of pole pairs is in doubt. */
    static List<Finding> ofDoubtedTurn(List<RecorderFault> faults) {
        return of(faults.stream().filter(f -> !BY_TURN.contains(f.kind())).toList());
    }

    static List<Finding> of(List<RecorderFault> faults) {
        Map<Kind, List<RecorderFault>> byKind = new EnumMap<>(Kind.class);
        faults.forEach(
                f -> byKind.computeIfAbsent(f.kind(), k -> new ArrayList<>()).add(f));
        List<Finding> findings = new ArrayList<>();
        byKind.forEach((kind, all) -> {
            int single = Math.min(MOST_SINGLE, all.size());
            for (int i = 0; i < single; i++) {
                int more = i == single - 1 ? all.size() - single : 0;
                findings.add(finding(all.get(i), more));
            }
        });
        return findings;
    }

    private static Finding finding(RecorderFault fault, int more) {
        Stretch where = fault.where();
        String place = where.durationSeconds() < 0.01
                ? say("At %.3f s ", where.fromSeconds())
                : say("From %.3f s to %.3f s ", where.fromSeconds(), where.toSeconds());
        String rest = more > 0 ? say(" The same in %d more places.", more) : "";
        String text =
                place + what(fault) + " It is the recording, not the shaft, and counts in no rate of blips." + rest;
        Finding.Severity severity = switch (fault.kind()) {
            case SAMPLES_LOST, SAMPLES_DOUBLED, REVERSED, LEAD_OPEN, PICK_UP -> Finding.Severity.CAUTION;
            default -> Finding.Severity.NOTE;
        };
        return new Finding(code(fault.kind()), severity, text, java.util.Optional.of(where));
    }

    private static String what(RecorderFault fault) {
        return switch (fault.kind()) {
            case SAMPLES_LOST ->
                say(
                        "samples are missing: the tacho's phase jumps by %.2f of a cycle (or that and whole cycles) and its speed does"
                                + " not. Close other programs while recording.",
                        fault.amount());
            case SAMPLES_DOUBLED ->
                say(
                        "samples stand there twice, or some are missing: the tacho's phase falls back by %.2f of a cycle (or that and"
                                + " whole cycles) and its speed does not. Close other programs while recording.",
                        -fault.amount());
            case REVERSED ->
                "the tacho's voltage turns upside down: half a cycle is missing, or the lead was reversed.";
            case LEVEL_STEP ->
                say(
                        "the tacho's level steps by %+.0f %% and its speed does not: a contact, or the recorder's gain.",
                        100 * fault.amount());
            case OFFSET_STEP ->
                say(
                        "the offset steps by %.0f %% of the tacho's level: a contact or a knock at the plug.",
                        100 * Math.abs(fault.amount()));
            case HUM_STEP -> "the mains pick-up changes: something was switched, or a hand came near the lead.";
            case NOISE_BURST -> "a burst of noise covers the tacho: brushes or a bad contact.";
            case CONTACT -> "the tacho is broken off for a moment or a click covers it: a bad contact.";
            case LEAD_OPEN -> "the tacho's voltage is gone at once: its lead was open.";
            case PICK_UP ->
                say(
                        "mains pick-up stands less than 1 Hz beside the tacho and swings its level by %.0f %% up and down: neither can be"
                                + " told from the other, and no blip is looked for there. Record at a speed a tenth away, or keep the"
                                + " lead away from the mains.",
                        100 * fault.amount());
        };
    }

    private static FindingCode code(Kind kind) {
        return switch (kind) {
            case SAMPLES_LOST -> FindingCode.SAMPLES_LOST;
            case SAMPLES_DOUBLED -> FindingCode.SAMPLES_DOUBLED;
            case LEVEL_STEP -> FindingCode.LEVEL_STEP;
            case OFFSET_STEP -> FindingCode.OFFSET_STEP;
            case HUM_STEP -> FindingCode.HUM_STEP;
            case NOISE_BURST, CONTACT -> FindingCode.NOISE_BURST;
            case LEAD_OPEN, REVERSED -> FindingCode.LEAD_OPEN;
            case PICK_UP -> FindingCode.HUM;
        };
    }

    private static String say(String format, Object... values) {
        return String.format(Locale.ROOT, format, values);
    }
}
