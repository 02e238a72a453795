package org.steadyshaft.analysis;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.function.Predicate;
import java.util.function.Supplier;
import org.steadyshaft.blip.Blip;
import org.steadyshaft.blip.BlipMaker;
import org.steadyshaft.blip.BlipRhythm;
import org.steadyshaft.blip.CountedCheck;
import org.steadyshaft.blip.EventFinder;
import org.steadyshaft.blip.Kink;
import org.steadyshaft.blip.RecorderFault;
import org.steadyshaft.blip.ShaftEvents;
import org.steadyshaft.blip.SlipFinder;
import org.steadyshaft.condition.ConditionJudge;
import org.steadyshaft.condition.GapFinder;
import org.steadyshaft.condition.TachoLevel;
import org.steadyshaft.condition.TachoPresence;
import org.steadyshaft.response.LoadEvent;
import org.steadyshaft.response.StepFinder;
import org.steadyshaft.ripple.OrderMeter;
import org.steadyshaft.signal.CycleTimes;
import org.steadyshaft.signal.Finding;
import org.steadyshaft.signal.FindingCode;
import org.steadyshaft.signal.Grade;
import org.steadyshaft.signal.MainsHum;
import org.steadyshaft.signal.SampleFormat;
import org.steadyshaft.signal.SampleSource;
import org.steadyshaft.signal.SpeedTrack;
import org.steadyshaft.signal.Stretch;
import org.steadyshaft.signal.Tachometer;
import org.steadyshaft.speed.CycleFinder;
import org.steadyshaft.speed.EvenWheel;
import org.steadyshaft.speed.FaintRows;
import org.steadyshaft.speed.MeanSpeed;
import org.steadyshaft.speed.MeanSpeedMeter;
import org.steadyshaft.speed.PolePattern;
import org.steadyshaft.speed.PolePatternLearner;
import org.steadyshaft.speed.SineMean;
import org.steadyshaft.speed.SpeedTrackMaker;
import org.steadyshaft.speed.ToothedWheel;
import org.steadyshaft.speed.TurnBreaks;
import org.steadyshaft.stability.Alarm;
import org.steadyshaft.stability.AlarmFinder;
import org.steadyshaft.stability.AllanMeter;
import org.steadyshaft.stability.DriftMeter;
import org.steadyshaft.voltage.LearntTurn;
import org.steadyshaft.voltage.LocalModel;
import org.steadyshaft.voltage.MainsReading;
import org.steadyshaft.voltage.RoughAngle;

/**
 * Leads one recording through the stages. First pass: levels, hum and the tacho frequency over time, in every channel
 * unless one was named. Second pass: every cycle. Then, on cycles alone: pole pattern, speed, steadiness.
 */
public final class CaptureAnalyser {
    /** Clock tolerances where the user gives none (common practice): quartz of a sound card, of a cheap scope. */
    private static final double SOUND_CARD_CLOCK_PPM = 50;

    private static final double SCOPE_CLOCK_PPM = 25;

    private static final double EXTRACT_CYCLES = 8;
    private static final double QUIET_EXTRACT_SECONDS = 0.1;
    private static final int FEWEST_CYCLES = 4;

    /** A row of cycles without a break lasts this long at least where a shaft turns, or this share of a short recording. */
    private static final double LEAST_ROW_SECONDS = 1.5;

    private static final double LEAST_ROW_SHARE = 0.2;

    /** After the speed is back in its band the tail of a load is left out for so long, and a load no longer than this. */
    private static final double LOAD_TAIL_SECONDS = 1;

    private static final double MOST_LOAD_SECONDS = 10;

    /** Blips shown close up; more would hide the page. */
    private static final int MOST_CLOSE_UPS = 12;

    private final AnalysisSettings settings;
    private final List<LearntTurn> others;

    public CaptureAnalyser(AnalysisSettings settings) {
        this(settings, List.of());
    }

    /** @param others what other recordings of the same tacho have learnt of its poles */
    public CaptureAnalyser(AnalysisSettings settings, List<LearntTurn> others) {
        this.settings = settings;
        this.others = List.copyOf(others);
    }

    /**
     * Analyses a recording.
     *
     * @throws IOException if it cannot be read to its end, or the named channel does not exist
     */
    public Outcome.Analysed analyse(SampleSource source, String sha256, CaptureLabel label) throws IOException {
        return analyse(source, () -> sha256, label);
    }

