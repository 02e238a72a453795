package org.steadyshaft.report;

import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.steadyshaft.analysis.CaptureLabel;
import org.steadyshaft.analysis.Outcome;
import org.steadyshaft.analysis.Rotation;
import org.steadyshaft.compare.SpeedHeld;
import org.steadyshaft.signal.Finding;
import org.steadyshaft.signal.Grade;
import org.steadyshaft.stability.Alarm;

/**
 * The figures of one capture that the batch's pages and tables show; small, so that a batch of any length fits.
 *
 * @param folder name of the capture's folder in the output folder
 * @param file name as the user gave it
 * @param label what the user said of it
 * @param grade whether it can be trusted
 * @param figures the measures; absent where nothing was measured
 * @param findings what there is to say about it
 * @param held whether the motor holds its speed
 * @param verdict the same in one sentence
 * @param alarms kinds of alarm, each once
 * @param tracePath the speed over time on the scale that all captures share, as SVG path data; empty where nothing was measured
 */
public record CaptureSummary(
        String folder,
        String file,
        CaptureLabel label,
        Grade grade,
        Optional<Figures> figures,
        List<Finding> findings,
        SpeedHeld held,
        String verdict,
        List<Alarm.Code> alarms,
        String tracePath) {
    /** The measures of a summary. */
    public record Figures(
            double meanRpm,
            double expandedRpm,
            Optional<Double> rmsPercent,
            Optional<Double> peakToPeakPercent,
            Optional<Integer> blips,
            Optional<Double> blipsPerMinute) {}

    public CaptureSummary {
        Objects.requireNonNull(held, "held");
        findings = List.copyOf(findings);
        alarms = List.copyOf(alarms);
    }

    /** The figures of an outcome whose results are in a folder of that name. */
    public static CaptureSummary of(String folder, Outcome outcome, MotorVerdict verdict) {
        Optional<Rotation> rotation =
                outcome instanceof Outcome.Analysed analysed ? analysed.rotation() : Optional.empty();
        return new CaptureSummary(
                folder,
                outcome.file(),
                outcome.label(),
                outcome.grade(),
                rotation.map(CaptureSummary::figures),
                outcome.findings(),
                verdict.held(),
                verdict.headline(),
                rotation.map(r ->
                                r.alarms().stream().map(Alarm::code).distinct().toList())
                        .orElse(List.of()),
                rotation.map(r -> new SmallTrace(r).path()).orElse(""));
    }

    private static Figures figures(Rotation rotation) {
        return new Figures(
                rotation.speed().meanRpm(),
                rotation.speed().expandedRpm(),
                rotation.ripple().map(r -> r.rmsPercent()),
                rotation.ripple().map(r -> r.peakToPeakPercent()),
                rotation.blips().map(b -> b.events().size()),
                rotation.blips().map(b -> b.perMinute()));
    }

    /** Whether an alarm says that the motor ran away or too fast. */
    public boolean ranAway() {
        return alarms.stream().anyMatch(Alarm.Code::isTooFast);
    }

    /** What the user calls it: the file's name, without its ending where the folder has the same name. */
    public String shownName() {
        String name = CapturePage.title(file);
        int dot = name.lastIndexOf('.');
        return dot > 0 && name.substring(0, dot).equals(folder) ? folder : name;
    }

    /** Whether the motor holds its speed, in a word or two. */
    public String heldWord() {
        return HeldWords.brief(held);
    }

    /** Name of its colour. */
    public String heldStatus() {
        return HeldWords.status(held);
    }

    /** The speed to sort by; empty without one. */
    public String speedOrder() {
        return figures.map(f -> Numbers.machine(f.meanRpm)).orElse("");
    }

    /** How far the scale of all traces reaches to either side of the mean [%]. */
    public static String tracePercent() {
        return Numbers.significant(SmallTrace.REACH_PERCENT, 3);
    }

    /** A sign beside it, for those who do not see colours. */
    public String heldSign() {
        return HeldWords.sign(held);
    }

    public boolean usable() {
        return grade != Grade.UNUSABLE;
    }

    /** Address of the capture's page, seen from the index. */
    public String href() {
        return href(folder);
    }

    /** Address of the page in a capture's folder, seen from beside the folder. */
    static String href(String folder) {
        return URLEncoder.encode(folder, StandardCharsets.UTF_8).replace("+", "%20") + "/report.html";
    }

    public String gradeWord() {
        return grade.name().toLowerCase(Locale.ROOT);
    }

    /** Why the recording is not good, in one sentence; empty where it is. */
    public String mainFinding() {
        if (grade == Grade.GOOD) {
            return "";
        }
        String text = findings.get(0).text();
        int end = text.indexOf(". ");
        return end < 0 ? text : text.substring(0, end + 1);
    }

    /** Circuit, setting and load, as far as they are known. */
    public String runText() {
        String made = label.isSimulated() ? "simulated" : "";
        return Stream.of(
                        label.circuit(),
                        label.setting(),
                        label.load().isEmpty() ? "" : CheckWords.load(label.load()),
                        made)
                .filter(word -> !word.isEmpty())
                .collect(Collectors.joining(", "));
    }

    public String speedText() {
        return figures.map(f -> Numbers.withUncertainty(f.meanRpm, f.expandedRpm))
                .orElse("");
    }

    public String rmsText() {
        return figures.flatMap(Figures::rmsPercent)
                .map(v -> Numbers.significant(v, 3))
                .orElse("");
    }

    public String peakToPeakText() {
        return figures.flatMap(Figures::peakToPeakPercent)
                .map(v -> Numbers.significant(v, 3))
                .orElse("");
    }

    public String blipsText() {
        return figures.flatMap(Figures::blips).map(n -> Integer.toString(n)).orElse("");
    }

    static List<String> headings(List<String> others) {
        List<String> headings = new ArrayList<>(List.of(
                "capture",
                "file",
                "circuit",
                "setting",
                "load",
                "grade",
                "holds_speed",
                "alarms",
                "mean_rpm",
                "expanded_uncertainty_rpm",
                "ripple_rms_percent",
                "ripple_peak_to_peak_percent",
                "blips",
                "blips_per_minute",
                "findings",
                "note"));
        headings.addAll(others);
        return headings;
    }

    List<String> cells(List<String> others) {
        List<String> cells = new ArrayList<>(List.of(
                folder,
                file,
                label.circuit(),
                label.setting(),
                label.load(),
                gradeWord(),
                held.word(),
                String.join(" ", alarms.stream().map(Enum::name).toList()),
                figures.map(f -> Numbers.machine(f.meanRpm)).orElse(""),
                figures.map(f -> Numbers.machine(f.expandedRpm)).orElse(""),
                figures.flatMap(Figures::rmsPercent).map(Numbers::machine).orElse(""),
                figures.flatMap(Figures::peakToPeakPercent)
                        .map(Numbers::machine)
                        .orElse(""),
                blipsText(),
                figures.flatMap(Figures::blipsPerMinute).map(Numbers::machine).orElse(""),
                String.join(
                        " ",
                        findings.stream().map(f -> f.code().name()).distinct().toList()),
                label.note()));
        others.forEach(column -> cells.add(label.others().getOrDefault(column, "")));
        return cells;
    }
}
