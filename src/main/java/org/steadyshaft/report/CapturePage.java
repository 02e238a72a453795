package org.steadyshaft.report;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.steadyshaft.analysis.AnalysisSettings;
import org.steadyshaft.analysis.BlipExtract;
import org.steadyshaft.analysis.CaptureLabel;
import org.steadyshaft.analysis.Outcome;
import org.steadyshaft.analysis.Rotation;
import org.steadyshaft.analysis.SourceFacts;
import org.steadyshaft.blip.Blip;
import org.steadyshaft.compare.Run;
import org.steadyshaft.report.ChartParts.Chart;
import org.steadyshaft.response.LoadEvent;
import org.steadyshaft.response.Step;
import org.steadyshaft.ripple.RippleLine;
import org.steadyshaft.signal.Finding;
import org.steadyshaft.signal.PlainText;
import org.steadyshaft.speed.MeanSpeed;
import org.steadyshaft.speed.PolePattern;
import org.steadyshaft.speed.Uncertainty;
import org.steadyshaft.stability.Alarm;

/**
 * Everything a capture's page shows, as text ready to be placed.
 *
 * @param ways where it leads
 * @param title name of the file, without its folders
 * @param subtitle circuit, setting and load, as far as they are known
 * @param held name of the colour of the motor's verdict
 * @param motor the motor's verdict
 * @param reasons what decides it, as sentences
 * @param grade whether it can be trusted, one word
 * @param simulated whether the capture was made by a simulation
 * @param verdict what the measures mean, in plain words
 * @param findings what was found wrong
 * @param facts what was said and found of the recording, by name
 * @param figures the measures, by name
 * @param lines rows of the ripple table
 * @param blips rows of the blip table
 * @param changes rows of the table of steps and load events
 * @param alarms what is dangerous or not meant, beyond what the verdict names
 * @param advice what to do about what was found
 * @param caution what stands where a hand would come near live parts
 * @param charts pictures
 * @param zoomData what the page's script draws the first of them from; empty without a speed
 * @param trace the speed over time on the scale that all captures share, as SVG path data; empty without a speed
 * @param closeUps small pictures of the largest blips
 * @param foot when it was recorded and how it was read
 */
