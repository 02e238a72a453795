package org.steadyshaft.analysis;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import org.steadyshaft.condition.TachoLevel;
import org.steadyshaft.published.Mains;
import org.steadyshaft.ripple.OrderSpectrum;
import org.steadyshaft.ripple.RippleReading;
import org.steadyshaft.signal.CycleTimes;
import org.steadyshaft.signal.DoubleSeries;
import org.steadyshaft.signal.Finding;
import org.steadyshaft.signal.FindingCode;
import org.steadyshaft.signal.FundamentalTrack;
import org.steadyshaft.signal.SampleRange;
import org.steadyshaft.signal.SampleSource;
import org.steadyshaft.signal.SpeedTrack;
import org.steadyshaft.signal.Tachometer;
import org.steadyshaft.speed.MeanSpeed;
import org.steadyshaft.speed.ShortTone;
import org.steadyshaft.speed.ShortToneFinder;
import org.steadyshaft.speed.SpeedTrackMaker;
import org.steadyshaft.speed.Uncertainty;
import org.steadyshaft.stability.AlarmFinder;

/**
 * A recording of a few cycles, such as one screen of a scope: too short for frames and filters, so the tone is fitted as a whole. What
 * comes of it is a speed and nothing of its steadiness.
 */
final class ShortCapture {
    /** Longer recordings go through frames. */
    private static final long MOST_SAMPLES = 20_000;

    /** From so many cycles on frames and filters do better: they follow the speed. */
    private static final double MOST_CYCLES = 24;

    private final AnalysisSettings settings;
    private final SampleSource source;
    private final double clockPpm;
    private final int channel;
    private final ShortTone tone;

    private ShortCapture(AnalysisSettings settings, SampleSource source, double clockPpm, int channel, ShortTone tone) {
        this.settings = settings;
        this.source = source;
        this.clockPpm = clockPpm;
        this.channel = channel;
        this.tone = tone;
    }

    /**
     * Looks at channels as a whole.
     *
     * @param first what frames showed; where they show nothing, a tone of too few cycles is told
     * @return empty for a recording that is long, or in which nothing but noise was found
     */
    static Optional<ShortCapture> of(
            AnalysisSettings settings, SampleSource source, FirstPass first, int from, int to, double clockPpm)
            throws IOException {
        if (source.samples() > MOST_SAMPLES || source.samples() < 1) {
            return Optional.empty();
        }
        double[][] values;
        try (SampleRange range = new SampleRange(source, 0)) {
            values = range.next((int) source.samples());
        }
        List<ShortCapture> found = new ArrayList<>();
        for (int c = from; c < to; c++) {
            double step = source.format()
                    .step()
                    .orElse(c == first.channel() ? first.levels().step() : 0);
            int number = c;
            new ShortToneFinder(source.sampleRateHz(), step)
                    .find(values[c], MOST_CYCLES)
                    .ifPresent(tone -> found.add(new ShortCapture(settings, source, clockPpm, number, tone)));
        }
        return found.stream()
                .filter(s -> s.worth() > 0)
                .max((a, b) -> Double.compare(a.worth(), b.worth()))
                .filter(s -> !(s.tone instanceof ShortTone.TooFewCycles)
                        || first.refusal().isPresent());
    }

    /** How much a channel says: a tone that is not the mains most, the clearest of several; too few cycles least. */
    private double worth() {
        if (tone instanceof ShortTone.Found found) {
            double clear = found.amplitude() / (found.amplitude() + found.noise());
            return found.cycles() > MOST_CYCLES ? 0 : mains(found).isPresent() ? 2 + clear : 3 + clear;
        }
        return tone instanceof ShortTone.TooFewCycles ? 1 : 0;
    }

    int channel() {
        return channel;
    }

    /** Why no speed can be told; empty where one can. */
    Optional<Finding> refusal() {
        if (tone instanceof ShortTone.Found found) {
            return mains(found).map(ShortCapture::mayBeMains);
        }
        double cycles = ((ShortTone.TooFewCycles) tone).cycles();
        return Optional.of(Finding.stop(
                FindingCode.TOO_SHORT,
                say(
                        "The recording shows only %.1f cycles of a tone; a speed needs %.0f, better ten or more. Choose a slower time"
                                + " base, so that the screen shows more cycles, or a longer memory.",
                        cycles, ShortToneFinder.FEWEST_CYCLES)));
    }

