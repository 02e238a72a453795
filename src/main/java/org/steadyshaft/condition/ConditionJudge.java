package org.steadyshaft.condition;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import org.steadyshaft.numeric.LineFit;
import org.steadyshaft.numeric.Robust;
import org.steadyshaft.signal.Finding;
import org.steadyshaft.signal.FindingCode;
import org.steadyshaft.signal.FundamentalTrack;
import org.steadyshaft.signal.SampleFormat;
import org.steadyshaft.signal.Stretch;

/** Turns the figures of a turning shaft's recording into findings: what is wrong, what it means, what to do about it. */
public final class ConditionJudge {
    /** Flat tops longer than this share of a period are clipping; coarse steps alone give sqrt(2 q / A) / pi of it. */
    private static final double FLAT_SHARE = 0.08;

    /** A sine stays within one step q of its peak A for sqrt(2 q / A) / pi of its period; noise shortens that. */
    private static final double COARSE_STEPS_MARGIN = 2.2;

    private static final double LOW_SNR_DECIBEL = 20;
    private static final double LOW_LEVEL_STEPS = 12;
    private static final double LOW_LEVEL_SHARE = 0.003;
    private static final double OFFSET_SHARE = 0.3;
    private static final double UNDERSAMPLED_SAMPLES = 6;
    private static final int SHORT_CYCLES = 50;

    /** Needles count as spikes from this rate and height on; from the second height on they are a doubt (our own figures). */
    private static final double SPIKES_A_SECOND = 5;

    private static final double SPIKE_SHARE = 0.05;
    private static final double GRAVE_SPIKE_SHARE = 0.3;
    private static final double STRONG_SECOND = 0.5;
    private static final double COUPLED_BELOW_HZ = 20;
    private static final double COUPLING_SPAN = 2;
    private static final double COUPLING_SLOPE = 1.4;

    private final SampleFormat format;
    private final double sampleRateHz;

    public ConditionJudge(SampleFormat format, double sampleRateHz) {
        this.format = format;
        this.sampleRateHz = sampleRateHz;
    }

    /**
     * @param track the tacho's frequency; rotates in one frame at least
     * @param gaps stretches without signal
     * @param cycles good cycles found
     */
    public List<Finding> judge(
            LevelSurvey survey, Spikes spikes, FundamentalTrack track, List<Stretch> gaps, int cycles) {
        double[] amplitudes = track.rotating(track::amplitude);
        double[] frequencies = track.rotating(track::frequencyHz);
        double amplitude = Robust.median(amplitudes);
        double hz = Robust.median(frequencies);
        List<Finding> findings = new ArrayList<>();
        gaps(gaps, track, findings);
        clipped(survey, hz, cycles, findings);
        level(survey, amplitude, findings);
        noise(track, findings);
        if (!survey.isLogic()) {
            offset(survey, amplitude, findings);
        }
        rate(frequencies, findings);
        if (!survey.isLogic()) {
            spikes(spikes, amplitude, findings);
            harmonic(track, findings);
            coupling(track, frequencies, findings);
        }
        length(cycles, findings);
        return findings;
    }

    private static void gaps(List<Stretch> gaps, FundamentalTrack track, List<Finding> findings) {
        List<Stretch> lost =
                gaps.stream().filter(gap -> GapFinder.interrupts(gap, track)).toList();
        List<Stretch> brief =
                lost.stream().filter(gap -> GapFinder.isShort(gap, track)).toList();
        if (!brief.isEmpty()) {
            findings.add(Finding.caution(
                    FindingCode.GAP,
                    say(
                            "At %.3f s%s the recording holds one value for a part of a cycle: a contact that bounces, or samples"
                                    + " that were lost. The cycles around are left out of every figure. Check plugs and leads.",
                            brief.get(0).fromSeconds(),
                            brief.size() == 1 ? "" : say(" and in %.0f more places", brief.size() - 1.0)),
                    brief.get(0)));
        }
        for (Stretch gap : lost) {
            if (brief.contains(gap)) {
                continue;
            }
            findings.add(Finding.caution(
                    FindingCode.GAP,
                    say(
                            "The recording stands still for %.0f ms at %.3f s: samples were lost, the shaft did not stop."
                                    + " The gap is left out of every figure. Close other programs while recording, or"
                                    + " record to a faster disk.",
                            1000 * gap.durationSeconds(), gap.fromSeconds()),
                    gap));
        }
    }

    private static void clipped(LevelSurvey survey, double hz, int cycles, List<Finding> findings) {
        if (survey.flatPeaks() == 0 || cycles == 0) {
            return;
        }
        double height = 0.5 * (survey.largest() - survey.smallest());
        double coarse = Math.sqrt(2 * survey.step() / height) / Math.PI;
        double flat = survey.flatPeakSeconds() * hz;
        double share = Math.min(1, survey.flatPeaks() / (2.0 * cycles));
        double least = Math.max(FLAT_SHARE, COARSE_STEPS_MARGIN * coarse);
        if (!survey.isLogic() && (flat > least && share > 0.01 || survey.flatShare() > 2 * least)) {
            findings.add(Finding.caution(
                    FindingCode.CLIPPED,
                    say(
                            "The peaks are cut off flat in about %.0f %% of the cycles. The speed comes from the"
                                    + " crossings and stays good; levels and harmonics do not. Turn the gain down or put a"
                                    + " divider before the input.",
                            100 * share)));
        }
    }

