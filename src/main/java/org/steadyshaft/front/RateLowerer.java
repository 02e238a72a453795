package org.steadyshaft.front;

import java.util.Optional;
import org.steadyshaft.numeric.Decimator;

/** Carries out a {@link RatePlan} on a chunk of samples with some before and after it. An instance serves one thread. */
final class RateLowerer {
    private final RatePlan plan;
    private final Optional<Decimator> first;
    private final Optional<Decimator> second;
    private double[] middle = new double[0];
    private double[] low = new double[0];

    RateLowerer(RatePlan plan) {
        this.plan = plan;
        int taps = plan.second() > 1 ? RatePlan.FIRST_TAPS : RatePlan.ONLY_TAPS;
        this.first = plan.first() > 1 ? Optional.of(new Decimator(plan.first(), taps)) : Optional.empty();
        this.second =
                plan.second() > 1 ? Optional.of(new Decimator(plan.second(), RatePlan.SECOND_TAPS)) : Optional.empty();
    }

    /**
     * The samples at the lower rate that stand at the places at, at + factor, ... of the input; the array is used again by the next call.
     *
     * @param in holds {@link FrontPass#HALO} samples before {@code at} and behind the last place
     */
    double[] lower(double[] in, int at, int count) {
        low = low.length < count ? new double[count] : low;
        if (first.isEmpty()) {
            System.arraycopy(in, at, low, 0, count);
        } else if (second.isEmpty()) {
            first.get().run(in, at, low, count);
        } else {
            int reach = second.get().reach();
            int needed = count * plan.second() + 2 * reach;
            middle = middle.length < needed ? new double[needed] : middle;
            first.get().run(in, at - reach * plan.first(), middle, needed);
            second.get().run(middle, reach, low, count);
        }
        return low;
    }
}
