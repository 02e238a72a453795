package org.steadyshaft.stability;

import java.util.List;
import java.util.OptionalDouble;
import org.steadyshaft.published.Mains;

/**
 * The mains frequency as the recording itself shows it: by the pick-up in the waveform, else by ripple lines at multiples of it
 * that agree with one another. One line alone, near a multiple, may be anything that happens to turn as fast.
 */
final class MainsEstimate {
    private static final int MOST_MULTIPLES = 6;

    private final double nominalHz;
    private final OptionalDouble pickUpHz;
    private final double resolutionHz;

    /**
     * @param pickUpHz frequency of the mains line in the waveform, where one stands clear
     * @param resolutionHz how well the frequency of a ripple line is known
     */
    MainsEstimate(double nominalHz, OptionalDouble pickUpHz, double resolutionHz) {
        this.nominalHz = nominalHz;
        this.pickUpHz = pickUpHz;
        this.resolutionHz = resolutionHz;
    }

    /**
     * The mains frequency [Hz]; empty if nothing tells.
     *
     * @param lineHz frequencies of the ripple lines, largest first
     */
    OptionalDouble of(List<Double> lineHz) {
        if (pickUpHz.isPresent() && Math.abs(pickUpHz.getAsDouble() / nominalHz - 1) < Mains.REACH) {
            return pickUpHz;
        }
        for (double hz : lineHz) {
            for (double other : lineHz) {
                int multiple = multiple(hz);
                int otherMultiple = multiple(other);
                boolean agree = multiple > 0
                        && otherMultiple > 0
                        && multiple != otherMultiple
                        && Math.abs(hz / multiple - other / otherMultiple) < resolutionHz;
                if (agree) {
                    return OptionalDouble.of((hz + other) / (multiple + otherMultiple));
                }
            }
        }
        return OptionalDouble.empty();
    }

    /** Multiple of the mains that a frequency may be; 0 if none. */
    private int multiple(double hz) {
        int multiple = (int) Math.rint(hz / nominalHz);
        boolean near =
                multiple >= 1 && multiple <= MOST_MULTIPLES && Math.abs(hz / (multiple * nominalHz) - 1) < Mains.REACH;
        return near ? multiple : 0;
    }
}
