package org.steadyshaft.report;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.steadyshaft.analysis.AnalysisSettings;
import org.steadyshaft.analysis.Outcome;
import org.steadyshaft.analysis.Rotation;
import org.steadyshaft.blip.Blip;
import org.steadyshaft.blip.BlipCause;
import org.steadyshaft.blip.Blips;
import org.steadyshaft.ripple.Ripple;
import org.steadyshaft.ripple.RippleLine;
import org.steadyshaft.ripple.SteadySecond;
import org.steadyshaft.signal.Finding;
import org.steadyshaft.signal.FindingCode;
import org.steadyshaft.signal.Stretch;
import org.steadyshaft.stability.Drift;

/**
 * What the measures mean, in plain words: how steady, what disturbs it.
 *
 * @param sentences in order
 */
public record Verdict(List<String> sentences) {
    private static final int MOST_LINES = 3;

    public Verdict {
        sentences = List.copyOf(sentences);
    }

    static Verdict of(Outcome outcome) {
        if (outcome instanceof Outcome.Analysed analysed && analysed.rotation().isPresent()) {
            return turning(analysed, analysed.rotation().get());
        }
        return new Verdict(outcome.findings().stream().map(f -> f.text()).toList());
    }

    /** Single pick-ups are uneven by 1 to 3 % (practice). */
    private static final double DOUBTED_SPACING_PERCENT = 3;

    private static Verdict turning(Outcome.Analysed outcome, Rotation rotation) {
        List<String> sentences = new ArrayList<>();
        if (outcome.settings().polePairsFrom() == AnalysisSettings.PolePairsFrom.ASSUMED) {
            sentences.add(say(
                    "Nobody said how many pole pairs the tacho has: %d were assumed, as many motors have (common practice)."
                            + " If it has another number, every speed is wrong by that ratio; steadiness in %% is not.",
                    outcome.settings().polePairs()));
        }
        steadiness(rotation, sentences);
        Optional<Finding> poles = outcome.findings().stream()
                .filter(f -> f.code() == FindingCode.POLE_COUNT)
                .findFirst();
        poles.ifPresent(f -> sentences.add(0, f.text()));
        if (poles.isEmpty()) {
            rotation.blips().ifPresent(blips -> sentences.add(blips(blips)));
        }
        sentences.addAll(rotation.blipRemarks());
        rotation.pattern()
                .filter(p -> p.largestPercent() > DOUBTED_SPACING_PERCENT)
                .ifPresent(p -> sentences.add(say(
                        "Every turn repeats: either the tacho's poles are uneven by up to %.1f %% of a pitch, more than most magnets (1"
                                + " to 3 %%, practice), or the speed swings by so much each turn. One speed cannot tell; record at"
                                + " another: the poles' spacing stays, a swing changes. It is in no figure here.",
                        p.largestPercent())));
        hunting(rotation, sentences);
        disturbances(rotation, sentences);
        return new Verdict(sentences);
    }

    /** Figures of less than this share of the steady running say so. */
    private static final double MOSTLY = 0.5;

    /** Figures that hold from here on, of a run of more than so many seconds, were read second by second. */
    private static final double SINGLE_SECONDS_HZ = 1;

    private static final double SINGLE_SECONDS_OF = 5;

    private static void steadiness(Rotation rotation, List<String> sentences) {
        if (rotation.ripple().isEmpty() && !rotation.steady().isEmpty()) {
            sentences.add(
                    "The steady running is too short, or too broken, for its ripple to be told: record ten seconds or more.");
            return;
        }
        if (rotation.ripple().isEmpty()) {
            sentences.add(say(
                    "The speed never settled: it ran from %.1f to %.1f rpm. Ripple and blips are measured at a steady speed"
                            + " only; let it settle and record ten seconds or more.",
                    rotation.speed().slowestRpm(), rotation.speed().fastestRpm()));
            return;
        }
        double steady =
                rotation.steady().stream().mapToDouble(Stretch::durationSeconds).sum();
        Ripple ripple = rotation.ripple().get();
        int blips = rotation.blips().map(b -> b.events().size()).orElse(0);
        sentences.add(say(
                (blips > 0 ? "Between its jumps" : "While it ran steadily")
                        + " (%.1f s%s) the speed stayed within %s %% from lowest to highest and %s %% rms of the mean"
                        + " (k = 2; %s to %.0f Hz), noise, hum, blips and slow drift left out.",
                steady,
                readOf(rotation, ripple, steady),
                Numbers.significant(ripple.peakToPeakPercent(), 3),
                Numbers.withUncertainty(ripple.rmsPercent(), ripple.expandedRmsPercent()),
                Numbers.significant(ripple.bandFromHz(), 2),
                ripple.bandToHz()));
        ripple.twiceMains()
                .untold()
                .ifPresent(untold -> sentences.add(say(
                        "The swing at twice the mains cannot be told, and is in none of these figures: %s.",
                        UntoldWords.of(ripple.twiceMains().frequencyHz(), untold))));
    }