    /**
     * Analyses a recording whose digest is made meanwhile.
     *
     * @param sha256 asked for once, at the end
     * @throws IOException if it cannot be read to its end, or the named channel does not exist
     */
    public Outcome.Analysed analyse(SampleSource source, Supplier<String> sha256, CaptureLabel label)
            throws IOException {
        return analysed(source, label).withDigest(sha256.get());
    }

    private Outcome.Analysed analysed(SampleSource source, CaptureLabel label) throws IOException {
        OptionalInt named = namedChannel(source);
        int from = named.orElse(0);
        int to = named.isPresent() ? from + 1 : source.channels();
        FirstPass first = FirstPass.of(source, from, to, settings.mainsHz(), settings.polePairs());
        SourceFacts facts = new SourceFacts(
                source.name(),
                "",
                source.format(),
                source.sampleRateHz(),
                source.channelName(first.channel()),
                first.roles(),
                source.samples());
        List<Finding> findings = new ArrayList<>();
        source.remarks().forEach(r -> findings.add(Finding.caution(FindingCode.UNREADABLE, r)));
        Optional<ShortCapture> brief = ShortCapture.of(settings, source, first, from, to, clockPpm(source.format()));
        if (brief.isPresent()) {
            return brief(source, first, facts, label, findings, brief.get());
        }
        if (first.refusal().isPresent()) {
            findings.add(first.refusal().get());
            double middle = 0.5 * first.waveform().durationSeconds();
            WaveformExtract extract = new Extractor(source, first).extract(middle, QUIET_EXTRACT_SECONDS);
            return outcome(facts, label, findings, Optional.empty(), extract);
        }
        return rotating(source, first, facts, label, findings);
    }

    private Outcome.Analysed brief(
            SampleSource source,
            FirstPass first,
            SourceFacts ofFrames,
            CaptureLabel label,
            List<Finding> findings,
            ShortCapture brief)
            throws IOException {
        SourceFacts facts = ofFrames.withChannel(source.channelName(brief.channel()), brief.roles(first.roles()));
        double seconds = facts.durationSeconds();
        WaveformExtract extract =
                new Extractor(source, brief.channel(), first.waveform()).extract(0.5 * seconds, seconds);
        findings.add(brief.refusal().orElseGet(brief::tooFew));
        Optional<Rotation> rotation = brief.refusal().isPresent() ? Optional.empty() : Optional.of(brief.rotation());
        return outcome(facts, label, findings, rotation, extract);
    }

    private Outcome.Analysed outcome(
            SourceFacts facts,
            CaptureLabel label,
            List<Finding> findings,
            Optional<Rotation> rotation,
            WaveformExtract extract) {
        return new Outcome.Analysed(facts, label, settings, findings, rotation, extract);
    }

    /** Index of the channel the user named; empty if none was. */
    private OptionalInt namedChannel(SampleSource source) throws IOException {
        if (settings.channel().isEmpty()) {
            return OptionalInt.empty();
        }
        String wanted = settings.channel().get();
        StringBuilder known = new StringBuilder();
        for (int c = 0; c < source.channels(); c++) {
            String name = source.channelName(c);
            if (name.equalsIgnoreCase(wanted) || Integer.toString(c + 1).equals(wanted)) {
                return OptionalInt.of(c);
            }
            known.append(c == 0 ? "" : ", ").append(c + 1);
            known.append(name.equals(Integer.toString(c + 1)) ? "" : " (" + name + ")");
        }
        throw new IOException(source.name() + ": there is no channel '" + wanted + "'; expected one of " + known);
    }

