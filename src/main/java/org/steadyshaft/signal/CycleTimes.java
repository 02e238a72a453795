package org.steadyshaft.signal;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;

/**
 * Times of the rising crossings of the tacho voltage, in unbroken segments: inside a segment every two neighbours are
 * one cycle apart, between segments the number of cycles is unknown.
 */
public final class CycleTimes {
    private final DoubleSeries timeSeconds;
    private final int[] segmentStart;

    private CycleTimes(DoubleSeries timeSeconds, int[] segmentStart) {
        this.timeSeconds = timeSeconds;
        this.segmentStart = segmentStart;
    }

    public int crossings() {
        return timeSeconds.size();
    }

    public double timeSeconds(int crossing) {
        return timeSeconds.get(crossing);
    }

    public int segments() {
        return segmentStart.length;
    }

    /** Index of a segment's first crossing. */
    public int firstOf(int segment) {
        return segmentStart[segment];
    }

    /** Index after a segment's last crossing. */
    public int endOf(int segment) {
        return segment + 1 < segmentStart.length ? segmentStart[segment + 1] : crossings();
    }

    /** Index of a segment's first crossing that is not before a time; that after its last one if all are. */
    public int firstNotBefore(int segment, double seconds) {
        int low = firstOf(segment);
        int high = endOf(segment);
        while (low < high) {
            int middle = (low + high) >>> 1;
            if (timeSeconds(middle) < seconds) {
                low = middle + 1;
            } else {
                high = middle;
            }
        }
        return low;
    }

    /** Whole cycles in a segment. */
    public int cyclesOf(int segment) {
        return endOf(segment) - firstOf(segment) - 1;
    }

    /** Whole cycles in all segments. */
    public int cycles() {
        return crossings() - segments();
    }

    /** The same crossings but those inside the given stretches, where the row is broken; in one pass over both. */
    public CycleTimes without(List<Stretch> stretches) {
        List<Stretch> inOrder = new ArrayList<>(stretches);
        inOrder.sort(Comparator.comparingDouble(Stretch::fromSeconds));
        Builder kept = new Builder();
        int next = 0;
        double coveredTo = Double.NEGATIVE_INFINITY;
        for (int segment = 0; segment < segments(); segment++) {
            kept.breakHere();
            for (int crossing = firstOf(segment); crossing < endOf(segment); crossing++) {
                double time = timeSeconds(crossing);
                while (next < inOrder.size() && inOrder.get(next).fromSeconds() <= time) {
                    coveredTo = Math.max(coveredTo, inOrder.get(next++).toSeconds());
                }
                if (time <= coveredTo) {
                    kept.breakHere();
                } else {
                    kept.add(time);
                }
            }
        }
        return kept.build();
    }

    /** The same without segments of fewer cycles than given, as noise at standstill makes them; all of it where nothing longer is there. */
    public CycleTimes withoutShorterThan(int leastCycles) {
        Builder kept = new Builder();
        boolean any = false;
        for (int segment = 0; segment < segments(); segment++) {
            kept.breakHere();
            for (int crossing = firstOf(segment);
                    cyclesOf(segment) >= leastCycles && crossing < endOf(segment);
                    crossing++) {
                kept.add(timeSeconds(crossing));
                any = true;
            }
        }
        return any ? kept.build() : this;
    }

    /** Length of the longest unbroken segment [s]; 0 without any. */
    public double longestSegmentSeconds() {
        double longest = 0;
        for (int segment = 0; segment < segments(); segment++) {
            longest = Math.max(longest, timeSeconds(endOf(segment) - 1) - timeSeconds(firstOf(segment)));
        }
        return longest;
    }

    /** Grows the times crossing by crossing. */
    public static final class Builder {
        private final DoubleSeries.Builder times = new DoubleSeries.Builder();
        private int[] starts = new int[8];
        private int segments;
        private boolean broken = true;

        /** Adds a crossing, one cycle after the one before unless {@link #breakHere()} was called between. */
        public Builder add(double timeSeconds) {
            if (broken) {
                dropLonelyCrossing();
                if (segments == starts.length) {
                    starts = Arrays.copyOf(starts, 2 * segments);
                }
                starts[segments++] = times.size();
                broken = false;
            } else if (!(timeSeconds > times.get(times.size() - 1))) {
                throw new IllegalArgumentException("crossing at " + timeSeconds + " s is not after the one before");
            }
            times.add(timeSeconds);
            return this;
        }

        /** The next crossing begins a new segment. */
        public Builder breakHere() {
            broken = true;
            return this;
        }

        private void dropLonelyCrossing() {
            if (segments > 0 && times.size() - starts[segments - 1] < 2) {
                times.dropLast();
                segments--;
            }
        }

        public CycleTimes build() {
            dropLonelyCrossing();
            return new CycleTimes(times.build(), Arrays.copyOf(starts, segments));
        }
    }
}
