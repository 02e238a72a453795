package org.steadyshaft.voltage;

import java.util.ArrayList;
import java.util.List;

/** The slow part of the speed over the pieces that were read: what the smooth angle follows, up to the lowest line. Unchanging. */
public final class SlowSpeed {
    /** The values of one piece. */
    private static final class Part {
        private final double fromSeconds;
        private final double stepSeconds;
        private final double[] radPerSecond;

        Part(double fromSeconds, double stepSeconds, double[] radPerSecond) {
            this.fromSeconds = fromSeconds;
            this.stepSeconds = stepSeconds;
            this.radPerSecond = radPerSecond;
        }
    }

    private final List<Part> parts;

    private SlowSpeed(List<Part> parts) {
        this.parts = List.copyOf(parts);
    }

    public int parts() {
        return parts.size();
    }

    public double fromSeconds(int part) {
        return parts.get(part).fromSeconds;
    }

    public double stepSeconds(int part) {
        return parts.get(part).stepSeconds;
    }

    /** Number of values in a part. */
    public int size(int part) {
        return parts.get(part).radPerSecond.length;
    }

    public double radPerSecond(int part, int index) {
        return parts.get(part).radPerSecond[index];
    }

    /** Gathers parts in order of time. */
    static final class Builder {
        private final List<Part> parts = new ArrayList<>();

        Builder add(double fromSeconds, double stepSeconds, double[] radPerSecond) {
            parts.add(new Part(fromSeconds, stepSeconds, radPerSecond.clone()));
            return this;
        }

        SlowSpeed build() {
            return new SlowSpeed(parts);
        }
    }
}
