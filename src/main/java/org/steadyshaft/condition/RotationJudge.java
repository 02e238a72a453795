package org.steadyshaft.condition;

import java.io.IOException;
import java.util.Locale;
import java.util.Optional;
import org.steadyshaft.numeric.Robust;
import org.steadyshaft.signal.Finding;
import org.steadyshaft.signal.FindingCode;
import org.steadyshaft.signal.FundamentalTrack;
import org.steadyshaft.signal.KeptWaveform;

/** Decides whether a channel carries a rotation at all; where it does not, no speed may be made up. */
public final class RotationJudge {
    /** So far beside the mains, as a share, a tacho cannot be taken for it. */
    private static final double ASIDE = 0.03;

    /** One frame alone may be a knock against the lead. */
    private static final int FEWEST_FRAMES = 2;

    /** Fewer jumps from pitch to pitch may be an accident. */
    private static final int FEWEST_JUMPS = 3;

    private final double mainsHz;
    private final int polePairs;

    /** @param polePairs cycles of the tacho a turn, as far as anyone says */
    public RotationJudge(double mainsHz, int polePairs) {
        this.mainsHz = mainsHz;
        this.polePairs = polePairs;
    }

    /**
     * The finding that forbids a speed; empty if the channel carries a rotation.
     *
     * @throws IOException if the recording has to be read again and cannot be
     */
    public Optional<Finding> refusal(LevelSurvey survey, FundamentalTrack track, KeptWaveform waveform)
            throws IOException {
        if (track.frames() == 0) {
            return Optional.of(Finding.stop(
                    FindingCode.TOO_SHORT,
                    survey.samples() + " samples are too few to see a rotation. Record ten seconds or more, at least a"
                            + " hundred cycles of the tacho."));
        }
        if (survey.largest() == survey.smallest()) {
            return Optional.of(
                    noRotation("Every sample has the same value: nothing reached the recorder. Check the lead,"
                            + " the chosen input and its gain."));
        }
        int rotating = track.rotatingFrames();
        if (rotating < Math.min(FEWEST_FRAMES, track.frames())) {
            return Optional.of(noRotation(String.format(
                    Locale.ROOT,
                    "No tacho signal was found up to %.0f Hz, to where tachos are followed. Check that the motor turned, that the"
                            + " tacho's two wires reach the recorder, and the recorder's gain.",
                    FundamentalTrack.HIGHEST_HZ)));
        }
        int jumps = PitchJumps.count(track);
        if (jumps >= FEWEST_JUMPS) {
            return Optional.of(noRotation(String.format(
                    Locale.ROOT,
                    "The tone jumps %d times from one held pitch to another, at once and not with the level that a tacho's would have: music"
                            + " or signals, no shaft. Check that the tacho was connected, and the chosen input.",
                    jumps)));
        }
        return mainsOnly(track, waveform);
    }

    /** Whether the tone jumps from pitch to pitch as notes do. */
    public static boolean areNotes(FundamentalTrack track) {
        return PitchJumps.count(track) >= FEWEST_JUMPS;
    }

    /** How many times the tone jumps as no tacho does. */
    public static int jumps(FundamentalTrack track) {
        return PitchJumps.count(track);
    }

    private Optional<Finding> mainsOnly(FundamentalTrack track, KeptWaveform waveform) throws IOException {
        if (new MainsOrTacho(mainsHz, polePairs).judge(waveform, track) != MainsOrTacho.Verdict.MAINS) {
            return Optional.empty();
        }
        double median = Robust.median(track.rotating(track::frequencyHz));
        double order = Math.rint(median / mainsHz);
        double rpm = 60 * order * mainsHz / polePairs;
        return Optional.of(noRotation(String.format(
                Locale.ROOT,
                "The only tone, %.2f Hz, is the mains itself (%s): it keeps its frequency as a grid does, and nothing in it belongs to"
                        + " a shaft. The tacho was not heard. Check its connection. If the shaft did turn at just this speed (%.0f rpm),"
                        + " record again below %.0f or above %.0f rpm, or begin before the motor is switched on.",
                median,
                order == 1 ? "its frequency" : String.format(Locale.ROOT, "%.0f times its frequency", order),
                rpm,
                (1 - ASIDE) * rpm,
                (1 + ASIDE) * rpm)));
    }

    private static Finding noRotation(String text) {
        return Finding.stop(FindingCode.NO_ROTATION, text);
    }
}
