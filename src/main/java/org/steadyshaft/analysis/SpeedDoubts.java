package org.steadyshaft.analysis;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalInt;
import org.steadyshaft.signal.CycleTimes;
import org.steadyshaft.signal.Finding;
import org.steadyshaft.signal.FindingCode;
import org.steadyshaft.speed.MeanSpeed;

/** What speaks against the speed: two methods that disagree, with the likely reason, and a pole count that the magnet denies. */
final class SpeedDoubts {
    /** Spectra and crossings may differ by this much, and three standard errors, before it is worth a word. */
    private static final double AGREEMENT_PERCENT = 0.1;

    private static final double NEAR_DOUBLE_PERCENT = 8;

    /** A recording whose speed spans more than this factor has frames in which it changes. */
    private static final double CHANGING = 1.3;

    /** Pick-up this strong shifts a line that lies within two bins of it. */
    private static final double STRONG_HUM = 0.03;

    private final AnalysisSettings settings;
    private final FirstPass first;

    SpeedDoubts(AnalysisSettings settings, FirstPass first) {
        this.settings = settings;
        this.first = first;
    }

    /** @param likelier number of pole pairs that the magnet speaks for; empty if none but the one that was said */
    List<Finding> of(MeanSpeed speed, CycleTimes cycles, OptionalInt likelier) {
        List<Finding> findings = new ArrayList<>();
        disagreement(speed, cycles).ifPresent(findings::add);
        if (likelier.isPresent()) {
            findings.add(poleCount(likelier.getAsInt()));
        }
        return findings;
    }

    private Finding poleCount(int likelier) {
        String source =
                settings.polePairsFrom() == AnalysisSettings.PolePairsFrom.ASSUMED ? "were assumed" : "were given";
        return Finding.caution(
                FindingCode.POLE_COUNT,
                String.format(
                        Locale.ROOT,
                        "The spacing of the tacho's poles repeats every %d cycles, but %d pole pairs %s. If a turn has %d cycles,"
                                + " every speed here must be multiplied by %.4g. Unplug the mains, record the tacho while you turn the"
                                + " shaft ten times by hand, and let 'steadyshaft poles FILE --turns 10' count.",
                        likelier,
                        settings.polePairs(),
                        source,
                        likelier,
                        (double) settings.polePairs() / likelier));
    }

    private Optional<Finding> disagreement(MeanSpeed speed, CycleTimes cycles) {
        double difference = speed.differencePercent().orElse(0);
        double error = speed.differenceErrorPercent().orElse(0);
        if (Math.abs(difference) < AGREEMENT_PERCENT + 3 * error) {
            return Optional.empty();
        }
        return Optional.of(Finding.caution(
                FindingCode.METHODS_DISAGREE,
                String.format(
                        Locale.ROOT,
                        "Spectra and crossings give speeds %.2f %% apart. %s Look at the waveform and the speed over time before"
                                + " you trust the figures.",
                        Math.abs(difference),
                        reason(difference, speed, cycles))));
    }

    private String reason(double differencePercent, MeanSpeed speed, CycleTimes cycles) {
        double ratio = 1 + differencePercent / 100;
        if (Math.abs(ratio - 2) < NEAR_DOUBLE_PERCENT / 100 || Math.abs(ratio - 0.5) < NEAR_DOUBLE_PERCENT / 200) {
            return "One of them followed a harmonic: a wave with two humps a cycle is the likely reason.";
        }
        double hz = first.track().frequencyHz(first.track().nearestFrame(first.rotatingMiddleSeconds()));
        double binsHz = 2 / first.track().frameSeconds();
        double order = Math.max(1, Math.rint(hz / settings.mainsHz()));
        if (first.humRatio() > STRONG_HUM && Math.abs(hz - order * settings.mainsHz()) < binsHz) {
            return "Mains pick-up lies so close to the tacho's frequency that the spectra mix the two; the crossings, from which"
                    + " it was taken out, are likely right.";
        }
        if (cycles.segments() > 1) {
            return "The row of cycles is broken, so cycles were likely missed where the signal was weak or cut.";
        }
        if (speed.fastestRpm() > CHANGING * speed.slowestRpm()) {
            return "The speed changes within a frame of the spectra, which is the likely reason; the crossings follow it.";
        }
        return "Cycles may have been missed or counted twice.";
    }
}