    private Outcome.Analysed rotating(
            SampleSource source, FirstPass looked, SourceFacts facts, CaptureLabel label, List<Finding> findings)
            throws IOException {
        List<Stretch> gaps = new GapFinder(
                        looked.hum().amplitudeBeside(looked.track()).orElse(0))
                .find(looked.levels(), looked.track());
        MainsHum hum = looked.mainsHum();
        CycleFinder finder = new CycleFinder(looked.waveform(), looked.track(), gaps, hum);
        double middle = looked.rotatingMiddleSeconds();
        double hz = looked.track().frequencyHz(looked.track().nearestFrame(middle));
        Extractor extractor = new Extractor(source, looked);
        WaveformExtract extract = extractor.extract(middle, EXTRACT_CYCLES / hz);
        CycleTimes raw = finder.cycles();
        Optional<ToothedWheel.Found> toothed = new ToothedWheel(looked.waveform(), looked.track(), gaps, hum).find(raw);
        Optional<TurnBreaks.Found> wheel = toothed.map(ToothedWheel.Found::breaks);
        if (wheel.isPresent() && marksOtherTurn(wheel.get())) {
            AnalysisSettings marked = settings.withMarkedTurn(wheel.get().pitchesATurn());
            return new CaptureAnalyser(marked, others).rotating(source, looked, facts, label, findings);
        }
        wheel.ifPresent(found -> findings.addAll(missingTeeth(found)));
        Optional<EvenWheel> even =
                wheel.map(found -> new EvenWheel(found, looked.waveform().durationSeconds()));
        FirstPass first = even.isPresent()
                ? looked.with(toothed.get().track(), even.get().waveform(looked.meanAmplitude()))
                : looked;
        CycleTimes cycles = even.isPresent()
                ? even.get().cycles()
                : new FaintRows(looked.waveform(), looked.mainsHz()).without(raw);
        if (cycles.cycles() < FEWEST_CYCLES) {
            findings.add(tooShort(cycles.cycles()));
            return outcome(facts, label, findings, Optional.empty(), extract);
        }
        findings.addAll(new ConditionJudge(facts.format(), facts.sampleRateHz())
                .judge(first.levels(), first.spikes(), first.track(), gaps, cycles.cycles()));
        if (Grade.of(findings) == Grade.UNUSABLE) {
            return outcome(facts, label, findings, Optional.empty(), extract);
        }
        if (cycles.longestSegmentSeconds() < Math.min(LEAST_ROW_SECONDS, LEAST_ROW_SHARE * facts.durationSeconds())) {
            findings.add(Finding.stop(
                    FindingCode.NO_ROTATION,
                    "There are tones, but none that keeps on as a turning shaft does: speech, a knock or a loose contact. Check"
                            + " that the tacho was connected and that the motor turned."));
            return outcome(facts, label, findings, Optional.empty(), extract);
        }
        Rotation rotation = measure(
                cycles,
                wheel.isPresent() ? Optional.empty() : finder.sineMean(),
                gaps,
                hum,
                first,
                extractor,
                facts.format(),
                label,
                findings);
        return outcome(facts, label, findings, Optional.of(rotation), extract);
    }

    /** Whether missing teeth tell a number of pole pairs that nobody said. */
    private boolean marksOtherTurn(TurnBreaks.Found wheel) {
        return settings.polePairsFrom() == AnalysisSettings.PolePairsFrom.ASSUMED
                && settings.polePairs() != wheel.pitchesATurn();
    }

    private List<Finding> missingTeeth(TurnBreaks.Found wheel) {
        List<Finding> findings = new ArrayList<>();
        findings.add(Finding.note(
                FindingCode.MISSING_TEETH,
                String.format(
                        Locale.ROOT,
                        "The same %d of every %d waves is missing: a wheel with %d-%d teeth, or a lost magnet. The missing ones were"
                                + " counted along, and what they bend is taken for the pattern of the turn.",
                        wheel.missingATurn(),
                        wheel.pitchesATurn(),
                        wheel.pitchesATurn(),
                        wheel.missingATurn())));
        if (settings.polePairs() % wheel.pitchesATurn() != 0) {
            findings.add(Finding.caution(
                    FindingCode.POLE_COUNT,
                    String.format(
                            Locale.ROOT,
                            "What is missing comes back every %d waves, so a turn should have %d of them (or a multiple), missing ones"
                                    + " counted; %d were said. If %d is right, every speed is to be multiplied by %.4f.",
                            wheel.pitchesATurn(),
                            wheel.pitchesATurn(),
                            settings.polePairs(),
                            wheel.pitchesATurn(),
                            (double) settings.polePairs() / wheel.pitchesATurn())));
        }
        return findings;
    }

