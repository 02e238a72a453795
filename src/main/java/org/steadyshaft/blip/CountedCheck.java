package org.steadyshaft.blip;

import org.steadyshaft.signal.SpeedTrack;
import org.steadyshaft.signal.Stretch;

/**
 * Holds the blips of the waveform against the counted cycles. A change that stays for some cycles and is large must show in their count;
 * where the count says the shaft ran on as before, the waveform was read with its turn shifted, and the blip is none. Fast and small
 * changes are left to the waveform, which sees more than a count.
 */
public final class CountedCheck {
    /** So many cycles right behind the peak tell a speed; the return must be no shorter. */
    private static final int CYCLES = 4;

    /** A count that shows less than this share of a change contradicts it, where the difference is this large [%]. */
    private static final double SHOWN = 0.3;

    private static final double LEAST_DIFFERENCE_PERCENT = 2;

    private static final double BEFORE_SECONDS = 0.5;

    /** On a ramp the speed just before says little. Our own figures. */
    private static final double CALM_PERCENT = 1;

    private final SpeedTrack track;
    private final int polePairs;

    public CountedCheck(SpeedTrack track, int polePairs) {
        this.track = track;
        this.polePairs = polePairs;
    }

    /** The events without the blips that the count contradicts. */
    public ShaftEvents of(ShaftEvents events) {
        return events.withKinks(
                events.kinks().stream().filter(k -> !isContradicted(k)).toList());
    }

    private boolean isContradicted(Kink kink) {
        double start = kink.startSeconds();
        double peak = start + kink.riseSeconds();
        double usualRpm = track.meanRpm(new Stretch(start - BEFORE_SECONDS, start));
        if (usualRpm == 0) {
            return false;
        }
        double length = CYCLES * 60 / (usualRpm * polePairs);
        if (length > kink.returnSeconds()) {
            return false;
        }
        double before = track.meanRpm(new Stretch(start - length, start));
        double earlier = track.meanRpm(new Stretch(start - 2 * length, start - length));
        double behind = track.meanRpm(new Stretch(peak, peak + length));
        // where nothing was counted the mean is 0, and nothing is contradicted
        boolean calm = earlier == 0 || Math.abs(earlier / before - 1) < CALM_PERCENT / 100;
        double seen = 100 * (behind / before - 1);
        return before > 0
                && behind > 0
                && calm
                && Math.abs(seen) < SHOWN * Math.abs(kink.percent())
                && Math.abs(kink.percent() - seen) > LEAST_DIFFERENCE_PERCENT;
    }
}
