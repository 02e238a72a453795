package org.steadyshaft.condition;

import java.util.ArrayList;
import java.util.List;
import org.steadyshaft.numeric.Robust;
import org.steadyshaft.signal.FundamentalTrack;
import org.steadyshaft.signal.Stretch;

/**
 * Finds stretches in which the recorder gave no signal although the shaft turned: one value, zero or another, held for
 * longer than a tacho voltage can stay level. Away from its peaks a wave passes quickly, so there even a part of a period counts.
 */
public final class GapFinder {
    /** A sine stays within one step of its peak for a small part of its period only; clipped hard, for nearly half. */
    private static final double LONGEST_LEVEL_PERIODS = 0.6;

    /** A squared tacho of any duty rests at a level for less than a period. */
    private static final double LONGEST_LOGIC_PERIODS = 1.5;

    /** Inside this share of the amplitude the wave moves at 0.7 of its steepest or more. */
    private static final double STEEP = 0.7;

    /** There a value held this many times as long as the recorder's step explains, and this share of a period, is a dropout. */
    private static final double TOO_LONG = 5;

    private static final double SHORTEST_PERIODS = 0.06;

    /** A second harmonic flattens the wave between its peaks: of so much, so many times as long. Our own figure. */
    private static final double BY_SECOND = 4;

    /** Where the level beside a held value is below this share of the usual one, the shaft stood still or nearly so. */
    private static final double NEARLY_STILL = 0.25;

    private final double humAmplitude;

    /** Without pick-up. */
    public GapFinder() {
        this(0);
    }

    /** @param humAmplitude of the mains pick-up, in the unit of the samples: it lowers some of the wave's crests by so much */
    public GapFinder(double humAmplitude) {
        this.humAmplitude = humAmplitude;
    }

    /**
     * Whether a gap interrupts a signal of usual level on either side: else the shaft may have stood still, and nothing was
     * lost.
     */
    public static boolean interrupts(Stretch gap, FundamentalTrack track) {
        double usual = Robust.median(track.rotating(track::amplitude));
        int before = track.nearestFrame(gap.fromSeconds());
        while (before > 0 && !track.rotates(before)) {
            before--;
        }
        int after = track.nearestFrame(gap.toSeconds());
        while (after < track.frames() - 1 && !track.rotates(after)) {
            after++;
        }
        return track.amplitude(before) > NEARLY_STILL * usual && track.amplitude(after) > NEARLY_STILL * usual;
    }

    /** Whether a gap is shorter than a period, so that a cycle or two are spoilt and none is lost. */
    public static boolean isShort(Stretch gap, FundamentalTrack track) {
        double middle = 0.5 * (gap.fromSeconds() + gap.toSeconds());
        return gap.durationSeconds() * nearestHz(track, middle) <= LONGEST_LEVEL_PERIODS;
    }

    /**
     * @param track the tacho frequency over time
     * @return the gaps, in order
     */
    public List<Stretch> find(LevelSurvey survey, FundamentalTrack track) {
        List<Stretch> gaps = new ArrayList<>();
        if (track.rotatingFrames() == 0) {
            return gaps;
        }
        for (int i = 0; i < survey.runs(); i++) {
            double from = survey.runFromSeconds(i);
            double length = survey.runSeconds(i);
            double hz = nearestHz(track, from + 0.5 * length);
            boolean tooLong = length * hz > (survey.isLogic() ? LONGEST_LOGIC_PERIODS : LONGEST_LEVEL_PERIODS);
            if (tooLong || (!survey.isLogic() && isDropout(survey, i, track, hz))) {
                gaps.add(new Stretch(from, from + length));
            }
        }
        return gaps;
    }

    private boolean isDropout(LevelSurvey survey, int run, FundamentalTrack track, double hz) {
        double length = survey.runSeconds(run);
        int frame = track.nearestFrame(survey.runFromSeconds(run) + 0.5 * length);
        double amplitude = track.amplitude(frame);
        double steep = STEEP * (amplitude - humAmplitude);
        if (amplitude == 0 || Math.abs(survey.runValue(run) - survey.mean()) > steep) {
            return false;
        }
        double stepSeconds = survey.step() / (STEEP * 2 * Math.PI * hz * amplitude);
        return length > TOO_LONG * stepSeconds
                && length * hz > SHORTEST_PERIODS * (1 + BY_SECOND * track.second(frame) / amplitude);
    }

    /** Frequency of the rotating frame nearest to a time. */
    private static double nearestHz(FundamentalTrack track, double timeSeconds) {
        int middle = track.nearestFrame(timeSeconds);
        for (int away = 0; away < track.frames(); away++) {
            if (middle - away >= 0 && track.rotates(middle - away)) {
                return track.frequencyHz(middle - away);
            }
            if (middle + away < track.frames() && track.rotates(middle + away)) {
                return track.frequencyHz(middle + away);
            }
        }
        return 0;
    }
}