    /** What of steady running the figures are of, where blips and their tails leave but a part of it, or no level at all. */
    private static String readOf(Rotation rotation, Ripple ripple, double steadySeconds) {
        if (ripple.bandFromHz() >= SINGLE_SECONDS_HZ && steadySeconds > SINGLE_SECONDS_OF) {
            return "; each second beside its own course, since jumps come before the last one has faded";
        }
        double read = rotation.rippleReading().seconds().stream()
                .mapToDouble(SteadySecond::seconds)
                .sum();
        return read < MOSTLY * steadySeconds
                ? say("; read in %.0f s of it, away from blips and their tails", read)
                : "";
    }

    private static String blips(Blips blips) {
        String limits = say(
                "(95 %% sure: %.1f to %.1f a minute, if they come by chance)",
                blips.perMinuteLow(), blips.perMinuteHigh());
        if (blips.events().isEmpty()) {
            return say(
                    "No blip of more than %s %% was seen in %.1f minutes %s.",
                    Numbers.significant(blips.smallestPercent(), 2), blips.minutes(), limits);
        }
        Blip worst = blips.events().get(0);
        Map<BlipCause, Integer> causes = new EnumMap<>(BlipCause.class);
        for (Blip blip : blips.events()) {
            worst = Math.abs(blip.peakPercent()) > Math.abs(worst.peakPercent()) ? blip : worst;
            causes.merge(blip.cause(), 1, Integer::sum);
        }
        StringBuilder text = new StringBuilder(say(
                "%d blip%s in %s %s; the largest %+.1f %% at %.2f s.",
                blips.events().size(),
                blips.events().size() == 1 ? "" : "s",
                span(blips.minutes()),
                limits,
                worst.peakPercent(),
                worst.peakSeconds()));
        causes.forEach((cause, count) -> text.append(say(" %d: %s.", count, cause.explanation())));
        return text.toString();
    }

    private static String span(double minutes) {
        return minutes < 2 ? say("%.1f s", 60 * minutes) : say("%.1f minutes", minutes);
    }

    private static void hunting(Rotation rotation, List<String> sentences) {
        rotation.hunting()
                .ifPresent(hunting -> sentences.add(say(
                        "The speed hunts: it swings by %s %% to either side %.2f times a second; the swing is %s.",
                        Numbers.significant(hunting.amplitudePercent(), 2),
                        hunting.frequencyHz(),
                        hunting.trend().word())));
        rotation.drift()
                .filter(Drift::significant)
                .ifPresent(drift -> sentences.add(say(
                        "The speed drifts by %s %% a minute (95 %% sure: %s to %s).",
                        Numbers.significant(drift.percentPerMinute(), 2),
                        Numbers.significant(drift.low95(), 2),
                        Numbers.significant(drift.high95(), 2))));
    }

    private static void disturbances(Rotation rotation, List<String> sentences) {
        List<RippleLine> lines = rotation.spectrum().lines();
        if (lines.isEmpty() && rotation.ripple().isPresent()) {
            sentences.add("No regular ripple stands clear of the noise.");
        }
        for (RippleLine line : lines.stream().limit(MOST_LINES).toList()) {
            sentences.add(say(
                    "Regular swing of %s %% at %.2f Hz: %s (%s certainty).",
                    Numbers.significant(line.amplitudePercent(), 2),
                    line.frequencyHz(),
                    line.cause().explanation(),
                    line.certainty().name().toLowerCase(Locale.ROOT)));
        }
    }

    private static String say(String format, Object... values) {
        return String.format(Locale.ROOT, format, values);
    }
}
