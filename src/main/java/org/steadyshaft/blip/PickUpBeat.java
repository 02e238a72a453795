package org.steadyshaft.blip;

import java.util.Arrays;
import org.steadyshaft.voltage.LocalModel;
import org.steadyshaft.voltage.LocalSeries;
import org.steadyshaft.voltage.Smoothing;
import org.steadyshaft.voltage.VoltagePiece;

/**
 * Pick-up that stands so close beside the tacho that it cannot be told from it: it swings level and angle slowly, and where it works against
 * the tacho, all that is left of the turn's own pattern looks like a change of the speed. Nothing is judged there.
 */
final class PickUpBeat {
    private static final int MOST_MULTIPLES = 3;

    /** The level may swing by so much, as a share of its median, before the turn's pattern is bent noticeably. Our own figure. */
    private static final double MOST_SWING = 0.15;

    /** Level is averaged over this time: faster changes are a contact's. */
    private static final double SLOW_SECONDS = 0.3;

    private static final double LOW = 0.05;
    private static final double TURN = 2 * Math.PI;

    private PickUpBeat() {}

    /** Half of the range over which the level swings, as a share of its median, if pick-up beside the tacho hides events in a piece; else 0. */
    static double swing(VoltagePiece piece, double mainsHz) {
        double tachoHz = piece.meanAngularSpeed() * piece.polePairs() / TURN;
        double multiple = Math.max(1, Math.min(MOST_MULTIPLES, Math.rint(tachoHz / mainsHz)));
        LocalSeries series = piece.series();
        if (Math.abs(tachoHz - multiple * mainsHz) >= LocalModel.slowestBeatHz() || series.size() == 0) {
            return 0;
        }
        double[] levels = Smoothing.hann(series.levels(), piece.halfWidth(SLOW_SECONDS));
        Arrays.sort(levels);
        int low = (int) (LOW * levels.length);
        double swing = (levels[levels.length - 1 - low] - levels[low]) / (2 * levels[levels.length / 2]);
        return swing > MOST_SWING ? swing : 0;
    }
}
