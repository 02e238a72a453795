package org.steadyshaft.blip;

import java.util.ArrayList;
import java.util.List;

/**
 * Changes of the speed that take longer than any firing: fitted as two kinks of which the second begins where the first has risen. They are
 * one change, and the work of a load or of a hand.
 */
public final class GradualChanges {
    /** Both rise at least so slowly: a half-cycle too many or too few takes less. */
    private static final double SLOW_RISE_SECONDS = 0.025;

    /** The second begins at the end of the first's rise, within this. */
    private static final double SAME_SECONDS = 0.012;

    /** A rise that is longer is gradual. */
    private static final double GRADUAL_SECONDS = 0.05;

    private GradualChanges() {}

    /**
     * The kinks with those joined that are one gradual change.
     *
     * @param kinks in order
     */
    public static List<Kink> joined(List<Kink> kinks) {
        List<Kink> joined = new ArrayList<>();
        for (int i = 0; i < kinks.size(); i++) {
            Kink kink = kinks.get(i);
            if (i + 1 < kinks.size() && goesOn(kink, kinks.get(i + 1))) {
                joined.add(join(kink, kinks.get(++i)));
            } else {
                joined.add(kink);
            }
        }
        return joined;
    }

    /** Whether a kink takes longer than any firing. */
    public static boolean isOne(Kink kink) {
        return kink.riseSeconds() > GRADUAL_SECONDS;
    }

    private static boolean goesOn(Kink first, Kink second) {
        double apart = second.startSeconds() - first.startSeconds() - first.riseSeconds();
        return first.percent() * second.percent() > 0
                && first.riseSeconds() > SLOW_RISE_SECONDS
                && second.riseSeconds() > SLOW_RISE_SECONDS
                && Math.abs(apart) < SAME_SECONDS;
    }

    private static Kink join(Kink first, Kink second) {
        double peak = second.startSeconds() + second.riseSeconds();
        double percent = first.percent() * first.changeAt(peak) + second.percent();
        return new Kink(
                first.startSeconds(), percent, peak - first.startSeconds(), second.returnSeconds(), second.ringing());
    }
}
