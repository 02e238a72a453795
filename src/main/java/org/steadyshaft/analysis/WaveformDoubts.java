package org.steadyshaft.analysis;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.steadyshaft.condition.HumJudge;
import org.steadyshaft.signal.Finding;
import org.steadyshaft.signal.FindingCode;
import org.steadyshaft.voltage.HumLine;
import org.steadyshaft.voltage.MainsReading;
import org.steadyshaft.voltage.WaveformReading;

/**
 * What the pick-up says of the recording: its level, and whether the mains stands where it cannot be. Taken from the fit of the waveform,
 * in which the tacho is no part of it; where that could not be made, from the spectrum.
 */
final class WaveformDoubts {
    /** The mains stays within 1 % for 99.5 % of a year (EN 50160, power frequency); beyond, the sample rate is wrong. */
    private static final double MOST_OFF = 0.01;

    /** A tone is known from this many standard uncertainties on. */
    private static final double KNOWN = 5;

    /** The two usual frequencies of the mains add up to this [Hz]. */
    private static final double OTHER_USUAL = 110;

    private final AnalysisSettings settings;
    private final FirstPass first;

    WaveformDoubts(AnalysisSettings settings, FirstPass first) {
        this.settings = settings;
        this.first = first;
    }

    List<Finding> of(Optional<WaveformReading> reading) {
        List<Finding> findings = new ArrayList<>();
        reading.map(r -> r.mains().get(2)).ifPresent(twice -> unseen(twice).ifPresent(findings::add));
        if (first.levels().isLogic()) {
            return findings;
        }
        if (Math.abs(first.mainsHz() / settings.mainsHz() - 1) > MOST_OFF) {
            findings.add(wrongRate(first.hum().frequencyHz().orElse(first.mainsHz())));
        }
        if (reading.isEmpty()) {
            if (first.meanAmplitude() > 0 && first.hum().amplitude().isPresent()) {
                new HumJudge()
                        .judge(first.hum().amplitude().getAsDouble(), first.meanAmplitude())
                        .ifPresent(findings::add);
            }
            return findings;
        }
        double hum = 0;
        for (HumLine line : reading.get().hum()) {
            boolean known = line.volts() > KNOWN * line.standardUncertaintyVolts();
            hum = known && line.mainsMultiple() > 0 ? Math.max(hum, line.volts()) : hum;
        }
        new HumJudge().judge(hum, reading.get().tachoVolts()).ifPresent(findings::add);
        return findings;
    }

    /** Ripple at twice the mains that neither waveform nor cycles can show. */
    private static Optional<Finding> unseen(MainsReading twice) {
        boolean tooFast = twice instanceof MainsReading.NotTellable none && none.why() == MainsReading.Why.TOO_FAST;
        return tooFast
                ? Optional.of(Finding.note(
                        FindingCode.ALIASED_RIPPLE,
                        String.format(
                                Locale.ROOT,
                                "Ripple at twice the mains (%.0f Hz) is faster than this recording shows. Record with a higher sample"
                                        + " rate.",
                                twice.hz())))
                : Optional.empty();
    }

    private Finding wrongRate(double hz) {
        double factor = settings.mainsHz() / hz;
        boolean isUsual = Math.abs(first.mainsHz() - OTHER_USUAL + settings.mainsHz()) < MOST_OFF;
        String sheet = isUsual
                ? String.format(
                        Locale.ROOT,
                        " If this was recorded where the mains is %.0f Hz, say so (mains_hz in the run sheet, or --mains-hz), and all is well:"
                                + " %.0f Hz was taken for it here.",
                        first.mainsHz(),
                        first.mainsHz())
                : "";
        return Finding.caution(
                FindingCode.RATE_SUSPECT,
                String.format(
                        Locale.ROOT,
                        "What stands at %.2f Hz looks like mains pick-up, which should lie at %.0f Hz.%s %s the true sample rate is %.4f"
                                + " times the one in the file (%.0f Hz), and every speed and time is wrong by that. Check the recorder's"
                                + " settings.",
                        hz,
                        settings.mainsHz(),
                        sheet,
                        isUsual ? "Else" : "If it is,",
                        factor,
                        factor * first.sampleRateHz()));
    }
}