    private static Finding tooShort(int cycles) {
        return Finding.stop(
                FindingCode.TOO_SHORT,
                "Only " + cycles + " whole cycles of the tacho could be counted, at least " + FEWEST_CYCLES
                        + " are needed for a speed. Record longer: ten seconds give ripple and hunting, two minutes a rate"
                        + " of blips.");
    }

    private Rotation measure(
            CycleTimes counted,
            Optional<SineMean> sine,
            List<Stretch> gaps,
            MainsHum hum,
            FirstPass first,
            Extractor extractor,
            SampleFormat format,
            CaptureLabel label,
            List<Finding> findings)
            throws IOException {
        Tachometer tachometer = new Tachometer(settings.polePairs());
        List<RecorderFault> slips =
                new SlipFinder(settings.polePairs(), first.waveform(), first.mainsHz()).find(counted);
        ShaftEvents found = events(first, counted, tachometer, slips);
        List<Stretch> jumps = new UncountedPlaces(counted).of(found.faults());
        CycleTimes cycles = jumps.isEmpty() ? counted : counted.without(jumps);
        Optional<PolePattern> pattern = new PolePatternLearner(tachometer).learn(cycles);
        SpeedTrack track = new SpeedTrackMaker(tachometer).make(cycles, pattern);
        CalmRun run = CalmRun.of(new CountedCheck(track, settings.polePairs()).of(found), track, first.mainsHz());
        ShaftEvents shaft = run.shaft();
        SpeedTrack calm = run.calm();
        List<Stretch> steady = run.steady();
        double step = format.step().orElse(first.levels().step());
        MeanSpeed speed = new MeanSpeedMeter(tachometer, clockPpm(format), first.sampleRateHz(), step)
                .measure(cycles, track, first.track(), jumps.isEmpty() ? sine : Optional.empty());
        SpeedRange.doubt(speed.meanRpm(), settings.polePairs()).ifPresent(findings::add);
        SpeedRange.left(track, first.waveform().durationSeconds()).ifPresent(findings::add);
        double cycleHz = tachometer.cycleHz(speed.meanRpm());
        List<Stretch> leftOut = leftOut(BlipMaker.stretches(shaft), run.loads());
        RippleStage.Result swings = new RippleStage(
                        tachometer, first.mainsHz(), DriveWords.hints(label), noLines(findings), others)
                .run(
                        first.waveform(),
                        cycles,
                        calm,
                        steady,
                        leftOut,
                        shaft.kinks().stream().map(Kink::startSeconds).toList());
        findings.addAll(
                swings.likelierPoles().isPresent()
                        ? FaultFindings.ofDoubtedTurn(shaft.faults())
                        : FaultFindings.of(shaft.faults()));
        findings.addAll(new SpeedDoubts(settings, first).of(speed, cycles, swings.likelierPoles()));
        findings.addAll(new WaveformDoubts(settings, first).of(swings.reading()));
        List<Alarm> alarms = alarms(first, track, steady, gaps);
        findings.addAll(openLeads(alarms, findings));
        return new Rotation(
                speed,
                TachoLevel.of(format, first.track()),
                swings.pattern(pattern),
                track,
                first.track(),
                steady,
                swings.ripple(),
                new OrderMeter(tachometer).measure(calm, steady, leftOut),
                run.blips(),
                new BlipRhythm(first.mainsHz(), hum).remarks(run.events(), cycleHz),
                new DriftMeter().measure(calm, steady, leftOut),
                new AllanMeter().measure(calm, steady),
                new StepFinder().find(calm, steady),
                run.loads(),
                alarms,
                closeUps(extractor, run.events()),
                swings.learnt());
    }

    /** Why the wave tells no fast swings, by what was found of it; empty where it does. */
    private static Optional<MainsReading.Why> noLines(List<Finding> findings) {
        if (findings.stream().anyMatch(f -> f.code() == FindingCode.MISSING_TEETH)) {
            return Optional.of(MainsReading.Why.MISSING_TEETH);
        }
        return findings.stream().anyMatch(f -> f.code() == FindingCode.CLIPPED)
                ? Optional.of(MainsReading.Why.CUT_OFF)
                : Optional.empty();
    }