    /** The multiple of the mains frequency that the tone may be, for all so few cycles can tell; empty if it is none. */
    private Optional<Double> mains(ShortTone.Found found) {
        for (int order = 1; order <= 2; order++) {
            double hz = order * settings.mainsHz();
            double reach = Mains.REACH * hz + 2 * Math.hypot(found.standardErrorHz(), found.unseenHz());
            if (Math.abs(found.frequencyHz() - hz) < reach) {
                return Optional.of(hz);
            }
        }
        return Optional.empty();
    }

    private static Finding mayBeMains(double mainsHz) {
        return Finding.stop(
                FindingCode.NO_ROTATION,
                say(
                        "The few cycles recorded have the frequency of the mains or twice that, %.0f Hz: they may be pick-up as well as"
                                + " the tacho, and so short a recording cannot tell which. Record ten seconds or more, or a little"
                                + " faster or slower.",
                        mainsHz));
    }

    /** What each channel carries. */
    List<ChannelRole> roles(List<ChannelRole> ofFrames) {
        List<ChannelRole> roles = new ArrayList<>(ofFrames);
        if (roles.size() != source.channels()) {
            roles = new ArrayList<>(Collections.nCopies(source.channels(), ChannelRole.NOT_LOOKED_AT));
        }
        for (int c = 0; c < roles.size(); c++) {
            if (roles.get(c) == ChannelRole.TACHO) {
                roles.set(c, ChannelRole.OTHER);
            }
        }
        if (refusal().isEmpty()) {
            roles.set(channel, ChannelRole.TACHO);
        }
        return roles;
    }

    /** How many cycles there are, and what they are not enough for. */
    Finding tooFew() {
        ShortTone.Found found = (ShortTone.Found) tone;
        return Finding.caution(
                FindingCode.TOO_SHORT,
                say(
                        "Only %.1f cycles of the tacho: enough for a speed by a sine fit, with the uncertainty told, not for steadiness."
                                + " Ten seconds give ripple and hunting, two minutes give a rate of blips.",
                        found.cycles()));
    }

    /** The speed and what goes with it; to be asked for where there is no refusal. */
    Rotation rotation() {
        ShortTone.Found found = (ShortTone.Found) tone;
        Tachometer tachometer = new Tachometer(settings.polePairs());
        CycleTimes.Builder times = new CycleTimes.Builder();
        found.risingSeconds().stream().forEach(times::add);
        SpeedTrack track = new SpeedTrackMaker(tachometer).make(times.build(), Optional.empty());
        double seconds = source.samples() / source.sampleRateHz();
        FundamentalTrack whole = new FundamentalTrack(
                0.5 * seconds,
                seconds,
                seconds,
                one(found.frequencyHz()),
                one(found.amplitude()),
                one(0),
                one(found.noise()));
        return new Rotation(
                speed(found, tachometer, track),
                TachoLevel.of(source.format(), whole),
                Optional.empty(),
                track,
                whole,
                List.of(),
                RippleReading.NONE,
                OrderSpectrum.NONE,
                Optional.empty(),
                List.of(),
                Optional.empty(),
                List.of(),
                List.of(),
                List.of(),
                new AlarmFinder(settings.mostRpm(), seconds, s -> false).find(track, List.of(), List.of()),
                List.of(),
                Optional.empty());
    }

    private MeanSpeed speed(ShortTone.Found found, Tachometer tachometer, SpeedTrack track) {
        double rpm = tachometer.rpm(found.frequencyHz());
        double slowest = rpm;
        double fastest = rpm;
        for (int i = 0; i < track.size(); i++) {
            slowest = Math.min(slowest, track.speedRpm(i));
            fastest = Math.max(fastest, track.speedRpm(i));
        }
        double turns = track.size() * rpm / found.frequencyHz();
        double crossingRpm = turns / (track.toSeconds(track.size() - 1) - track.fromSeconds(0));
        double step = source.format().step().orElse(0);
        double samples = source.samples();
        // the bound of Rife and Boorstyn for white noise of a step / sqrt(12)
        double stepShare =
                Math.sqrt(24 / samples) * step / Math.sqrt(12) / found.amplitude() / (2 * Math.PI * found.cycles());
        return new MeanSpeed(
                rpm,
                crossingRpm,
                track.size(),
                new Uncertainty(
                        tachometer.rpm(found.standardErrorHz()),
                        rpm * stepShare,
                        tachometer.rpm(found.unseenHz()),
                        rpm * Uncertainty.clockShare(clockPpm)),
                slowest,
                fastest,
                OptionalDouble.of(rpm),
                OptionalDouble.empty(),
                OptionalDouble.empty(),
                OptionalDouble.empty());
    }

    private static DoubleSeries one(double value) {
        return DoubleSeries.of(new double[] {value});
    }

    private static String say(String format, Object... values) {
        return String.format(Locale.ROOT, format, values);
    }
}
