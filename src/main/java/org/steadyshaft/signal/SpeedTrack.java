package org.steadyshaft.signal;

/**
 * The speed over time: one value a cycle of the tacho, the mean over that cycle, free of the pole pattern where that
 * was learnt. Cycles are in order of time; between segments there may be a gap.
 */
public final class SpeedTrack {
    private final CycleTimes cycles;
    private final DoubleSeries speedRpm;
    private final int[] firstCrossing;

    /**
     * @param cycles the crossings the speeds come from
     * @param speedRpm one value a cycle, segment after segment
     */
    public SpeedTrack(CycleTimes cycles, DoubleSeries speedRpm) {
        if (speedRpm.size() != cycles.cycles()) {
            throw new IllegalArgumentException(speedRpm.size() + " speeds for " + cycles.cycles() + " cycles");
        }
        this.cycles = cycles;
        this.speedRpm = speedRpm;
        this.firstCrossing = new int[speedRpm.size()];
        int cycle = 0;
        for (int segment = 0; segment < cycles.segments(); segment++) {
            for (int crossing = cycles.firstOf(segment); crossing < cycles.endOf(segment) - 1; crossing++) {
                firstCrossing[cycle++] = crossing;
            }
        }
    }

    /** The same cycles with other speeds. */
    public SpeedTrack withSpeeds(DoubleSeries otherRpm) {
        return new SpeedTrack(cycles, otherRpm);
    }

    /** Number of cycles. */
    public int size() {
        return speedRpm.size();
    }

    public double speedRpm(int cycle) {
        return speedRpm.get(cycle);
    }

    /** Start of a cycle. */
    public double fromSeconds(int cycle) {
        return cycles.timeSeconds(firstCrossing[cycle]);
    }

    /** End of a cycle. */
    public double toSeconds(int cycle) {
        return cycles.timeSeconds(firstCrossing[cycle] + 1);
    }

    /** Middle of a cycle. */
    public double timeSeconds(int cycle) {
        return 0.5 * (fromSeconds(cycle) + toSeconds(cycle));
    }

    public double durationSeconds(int cycle) {
        return toSeconds(cycle) - fromSeconds(cycle);
    }

    /** Whether a cycle begins where the one before ended. */
    public boolean follows(int cycle) {
        return cycle > 0 && firstCrossing[cycle] == firstCrossing[cycle - 1] + 1;
    }

    /** Whether no break lies between the beginning of one cycle and the end of another that is not before it. */
    public boolean isUnbroken(int first, int last) {
        return firstCrossing[last] - firstCrossing[first] == last - first;
    }

    /** A copy of the speeds from {@code from} up to but not including {@code to}. */
    public double[] speedsRpm(int from, int to) {
        return speedRpm.toArray(from, to);
    }

    /** First cycle whose middle is not before a time; size() if there is none. */
    public int firstNotBefore(double timeSeconds) {
        int low = 0;
        int high = size();
        while (low < high) {
            int middle = (low + high) >>> 1;
            if (timeSeconds(middle) < timeSeconds) {
                low = middle + 1;
            } else {
                high = middle;
            }
        }
        return low;
    }

    /** Mean speed over a stretch [rpm]: turns by time of the cycles whose middle lies in it; 0 if none does. */
    public double meanRpm(Stretch stretch) {
        double weighted = 0;
        double seconds = 0;
        int end = firstNotBefore(Math.nextUp(stretch.toSeconds()));
        for (int i = firstNotBefore(stretch.fromSeconds()); i < end; i++) {
            double duration = durationSeconds(i);
            weighted += duration * speedRpm(i);
            seconds += duration;
        }
        return seconds > 0 ? weighted / seconds : 0;
    }
}