public record CapturePage(
        Ways ways,
        String title,
        String subtitle,
        String held,
        MotorVerdict motor,
        List<String> reasons,
        String grade,
        boolean simulated,
        Verdict verdict,
        List<FindingText> findings,
        Map<String, String> facts,
        Map<String, String> figures,
        List<List<String>> lines,
        List<List<String>> blips,
        List<List<String>> changes,
        List<String> alarms,
        List<AdviceList.Entry> advice,
        String caution,
        List<Chart> charts,
        String zoomData,
        String trace,
        List<Chart> closeUps,
        String foot) {
    /** A finding as the page shows it: a word or two, how grave, what it means, and where it is in the chart [s]; empty where it is everywhere. */
    public record FindingText(String name, String severity, String text, String atSeconds) {}

    static CapturePage of(Outcome outcome, MotorVerdict motor, Ways ways) {
        Optional<Outcome.Analysed> analysed =
                outcome instanceof Outcome.Analysed read ? Optional.of(read) : Optional.empty();
        Optional<Rotation> rotation = analysed.flatMap(Outcome.Analysed::rotation);
        return new CapturePage(
                ways,
                title(outcome.file()),
                subtitle(outcome.label()),
                HeldWords.status(motor.held()),
                motor,
                motor.reasons().stream().map(MotorVerdict::sentence).toList(),
                outcome.grade().name().toLowerCase(Locale.ROOT),
                outcome.label().isSimulated(),
                Verdict.of(outcome),
                outcome.findings().stream().map(CapturePage::finding).toList(),
                facts(outcome.file(), outcome.label(), analysed),
                rotation.map(r -> figures(r, analysed.get().source().durationSeconds()))
                        .orElse(Map.of()),
                rotation.map(r -> r.spectrum().lines().stream()
                                .map(CapturePage::cells)
                                .toList())
                        .orElse(List.of()),
                rotation.flatMap(Rotation::blips)
                        .map(b -> b.events().stream().map(CapturePage::cells).toList())
                        .orElse(List.of()),
                rotation.map(CapturePage::changes).orElse(List.of()),
                rotation.map(r -> untold(r, motor)).orElse(List.of()),
                AdviceList.of(outcome, motor.held()),
                Advice.usual().caution(),
                analysed.map(CapturePage::charts).orElse(List.of()),
                rotation.map(r -> ZoomData.of(analysed.get(), r)).orElse(""),
                rotation.map(r -> new SmallTrace(r).path()).orElse(""),
                rotation.map(CapturePage::closeUps).orElse(List.of()),
                foot(outcome.label(), analysed.map(Outcome.Analysed::settings)));
    }

    /** Alarms that the verdict does not name already. */
    private static List<String> untold(Rotation rotation, MotorVerdict motor) {
        String told = motor.words();
        return rotation.alarms().stream()
                .map(Alarm::text)
                .filter(text -> !told.contains(MotorReasons.withoutStop(text)))
                .toList();
    }

    /** Advices beyond these are folded away. */
    private static final int OPEN_ADVICE = 3;

    /** What to do first. */
    public List<AdviceList.Entry> firstAdvice() {
        return advice.stream().limit(OPEN_ADVICE).toList();
    }

    /** The speed over time; none without a speed. */
    public List<Chart> mainCharts() {
        return charts.stream().limit(zoomData.isEmpty() ? 0 : 1).toList();
    }

    /** All other pictures. */
    public List<Chart> otherCharts() {
        return charts.stream().skip(zoomData.isEmpty() ? 0 : 1).toList();
    }

    /** What else there is to do. */
    public List<AdviceList.Entry> moreAdvice() {
        return advice.stream().skip(OPEN_ADVICE).toList();
    }

    /** When it was recorded, as far as anybody said, and how it was read. */
    private static String foot(CaptureLabel label, Optional<AnalysisSettings> settings) {
        String date = label.others().getOrDefault(Run.DATE, "");
        return (date.isEmpty() ? "No date was given." : "Recorded " + date + ".")
                + settings.map(s -> " Read with " + words(s) + ".").orElse("");
    }

    private static String words(AnalysisSettings settings) {
        return settings.polePairs() + " pole pairs (" + settings.polePairsFrom().word() + "), mains "
                + Numbers.significant(settings.mainsHz(), 3) + " Hz"
                + settings.channel().map(c -> ", channel " + c).orElse("")
                + (settings.clockTolerancePpm().isPresent()
                        ? ", the recorder's clock within "
                                + Numbers.significant(
                                        settings.clockTolerancePpm().getAsDouble(), 3) + " ppm"
                        : "")
                + (settings.mostRpm().isPresent()
                        ? ", alarm above " + MotorVerdict.rpm(settings.mostRpm().getAsDouble())
                        : "");
    }

    /** What the measures mean; nothing without measures, since the verdict says why there are none. */
    public List<String> sentences() {
        return figures.isEmpty() ? List.of() : verdict.sentences();
    }

    /** What stands where on the page: headings by their anchors, in order. */
    public Map<String, String> contents() {
        Map<String, String> contents = new LinkedHashMap<>();
        entry(contents, !advice.isEmpty(), "todo", "What to do");
        entry(contents, !zoomData.isEmpty(), "chart", "Speed over time");
        entry(contents, !sentences().isEmpty(), "words", "In words");
        entry(contents, !findings.isEmpty(), "findings", "About the recording");
        entry(contents, !changes.isEmpty(), "changes", "Steps and loads");
        entry(contents, !closeUps.isEmpty() || !otherCharts().isEmpty(), "more", "Looked at closely");
        entry(contents, !figures.isEmpty(), "figures", "Figures");
        entry(contents, !facts.isEmpty(), "facts", "The recording");
        return contents;
    }

    private static void entry(Map<String, String> contents, boolean there, String anchor, String heading) {
        if (there) {
            contents.put(anchor, heading);
        }
    }

    /** The last part of a path, whichever way its slashes lean. */
    static String title(String file) {
        String plain = PlainText.of(file);
        int slash = Math.max(plain.lastIndexOf('/'), plain.lastIndexOf('\\'));
        return slash >= 0 && slash < plain.length() - 1 ? plain.substring(slash + 1) : plain;
    }

    private static String subtitle(CaptureLabel label) {
        return Stream.of(label.circuit(), label.setting(), label.load().isEmpty() ? "" : CheckWords.load(label.load()))
                .filter(word -> !word.isEmpty())
                .collect(Collectors.joining(", "));
    }

    private static FindingText finding(Finding finding) {
        return new FindingText(
                MotorVerdict.sentence(CheckWords.fault(finding.code())),
                finding.severity().name().toLowerCase(Locale.ROOT),
                finding.text(),
                finding.where()
                        .map(w -> Numbers.fixed(0.5 * (w.fromSeconds() + w.toSeconds()), 3))
                        .orElse(""));
    }

    private static Map<String, String> facts(String file, CaptureLabel label, Optional<Outcome.Analysed> analysed) {
        Map<String, String> facts = new LinkedHashMap<>();
        put(facts, "File", PlainText.of(file));
        put(facts, "Circuit", label.circuit());
        put(facts, "Setting", label.setting());
        put(facts, "Load", label.load());
        put(facts, "Note", label.note());
        label.others().forEach((name, value) -> put(facts, name, value));
        analysed.ifPresent(read -> {
            SourceFacts source = read.source();
            put(
                    facts,
                    "Recording",
                    source.format().container() + ", " + source.format().encoding());
            put(
                    facts,
                    "Sample rate",
                    Numbers.significant(source.sampleRateHz(), 8) + " Hz, " + source.samples() + " samples, "
                            + Numbers.fixed(source.durationSeconds(), 3) + " s");
            put(facts, "Channel", channels(source));
            put(
                    facts,
                    "Tacho",
                    read.settings().polePairs() + " pole pairs ("
                            + read.settings().polePairsFrom().word() + ")");
            put(facts, "Mains", Numbers.significant(read.settings().mainsHz(), 3) + " Hz");
            put(facts, "SHA-256", source.sha256());
        });
        return facts;
    }

    private static String channels(SourceFacts source) {
        StringBuilder text = new StringBuilder(source.channel())
                .append(" of ")
                .append(source.roles().size());
        for (int c = 0; c < source.roles().size() && source.roles().size() > 1; c++) {
            text.append(c == 0 ? ": " : ", ")
                    .append(c + 1)
                    .append(" ")
                    .append(source.roles().get(c).word());
        }
        return text.toString();
    }

    private static void put(Map<String, String> facts, String name, String value) {
        if (!value.isEmpty()) {
            facts.put(name, value);
        }
    }

    private static String expanded(double standardRpm) {
        return "\u00B1 " + Numbers.significant(Uncertainty.COVERAGE_FACTOR * standardRpm, 2) + " rpm";
    }

    private static Map<String, String> figures(Rotation rotation, double durationSeconds) {
        MeanSpeed speed = rotation.speed();
        Map<String, String> figures = new LinkedHashMap<>();
        figures.put(
                speed.sineRpm().isPresent() ? "Mean speed by a sine fit" : "Mean speed by crossings",
                Numbers.withUncertainty(speed.meanRpm(), speed.expandedRpm()) + " rpm (k = 2)");
        figures.put(
                "of this from the data",
                expanded(speed.uncertainty().dataRpm()) + ", the recorder's steps alone "
                        + expanded(speed.uncertainty().quantisationRpm()));
        figures.put(
                "of this from the recorder's clock",
                expanded(speed.uncertainty().clockRpm()));
        if (speed.sineRpm().isPresent()) {
            figures.put("Mean speed by crossings", Numbers.fixed(speed.crossingRpm(), 4) + " rpm");
        }
        speed.spectralRpm()
                .ifPresent(rpm -> figures.put(
                        "Mean speed by spectra",
                        Numbers.fixed(rpm, 3) + " rpm ("
                                + Numbers.fixed(speed.differencePercent().orElse(0), 4)
                                + " % apart over the same frames)"));
        figures.put(
                "Slowest and fastest cycle",
                Numbers.fixed(speed.slowestRpm(), 1) + " and " + Numbers.fixed(speed.fastestRpm(), 1) + " rpm");
        figures.put("Cycles counted", SpanWords.counted(rotation.track(), durationSeconds));
        rotation.level()
                .decibelFullScale()
                .ifPresent(level -> figures.put(
                        "Level of the tacho",
                        Numbers.fixed(level, 1) + " dBFS (0 dBFS is the rms of a full-scale sine, AES17)"));
        rotation.pattern().ifPresent(pattern -> figures.put("Spacing of the tacho's poles", pattern(pattern)));
        rotation.ripple().ifPresent(ripple -> {
            figures.put(
                    "Ripple, peak to peak",
                    Numbers.significant(ripple.peakToPeakPercent(), 3) + " % of the mean (coefficient of fluctuation)");
            figures.put(
                    "Ripple, rms",
                    Numbers.withUncertainty(ripple.rmsPercent(), ripple.expandedRmsPercent())
                            + " % of the mean (k = 2), noise and hum left out"
                            + (ripple.isWhole() ? "" : "; without what cannot be told, see below"));
            figures.put(
                    "Ripple is seen",
                    "from " + Numbers.significant(ripple.bandFromHz(), 2) + " to " + Numbers.fixed(ripple.bandToHz(), 0)
                            + " Hz");
            figures.put("Swing at twice the mains", UntoldWords.of(ripple.twiceMains()));
            figures.put("Swing at the mains", UntoldWords.of(ripple.mains()));
            figures.put(
                    "Noise of a single cycle",
                    Numbers.significant(ripple.noisePercent(), 2) + " % rms, in none of these figures");
        });
        rotation.hunting()
                .ifPresent(hunting -> figures.put(
                        "Hunting",
                        Numbers.significant(hunting.amplitudePercent(), 3) + " % (0 to peak) at "
                                + Numbers.significant(hunting.frequencyHz(), 4) + " Hz, "
                                + hunting.trend().word()));
        rotation.drift()
                .ifPresent(drift -> figures.put(
                        "Drift",
                        Numbers.significant(drift.percentPerMinute(), 3) + " % a minute, 95 % limits "
                                + Numbers.significant(drift.low95(), 3) + " to "
                                + Numbers.significant(drift.high95(), 3)
                                + (drift.significant() ? "" : ": no drift is proven")));
        rotation.blips()
                .ifPresent(blips -> figures.put(
                        "Blips",
                        blips.events().size() + " in " + Numbers.fixed(blips.minutes(), 2) + " min: "
                                + Numbers.fixed(blips.perMinute(), 2) + " a minute, 95 % limits "
                                + Numbers.fixed(blips.perMinuteLow(), 2) + " to "
                                + Numbers.fixed(blips.perMinuteHigh(), 2)));
        return figures;
    }

    private static String pattern(PolePattern pattern) {
        return "uneven by " + Numbers.fixed(pattern.rmsPercent(), 2) + " % rms, "
                + Numbers.fixed(pattern.largestPercent(), 2)
                + " % at most; or the speed swings by so much each turn, which looks the same at one speed. Left out of the ripple"
                + (pattern.largestPercent() > DOUBTED_PERCENT
                        ? "; so large a spacing is doubtful: record at another speed, the poles' spacing stays and a swing changes"
                        : "");
    }

    /** Single pick-ups are uneven by 1 to 3 % (practice). */
    private static final double DOUBTED_PERCENT = 3;

    private static List<String> cells(RippleLine line) {
        return List.of(
                Numbers.fixed(line.frequencyHz(), 3),
                Numbers.fixed(line.order(), 3),
                Numbers.withUncertainty(line.amplitudePercent(), line.expandedPercent()),
                line.cause().word(),
                line.cause().explanation() + "; read from the "
                        + line.readFrom().word(),
                line.certainty().name().toLowerCase(Locale.ROOT));
    }

    private static List<String> cells(Blip blip) {
        return List.of(
                Numbers.fixed(blip.fromSeconds(), 3),
                Numbers.fixed(blip.peakSeconds(), 3),
                Numbers.fixed(blip.toSeconds(), 3),
                Numbers.fixed(blip.peakPercent(), 2),
                blip.cause().word(),
                DisturbanceCharts.evidence(blip));
    }

    private static List<Chart> closeUps(Rotation rotation) {
        List<Chart> charts = new ArrayList<>();
        for (BlipExtract extract : rotation.closeUps()) {
            charts.add(DisturbanceCharts.closeUp(charts.size() + 1, rotation, extract.blip(), extract.waveform()));
        }
        return charts;
    }

    /** Steps and load events, each with time, what, and its figures. */
    private static List<List<String>> changes(Rotation rotation) {
        List<List<String>> rows = new ArrayList<>();
        for (Step step : rotation.steps()) {
            rows.add(List.of(
                    Numbers.fixed(step.timeSeconds(), 2),
                    "set-point " + Numbers.fixed(step.fromRpm(), 1) + " to " + Numbers.fixed(step.toRpm(), 1) + " rpm",
                    "10 to 90 % in " + Numbers.significant(step.riseTimeSeconds(), 3) + " s, overshoot "
                            + Numbers.fixed(step.overshootPercent(), 1) + " % of the step, "
                            + (step.settlingTimeSeconds().isPresent()
                                    ? "within 2 % of it after "
                                            + Numbers.significant(
                                                    step.settlingTimeSeconds().getAsDouble(), 3) + " s"
                                    : "not settled")));
        }
        for (LoadEvent event : rotation.loadEvents()) {
            rows.add(List.of(
                    Numbers.fixed(event.timeSeconds(), 2),
                    event.dipPercent() > 0 ? "load put on" : "load taken off",
                    (event.dipPercent() > 0 ? "speed fell by " : "speed rose by ")
                            + Numbers.fixed(Math.abs(event.dipPercent()), 2) + " %, "
                            + (event.recoverySeconds().isPresent()
                                    ? "back within 2 % after "
                                            + Numbers.significant(
                                                    event.recoverySeconds().getAsDouble(), 3) + " s"
                                    : "not back within 2 %")
                            + (event.droopPercent().isPresent()
                                    ? ", lasting "
                                            + Numbers.fixed(
                                                    -event.droopPercent().getAsDouble(), 2) + " %"
                                    : "")));
        }
        return rows;
    }

    private static List<Chart> charts(Outcome.Analysed outcome) {
        List<Chart> charts = new ArrayList<>();
        outcome.rotation().ifPresent(rotation -> {
            charts.add(CaptureCharts.speed(rotation));
            charts.addAll(DisturbanceCharts.steps(rotation));
            CaptureCharts.spectrum(rotation).ifPresent(charts::add);
            DisturbanceCharts.orders(rotation).ifPresent(charts::add);
            DisturbanceCharts.stability(rotation).ifPresent(charts::add);
        });
        charts.add(CaptureCharts.waveform(outcome));
        outcome.rotation().ifPresent(rotation -> charts.add(CaptureCharts.spectralTrack(outcome, rotation)));
        return charts;
    }
}
