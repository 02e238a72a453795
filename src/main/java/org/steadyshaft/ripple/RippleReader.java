package org.steadyshaft.ripple;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.steadyshaft.numeric.Moments;
import org.steadyshaft.signal.DoubleSeries;
import org.steadyshaft.signal.SpeedTrack;
import org.steadyshaft.signal.Stretch;
import org.steadyshaft.signal.Tachometer;
import org.steadyshaft.voltage.HumLine;
import org.steadyshaft.voltage.MainsReading;
import org.steadyshaft.voltage.SpeedLine;
import org.steadyshaft.voltage.WaveformReading;

/**
 * Puts the ripple together: fast lines from the waveform, slow ones from the cycles freed of the fast, each once. The rms is that of the
 * proven lines and of the slow speed above its noise.
 */
public final class RippleReader {
    /** A line that stands this many expanded uncertainties above nothing has a sure cause. */
    private static final double SURE = 5;

    /** Beside an order or pick-up that makes its variance this many times larger, a line's cause is no more than likely. */
    private static final double LESS_SURE_INFLATION = 1.5;

    /** So near to a harmonic of the tacho any step of its level looks like a line. Our own figure. */
    private static final double BESIDE_HARMONIC_HZ = 1;

    /** The pick-up that is told of stands this many standard uncertainties above nothing. */
    private static final double SEEN_HUM = 5;

    private final Tachometer tachometer;
    private final DriveHints hints;
    private final List<Double> jumps;
    private final boolean amongTails;

    /**
     * @param hints what the user said of the drive
     * @param jumps when jumps begin that come faster than they fade [s]: the speed is nowhere at one level, and nothing slower than a second is
     *     told; empty where there are none
     */
    public RippleReader(Tachometer tachometer, DriveHints hints, List<Double> jumps) {
        this.tachometer = tachometer;
        this.hints = hints;
        this.jumps = List.copyOf(jumps);
        this.amongTails = !jumps.isEmpty();
    }

    /**
     * Reads the ripple.
     *
     * @param reading what the waveform told of the same stretches
     * @param steady stretches of steady running
     * @param leftOut events inside them, in order, tails included
     */
    public RippleReading read(WaveformReading reading, SpeedTrack track, List<Stretch> steady, List<Stretch> leftOut) {
        double meanRpm = tachometer.rpm(tachometer.polePairs() * reading.shaftHz());
        SpeedTrack calm = CalmTrack.of(track, reading.motion(), meanRpm);
        SlowLineFinder.Found slow = amongTails
                ? SlowLineFinder.Found.NOTHING
                : new SlowLineFinder(reading.fromHz()).find(calm, steady, leftOut);
        List<RippleLine> lines = lines(reading, slow);
        List<SteadySecond> seconds =
                amongTails ? SpeedPicture.secondsAmong(reading, steady, jumps) : SpeedPicture.seconds(reading, steady);
        RippleSpectrum spectrum = spectrum(reading, slow, lines);
        Optional<Ripple> ripple = seconds.isEmpty()
                ? Optional.empty()
                : Optional.of(ripple(reading, steady, seconds, noise(calm, steady, leftOut, seconds)));
        // a loop may swing as fast as the waveform's lines begin: only the mains is taken out for it
        SpeedTrack swinging = CalmTrack.of(track, reading.mainsMotion(), meanRpm);
        Optional<Hunting> hunting = amongTails ? Optional.empty() : new HuntingMeter().measure(swinging, steady, lines);
        return new RippleReading(ripple, spectrum, seconds, hunting);
    }

    private List<RippleLine> lines(WaveformReading reading, SlowLineFinder.Found slow) {
        double shaftHz = reading.shaftHz();
        List<RippleLine> lines = new ArrayList<>();
        for (SpeedLine line : reading.lines()) {
            CauseFinder.Verdict verdict = line.mainsMultiple() > 0
                    ? new CauseFinder.Verdict(CauseFinder.ofMultiple(line.mainsMultiple()), certainty(reading, line))
                    : new CauseFinder(shaftHz, 1 / reading.pieceSeconds(), hints)
                            .causeOf(line.hz(), line.amplitudePercent(), true);
            lines.add(new RippleLine(
                    line.hz(),
                    line.amplitudePercent(),
                    line.expandedPercent(),
                    verdict.cause(),
                    verdict.certainty(),
                    ReadFrom.WAVEFORM,
                    line.hz() / shaftHz));
        }
        for (SlowLineFinder.Tone tone : slow.tones()) {
            CauseFinder.Verdict verdict =
                    new CauseFinder(shaftHz, 1.5 * slow.binHz(), hints).causeOf(tone.hz(), tone.percent(), false);
            lines.add(new RippleLine(
                    tone.hz(),
                    tone.percent(),
                    tone.expandedPercent(),
                    verdict.cause(),
                    verdict.certainty(),
                    ReadFrom.CYCLES,
                    tone.hz() / shaftHz));
        }
        lines.sort(Comparator.comparingDouble(RippleLine::amplitudePercent).reversed());
        return lines;
    }

