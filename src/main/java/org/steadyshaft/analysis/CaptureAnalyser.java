package org.steadyshaft.analysis;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.function.Supplier;
import org.steadyshaft.condition.ConditionJudge;
import org.steadyshaft.condition.GapFinder;
import org.steadyshaft.condition.TachoLevel;
import org.steadyshaft.response.LoadEventFinder;
import org.steadyshaft.response.StepFinder;
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
import org.steadyshaft.speed.FaintRows;
import org.steadyshaft.speed.MeanSpeed;
import org.steadyshaft.speed.MeanSpeedMeter;
import org.steadyshaft.speed.NoteJumps;
import org.steadyshaft.speed.PhaseJumpFinder;
import org.steadyshaft.speed.PolePattern;
import org.steadyshaft.speed.PolePatternLearner;
import org.steadyshaft.speed.SineMean;
import org.steadyshaft.speed.SpeedTrackMaker;
import org.steadyshaft.speed.ToothedWheel;
import org.steadyshaft.speed.TurnBreaks;
import org.steadyshaft.stability.AlarmFinder;
import org.steadyshaft.stability.AllanMeter;
import org.steadyshaft.stability.Blip;
import org.steadyshaft.stability.BlipDetector;
import org.steadyshaft.stability.BlipRhythm;
import org.steadyshaft.stability.Blips;
import org.steadyshaft.stability.DriftMeter;
import org.steadyshaft.stability.Folding;
import org.steadyshaft.stability.HuntingMeter;
import org.steadyshaft.stability.LineFinder;
import org.steadyshaft.stability.OrderMeter;
import org.steadyshaft.stability.RippleLine;
import org.steadyshaft.stability.RippleMeter;
import org.steadyshaft.stability.RippleSpectrum;
import org.steadyshaft.stability.SteadyFinder;

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

    /** So many jumps from pitch to pitch are no accident of a recorder. */
    private static final int FEWEST_JUMPS = 4;

    /** A tone is taken for shifted mains from this share of the tacho's level on. */
    private static final double LEAST_MAINS_SHARE = 0.01;

    /** Blips hide lines and lines hide blips: each is sought again without the other until nothing changes, this often. */
    private static final int STEADINESS_ROUNDS = 4;

    /** Blips shown close up; more would hide the page. */
    private static final int MOST_CLOSE_UPS = 12;

    private final AnalysisSettings settings;

    public CaptureAnalyser(AnalysisSettings settings) {
        this.settings = settings;
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
        List<Stretch> gaps = new GapFinder().find(looked.levels(), looked.track());
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
            return new CaptureAnalyser(marked).rotating(source, looked, facts, label, findings);
        }
        FirstPass first = toothed.map(t -> looked.with(t.track())).orElse(looked);
        wheel.ifPresent(found -> findings.addAll(missingTeeth(found)));
        CycleTimes cycles = wheel.isPresent() ? wheel.get().cycles() : new FaintRows(looked.waveform()).without(raw);
        if (cycles.cycles() < FEWEST_CYCLES) {
            findings.add(tooShort(cycles.cycles()));
            return outcome(facts, label, findings, Optional.empty(), extract);
        }
        findings.addAll(new ConditionJudge(facts.format(), facts.sampleRateHz())
                .judge(first.levels(), first.spikes(), first.track(), gaps, first.humAmplitude(), cycles.cycles()));
        suspectRate(first).ifPresent(findings::add);
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
        if (NoteJumps.count(raw) >= FEWEST_JUMPS) {
            findings.add(
                    Finding.stop(
                            FindingCode.NO_ROTATION,
                            "The tone jumps again and again from one steady pitch to another, which the inertia of a shaft does not let it"
                                    + " do: music or a signal tone, not a tacho. Check what was recorded, and that the tacho was connected."));
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
                    FindingCode.METHODS_DISAGREE,
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

    /** The mains where it cannot be: the header's sample rate is not the recorder's. */
    private Optional<Finding> suspectRate(FirstPass first) {
        double amplitude = first.meanAmplitude();
        double hz = first.track().frequencyHz(first.track().nearestFrame(first.rotatingMiddleSeconds()));
        OptionalDouble shifted = first.hum().shiftedMainsHz(hz, settings.polePairs(), LEAST_MAINS_SHARE * amplitude);
        if (shifted.isEmpty()) {
            return Optional.empty();
        }
        double factor = settings.mainsHz() / shifted.getAsDouble();
        return Optional.of(Finding.caution(
                FindingCode.RATE_SUSPECT,
                String.format(
                        Locale.ROOT,
                        "A steady tone at %.2f Hz looks like mains pick-up, which must lie at %.0f Hz. If it is, the true sample"
                                + " rate is %.4f times the one in the file (%.0f Hz), and every speed and time is wrong by that."
                                + " Check the recorder's settings.",
                        shifted.getAsDouble(),
                        settings.mainsHz(),
                        factor,
                        factor * first.sampleRateHz())));
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
            List<Finding> findings)
            throws IOException {
        Tachometer tachometer = new Tachometer(settings.polePairs());
        Optional<PolePattern> pattern = new PolePatternLearner(tachometer).learn(counted);
        SpeedTrack whole = new SpeedTrackMaker(tachometer).make(counted, pattern);
        List<Stretch> jumps = new PhaseJumpFinder().find(whole);
        jumps.forEach(jump -> findings.add(lostSamples(jump)));
        CycleTimes cycles = jumps.isEmpty() ? counted : counted.without(jumps);
        SpeedTrack track = jumps.isEmpty() ? whole : new SpeedTrackMaker(tachometer).make(cycles, pattern);
        double step = format.step().orElse(first.levels().step());
        MeanSpeed speed = new MeanSpeedMeter(tachometer, clockPpm(format), first.sampleRateHz(), step)
                .measure(cycles, track, first.track(), jumps.isEmpty() ? sine : Optional.empty());
        findings.addAll(new SpeedDoubts(settings, first).of(speed, cycles));
        SpeedRange.doubt(speed.meanRpm(), settings.polePairs()).ifPresent(findings::add);
        double cycleHz = tachometer.cycleHz(speed.meanRpm());
        Folding.advice(settings.mainsHz(), cycleHz).ifPresent(findings::add);
        List<Stretch> steady = new SteadyFinder().find(track);
        Swings swings = swings(track, steady, tachometer, first);
        List<Blip> events = swings.blips.map(Blips::events).orElse(List.of());
        List<Stretch> blipStretches = events.stream()
                .map(b -> new Stretch(b.fromSeconds(), b.toSeconds()))
                .toList();
        List<RippleLine> lines = swings.spectrum.lines();
        return new Rotation(
                speed,
                TachoLevel.of(format, first.track()),
                pattern,
                track,
                first.track(),
                steady,
                new RippleMeter().measure(track, steady, events),
                swings.spectrum,
                new OrderMeter(tachometer).measure(track, steady, events),
                new HuntingMeter().measure(track, steady, lines),
                swings.blips,
                new BlipRhythm(settings.mainsHz(), hum).remarks(events, cycleHz),
                new DriftMeter().measure(track, steady, blipStretches),
                new AllanMeter().measure(track, steady),
                new StepFinder().find(track, steady),
                new LoadEventFinder().find(track, steady, blipStretches),
                new AlarmFinder(settings.mostRpm(), first.waveform().durationSeconds()).find(track, steady, gaps),
                closeUps(extractor, events));
    }

    /** Ripple lines and blips of a recording. */
    private record Swings(RippleSpectrum spectrum, Optional<Blips> blips) {}

    private Swings swings(SpeedTrack track, List<Stretch> steady, Tachometer tachometer, FirstPass first) {
        LineFinder lineFinder = new LineFinder(
                tachometer, settings.mainsHz(), first.humRatio(), first.hum().frequencyHz());
        RippleSpectrum spectrum = RippleSpectrum.NONE;
        Optional<Blips> blips = Optional.empty();
        List<Blip> events = List.of();
        for (int round = 0; round < STEADINESS_ROUNDS; round++) {
            spectrum = lineFinder.find(track, steady, events);
            blips = new BlipDetector(settings.mainsHz()).detect(track, steady, spectrum.lines());
            List<Blip> found = blips.map(Blips::events).orElse(List.of());
            if (found.equals(events)) {
                break;
            }
            events = found;
        }
        return new Swings(spectrum, blips);
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

    private static Finding lostSamples(Stretch jump) {
        return Finding.caution(
                FindingCode.GAP,
                String.format(
                        Locale.ROOT,
                        "The tacho's phase jumps at %.3f s and its speed does not: the recorder lost samples there. The place is"
                                + " left out of every figure. Close other programs while recording.",
                        0.5 * (jump.fromSeconds() + jump.toSeconds())),
                jump);
    }

    private double clockPpm(SampleFormat format) {
        return settings.clockTolerancePpm()
                .orElse(format.kind() == SampleFormat.RecorderKind.SCOPE ? SCOPE_CLOCK_PPM : SOUND_CARD_CLOCK_PPM);
    }
}
