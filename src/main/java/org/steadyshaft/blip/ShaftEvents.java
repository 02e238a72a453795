package org.steadyshaft.blip;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.steadyshaft.signal.Stretch;

/**
 * What happened in a recording: sudden changes of the speed that return, and what the recording itself did.
 *
 * @param kinks in order; in per cent of the speed just before each
 * @param faults in order
 * @param sensitivity from which size on a change would have been found, part by part
 */
public record ShaftEvents(List<Kink> kinks, List<RecorderFault> faults, List<Sensitivity> sensitivity) {
    /** Nothing looked at. */
    public static final ShaftEvents NONE = new ShaftEvents(List.of(), List.of(), List.of());

    /**
     * How small a change would have been found in a part of the recording.
     *
     * @param smallestPercent above 0
     */
    public record Sensitivity(Stretch where, double smallestPercent) {
        public Sensitivity {
            if (!(smallestPercent > 0)) {
                throw new IllegalArgumentException("smallest change " + smallestPercent + " %");
            }
        }
    }

    public ShaftEvents {
        kinks = List.copyOf(kinks);
        faults = List.copyOf(faults);
        sensitivity = List.copyOf(sensitivity);
    }

    /** The same and further faults. */
    public ShaftEvents with(List<RecorderFault> further) {
        List<RecorderFault> all = new ArrayList<>(faults);
        all.addAll(further);
        all.sort(Comparator.comparingDouble(f -> f.where().fromSeconds()));
        return new ShaftEvents(kinks, all, sensitivity);
    }

    /** The same with other changes of the speed. */
    public ShaftEvents withKinks(List<Kink> others) {
        return new ShaftEvents(others, faults, sensitivity);
    }

    /** Seconds that were looked at. */
    public double seconds() {
        return sensitivity.stream()
                .mapToDouble(s -> s.where().durationSeconds())
                .sum();
    }

    /** From this size on a change would have been found wherever was looked; 0 where nothing was. */
    public double smallestPercent() {
        return sensitivity.stream()
                .mapToDouble(Sensitivity::smallestPercent)
                .max()
                .orElse(0);
    }
}