    /** An open lead is a matter of the recording too, where no finding tells of the place yet. */
    private static List<Finding> openLeads(List<Alarm> alarms, List<Finding> findings) {
        return alarms.stream()
                .filter(a -> a.code() == Alarm.Code.LEAD_OPEN)
                .filter(a -> findings.stream()
                        .filter(f -> f.code() == FindingCode.GAP || f.code() == FindingCode.LEAD_OPEN)
                        .flatMap(f -> f.where().stream())
                        .noneMatch(where -> overlap(where, a.where())))
                .map(a -> Finding.caution(FindingCode.LEAD_OPEN, a.text(), a.where()))
                .toList();
    }

    private static boolean overlap(Stretch a, Stretch b) {
        return a.fromSeconds() <= b.toSeconds() && b.fromSeconds() <= a.toSeconds();
    }

    private List<Alarm> alarms(FirstPass first, SpeedTrack track, List<Stretch> steady, List<Stretch> gaps)
            throws IOException {
        TachoPresence presence = new TachoPresence(first.waveform(), first.mainsHz());
        Predicate<Stretch> isThere = stretch -> {
            try {
                return presence.isIn(stretch);
            } catch (IOException e) {
                throw new UncheckedIOException(e);
            }
        };
        try {
            return new AlarmFinder(settings.mostRpm(), first.waveform().durationSeconds(), isThere)
                    .find(track, steady, gaps);
        } catch (UncheckedIOException e) {
            throw e.getCause();
        }
    }

    /** The waveform at the places of the largest blips, largest first. */
    private static List<BlipExtract> closeUps(Extractor extractor, List<Blip> events) throws IOException {
        List<Blip> worst = events.stream()
                .sorted(Comparator.comparingDouble(b -> -Math.abs(b.peakPercent())))
                .limit(MOST_CLOSE_UPS)
                .toList();
        List<BlipExtract> extracts = new ArrayList<>();
        for (Blip blip : worst) {
            double after = Math.max(
                    BlipExtract.LEAST_AFTER_SECONDS,
                    Math.min(BlipExtract.MOST_AFTER_SECONDS, blip.toSeconds() - blip.fromSeconds()));
            double from = blip.fromSeconds() - BlipExtract.BEFORE_SECONDS;
            double to = blip.fromSeconds() + after;
            extracts.add(new BlipExtract(blip, extractor.extract(0.5 * (from + to), to - from)));
        }
        return extracts;
    }

    /** What is no ripple, in order: blips, and loads until the speed is back. */
    private static List<Stretch> leftOut(List<Stretch> blips, List<LoadEvent> loads) {
        List<Stretch> all = new ArrayList<>(blips);
        loads.forEach(l -> all.add(new Stretch(
                l.timeSeconds(),
                l.timeSeconds()
                        + Math.min(MOST_LOAD_SECONDS, l.recoverySeconds().orElse(0) + LOAD_TAIL_SECONDS))));
        all.sort(Comparator.comparingDouble(Stretch::fromSeconds));
        List<Stretch> joined = new ArrayList<>();
        for (Stretch next : all) {
            Stretch last = joined.isEmpty() ? null : joined.get(joined.size() - 1);
            if (last != null && next.fromSeconds() <= last.toSeconds()) {
                joined.set(
                        joined.size() - 1,
                        new Stretch(last.fromSeconds(), Math.max(last.toSeconds(), next.toSeconds())));
            } else {
                joined.add(next);
            }
        }
        return joined;
    }

    /** What happened in the recording, told in the waveform; slips that the cycles show already are among it. */
    private ShaftEvents events(FirstPass first, CycleTimes cycles, Tachometer tachometer, List<RecorderFault> slips)
            throws IOException {
        List<Stretch> places = slips.stream().map(RecorderFault::where).toList();
        RoughAngle rough = RoughAngle.of(places.isEmpty() ? cycles : cycles.without(places), tachometer, places);
        Optional<LocalModel> model = LocalModel.learn(first.waveform(), rough, first.mainsHz());
        ShaftEvents told = model.isPresent() ? new EventFinder(model.get()).find() : ShaftEvents.NONE;
        return told.with(slips);
    }

    private double clockPpm(SampleFormat format) {
        return settings.clockTolerancePpm()
                .orElse(format.kind() == SampleFormat.RecorderKind.SCOPE ? SCOPE_CLOCK_PPM : SOUND_CARD_CLOCK_PPM);
    }
}
