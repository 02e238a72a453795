package org.steadyshaft.condition;

import java.util.ArrayList;
import java.util.List;
import org.steadyshaft.signal.FundamentalTrack;
import org.steadyshaft.signal.Stretch;

/**
 * Finds stretches in which the recorder gave no signal although the shaft turned: one value, zero or another, held for
 * longer than a tacho voltage can stay level.
 */
public final class GapFinder {
    /** A sine stays within one step of its peak for a small part of its period only; clipped hard, for nearly half. */
    private static final double LONGEST_LEVEL_PERIODS = 0.6;

    /** A squared tacho of any duty rests at a level for less than a period. */
    private static final double LONGEST_LOGIC_PERIODS = 1.5;

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
            if (length * hz > (survey.isLogic() ? LONGEST_LOGIC_PERIODS : LONGEST_LEVEL_PERIODS)) {
                gaps.add(new Stretch(from, from + length));
            }
        }
        return gaps;
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
