package org.steadyshaft.voltage;

import java.util.ArrayList;
import java.util.List;

/** The fast lines of the speed over time, as they were read piece by piece; nothing outside the pieces. Unchanging. */
public final class LineMotion {
    private record Part(double fromSeconds, double toSeconds, double[] hz, double[] cosine, double[] sine) {}

    private final List<Part> parts;

    private LineMotion(List<Part> parts) {
        this.parts = List.copyOf(parts);
    }

    /** Speed of the lines alone at a time, as a share of the mean speed; 0 outside the pieces. */
    public double share(double seconds) {
        Part part = at(seconds);
        double sum = 0;
        for (int j = 0; part != null && j < part.hz.length; j++) {
            double phase = Columns.phase(part.hz[j], seconds);
            sum += part.cosine[j] * Math.cos(phase) + part.sine[j] * Math.sin(phase);
        }
        return sum;
    }

    /** Mean of the lines' speed from one time to another, as a share of the mean speed; 0 if it does not begin inside a piece. */
    public double meanShare(double fromSeconds, double toSeconds) {
        Part part = at(0.5 * (fromSeconds + toSeconds));
        double sum = 0;
        for (int j = 0; part != null && j < part.hz.length; j++) {
            double to = Columns.phase(part.hz[j], toSeconds);
            double from = Columns.phase(part.hz[j], fromSeconds);
            double angle = part.cosine[j] * (Math.sin(to) - Math.sin(from))
                    - part.sine[j] * (Math.cos(to) - Math.cos(from));
            sum += angle / (2 * Math.PI * part.hz[j] * (toSeconds - fromSeconds));
        }
        return sum;
    }

    private Part at(double seconds) {
        int low = 0;
        int high = parts.size() - 1;
        while (low <= high) {
            int middle = (low + high) >>> 1;
            Part part = parts.get(middle);
            if (seconds < part.fromSeconds) {
                high = middle - 1;
            } else if (seconds > part.toSeconds) {
                low = middle + 1;
            } else {
                return part;
            }
        }
        return null;
    }

    /** Gathers parts in order of time. */
    static final class Builder {
        private final List<Part> parts = new ArrayList<>();

        Builder add(double fromSeconds, double toSeconds, double[] hz, double[] cosine, double[] sine) {
            parts.add(new Part(fromSeconds, toSeconds, hz.clone(), cosine.clone(), sine.clone()));
            return this;
        }

        LineMotion build() {
            return new LineMotion(parts);
        }
    }
}
