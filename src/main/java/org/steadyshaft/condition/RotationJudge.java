package org.steadyshaft.condition;

import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;
import org.steadyshaft.numeric.Robust;
import org.steadyshaft.published.Mains;
import org.steadyshaft.signal.Finding;
import org.steadyshaft.signal.FindingCode;
import org.steadyshaft.signal.FundamentalTrack;

/** Decides whether a channel carries a rotation at all; where it does not, no speed may be made up. */
public final class RotationJudge {
    /** The mains keeps its frequency far better than this within one recording, a motor never does. */
    private static final double MAINS_SPREAD = 0.0004;

    /** One frame alone may be a knock against the lead. */
    private static final int FEWEST_FRAMES = 2;

    private final double mainsHz;

    public RotationJudge(double mainsHz) {
        this.mainsHz = mainsHz;
    }

    /** The finding that forbids a speed; empty if the channel carries a rotation. */
    public Optional<Finding> refusal(LevelSurvey survey, FundamentalTrack track) {
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
            return Optional.of(noRotation("No tacho signal was found, only noise. Check that the motor turned, that the"
                    + " tacho's two wires reach the recorder, and the recorder's gain."));
        }
        return mainsOnly(track);
    }

    private Optional<Finding> mainsOnly(FundamentalTrack track) {
        double[] hz = track.rotating(track::frequencyHz);
        double median = Robust.median(hz);
        double order = Math.rint(median / mainsHz);
        boolean near = (order == 1 || order == 2) && Math.abs(median / (order * mainsHz) - 1) < Mains.REACH;
        double widest = Arrays.stream(hz).map(f -> Math.abs(f - median)).max().orElse(0);
        if (!near || widest > MAINS_SPREAD * median) {
            return Optional.empty();
        }
        return Optional.of(noRotation(String.format(
                Locale.ROOT,
                "The only tone, %.2f Hz, is the mains itself (%s) and keeps its frequency as no motor does: the tacho was"
                        + " not heard. Check its connection. If the shaft did turn at just this speed, record again a"
                        + " little faster or slower.",
                median,
                order == 1 ? "its frequency" : "twice its frequency")));
    }

    private static Finding noRotation(String text) {
        return Finding.stop(FindingCode.NO_ROTATION, text);
    }
}