    private Certainty certainty(WaveformReading reading, SpeedLine line) {
        if (!reading.mainsSeen() || line.amplitudePercent() < line.expandedPercent()) {
            return Certainty.LOW;
        }
        double cycleHz = tachometer.polePairs() * reading.shaftHz();
        double harmonic = cycleHz * Math.max(1, Math.rint(line.hz() / cycleHz));
        if (Math.abs(line.hz() - harmonic) < BESIDE_HARMONIC_HZ) {
            return Certainty.LOW;
        }
        boolean sure =
                line.amplitudePercent() > SURE * line.expandedPercent() && line.inflation() < LESS_SURE_INFLATION;
        return sure ? Certainty.HIGH : Certainty.MEDIUM;
    }

    private Ripple ripple(
            WaveformReading reading, List<Stretch> steady, List<SteadySecond> seconds, double noisePercent) {
        Moments slowSquares = new Moments();
        double lineSquares = 0;
        double low = Double.POSITIVE_INFINITY;
        double high = Double.NEGATIVE_INFINITY;
        for (SteadySecond second : seconds) {
            slowSquares.add(second.slowSquare());
            lineSquares += second.lineSquare() / seconds.size();
            low = Math.min(low, second.lowPercent());
            high = Math.max(high, second.highPercent());
        }
        double square = Math.max(0, slowSquares.mean()) + lineSquares;
        double ofLines = 0;
        for (SpeedLine line : reading.lines()) {
            double part = line.amplitudePercent() * line.standardUncertaintyPercent();
            ofLines += part * part;
        }
        double ofSlow = seconds.size() > 1 ? slowSquares.deviation() / Math.sqrt(seconds.size()) : square;
        double rms = Math.sqrt(square);
        double standard = rms > 0 ? Math.hypot(Math.sqrt(ofLines), ofSlow) / (2 * rms) : 0;
        return new Ripple(
                high - low,
                rms,
                2 * standard,
                amongTails ? 1 / SpeedPicture.SECOND : 1 / longest(steady, seconds),
                reading.toHz(),
                noisePercent,
                of(reading.mains().get(2), reading.others()),
                of(reading.mains().get(1), reading.others()));
    }

    /**
     * The longest time over which deviations from one straight line were read [s]: a swing slower than one over it is taken for drift.
     */
    private static double longest(List<Stretch> steady, List<SteadySecond> seconds) {
        double longest = 0;
        for (Stretch stretch : steady) {
            double from = Double.POSITIVE_INFINITY;
            double to = Double.NEGATIVE_INFINITY;
            for (SteadySecond second : seconds) {
                if (stretch.contains(second.fromSeconds())) {
                    from = Math.min(from, second.fromSeconds());
                    to = Math.max(to, second.fromSeconds() + second.seconds());
                }
            }
            longest = Math.max(longest, to - from);
        }
        return Math.max(1, longest);
    }

    private static MainsRipple of(MainsReading reading, int others) {
        if (reading instanceof MainsReading.Told told) {
            return new MainsRipple(
                    told.hz(),
                    Optional.of(new MainsRipple.Figure(
                            told.line().amplitudePercent(), told.line().expandedPercent(), others)),
                    Optional.empty());
        }
        MainsReading.NotTellable none = (MainsReading.NotTellable) reading;
        Untold untold = new Untold(
                Untold.Why.valueOf(none.why().name()),
                none.order(),
                none.seconds(),
                none.hiddenPercent(),
                none.slowerRpm(),
                none.fasterRpm());
        return new MainsRipple(none.hz(), Optional.empty(), Optional.of(untold));
    }

    /** What is in the value of a cycle beyond lines and slow speed. */
    private static double noise(
            SpeedTrack calm, List<Stretch> steady, List<Stretch> leftOut, List<SteadySecond> seconds) {
        SteadySpeed speed = new SteadySpeed(calm, steady);
        leftOut.forEach(event -> speed.level(event.fromSeconds(), event.toSeconds()));
        Moments all = new Moments();
        for (SteadySpeed.Piece piece : speed.pieces()) {
            for (int i = 0; i < piece.cycles(); i++) {
                if (!piece.leftOut[i]) {
                    all.add(piece.deviationPercent[i]);
                }
            }
        }
        double slow =
                seconds.stream().mapToDouble(SteadySecond::slowSquare).average().orElse(0);
        return all.count() == 0 ? 0 : Math.sqrt(Math.max(0, all.rms() * all.rms() - slow));
    }

    private static RippleSpectrum spectrum(WaveformReading reading, SlowLineFinder.Found slow, List<RippleLine> lines) {
        DoubleSeries.Builder hz = new DoubleSeries.Builder();
        DoubleSeries.Builder percent = new DoubleSeries.Builder();
        for (int k = 0; k < slow.frequencyHz().size(); k++) {
            hz.add(slow.frequencyHz().get(k));
            percent.add(slow.amplitudePercent().get(k));
        }
        double last = slow.frequencyHz().isEmpty() ? 0 : slow.frequencyHz().last();
        for (int k = 0; k < reading.spectrumHz().size(); k++) {
            if (reading.spectrumHz().get(k) > last) {
                hz.add(reading.spectrumHz().get(k));
                percent.add(reading.spectrumPercent().get(k));
            }
        }
        List<Double> hum = reading.hum().stream()
                .filter(h -> h.volts() > SEEN_HUM * h.standardUncertaintyVolts())
                .map(HumLine::hz)
                .toList();
        List<Double> hidden = reading.mains().values().stream()
                .filter(m -> m instanceof MainsReading.NotTellable)
                .map(MainsReading::hz)
                .sorted()
                .toList();
        return new RippleSpectrum(hz.build(), percent.build(), lines, hum, hidden);
    }
}