    private void level(LevelSurvey survey, double amplitude, List<Finding> findings) {
        double step = format.step().orElse(survey.step());
        boolean fewSteps = step > 0 && amplitude < LOW_LEVEL_STEPS * step;
        boolean farBelow = format.fullScale().isPresent()
                && amplitude < LOW_LEVEL_SHARE * format.fullScale().getAsDouble();
        if (fewSteps || farBelow) {
            findings.add(Finding.caution(
                    FindingCode.LOW_LEVEL,
                    say(
                            "The tacho reaches only %.3g %s, %.0f of the recorder's smallest steps: each crossing is"
                                    + " rounded. Turn the gain up or choose a finer range.",
                            amplitude, format.unit(), step > 0 ? amplitude / step : 0)));
        }
    }

    private static void noise(FundamentalTrack track, List<Finding> findings) {
        double[] decibel = track.rotating(i -> 20
                * Math.log10(track.amplitude(i) / Math.sqrt(2) / Math.max(track.noise(i), 1e-9 * track.amplitude(i))));
        double median = Robust.median(decibel);
        if (median < LOW_SNR_DECIBEL) {
            findings.add(Finding.caution(
                    FindingCode.LOW_SNR,
                    say(
                            "The noise lies only %.0f dB below the tacho; below %.0f dB every figure of steadiness is"
                                    + " mostly noise. Shorten or shield the lead, twist its wires, raise the gain.",
                            median, LOW_SNR_DECIBEL)));
        }
    }

    private static void offset(LevelSurvey survey, double amplitude, List<Finding> findings) {
        if (Math.abs(survey.mean()) > OFFSET_SHARE * amplitude) {
            findings.add(Finding.note(
                    FindingCode.OFFSET,
                    say(
                            "The signal is off centre by %.0f %% of its amplitude. It was removed; choose AC coupling, so"
                                    + " that the recorder's range is not wasted.",
                            100 * Math.abs(survey.mean()) / amplitude)));
        }
    }

    private void rate(double[] frequencies, List<Finding> findings) {
        double highest = Arrays.stream(frequencies).max().orElse(0);
        if (sampleRateHz < UNDERSAMPLED_SAMPLES * highest) {
            findings.add(Finding.caution(
                    FindingCode.UNDERSAMPLED,
                    say(
                            "At the fastest only %.1f samples fall on a cycle of the tacho. Record with a sample rate of"
                                    + " %.0f Hz or more.",
                            sampleRateHz / highest, 10 * highest)));
        }
    }

    private static void spikes(Spikes spikes, double amplitude, List<Finding> findings) {
        if (spikes.perSecond() < SPIKES_A_SECOND || spikes.height() < SPIKE_SHARE * amplitude) {
            return;
        }
        String text = say(
                "%.0f needles a second of about %.0f %% of the tacho's level: the switching of the triac comes in. A needle near a"
                        + " crossing shifts it. Twist the tacho's wires, keep them from the motor's leads, put a small capacitor"
                        + " across the recorder's input.",
                spikes.perSecond(), 100 * spikes.height() / amplitude);
        boolean grave = spikes.height() > GRAVE_SPIKE_SHARE * amplitude;
        findings.add(grave ? Finding.caution(FindingCode.SPIKES, text) : Finding.note(FindingCode.SPIKES, text));
    }

    private static void harmonic(FundamentalTrack track, List<Finding> findings) {
        double ratio = Robust.median(track.rotating(i -> track.second(i) / track.amplitude(i)));
        if (ratio > STRONG_SECOND) {
            findings.add(Finding.note(
                    FindingCode.HARMONIC,
                    say(
                            "The second harmonic has %.0f %% of the fundamental: two waves a cycle. The speed was taken from the"
                                    + " fundamental; if the tacho has twice the pole pairs that were said, it is the other way round.",
                            100 * ratio)));
        }
    }

    /** A tacho's level is proportional to its frequency; where it falls faster, the recorder's input takes its part. */
    private void coupling(FundamentalTrack track, double[] frequencies, List<Finding> findings) {
        double lowest = Arrays.stream(frequencies).min().orElse(0);
        double highest = Arrays.stream(frequencies).max().orElse(0);
        if (format.kind() == SampleFormat.RecorderKind.SOUND_CARD && lowest < COUPLED_BELOW_HZ) {
            findings.add(Finding.note(
                    FindingCode.COUPLING,
                    say(
                            "The tacho came down to %.1f Hz. Sound-card inputs block what is slower than 5 to 20 Hz (common"
                                    + " practice): they weaken and shift it. A scope on DC coupling does not.",
                            lowest)));
        } else if (highest > COUPLING_SPAN * lowest) {
            double[] x = track.rotating(i -> Math.log(track.frequencyHz(i)));
            double[] y = track.rotating(i -> Math.log(track.amplitude(i)));
            if (LineFit.of(x, y).slope() > COUPLING_SLOPE) {
                findings.add(Finding.caution(
                        FindingCode.COUPLING,
                        "The level falls faster than the speed: the recorder's input blocks slow signals and shifts what it"
                                + " lets through. Use DC coupling."));
            }
        }
    }

    private static void length(int cycles, List<Finding> findings) {
        if (cycles < SHORT_CYCLES) {
            findings.add(Finding.caution(
                    FindingCode.TOO_SHORT,
                    say(
                            "Only %d cycles of the tacho: enough for a rough speed, not for steadiness. Ten seconds give"
                                    + " ripple and hunting, two minutes give a rate of blips.",
                            cycles)));
        }
    }

    private static String say(String format, Object... values) {
        return String.format(Locale.ROOT, format, values);
    }
}
