package org.steadyshaft.simulate;

import java.util.ArrayList;
import java.util.List;

/** What the work asks of the shaft: a torque over time and angle, made of parts. Immutable. */
public final class Load {
    /** No load at all beyond the motor's own friction. */
    public static final Load NONE = new Load(List.of(), List.of());

    /** A part: torque [N m] at a time and an angle. */
    @FunctionalInterface
    private interface Part {
        double torque(double timeSeconds, double turns);
    }

    private final List<Part> parts;
    private final List<Double> edges;

    private Load(List<Part> parts, List<Double> edges) {
        this.parts = parts;
        this.edges = edges;
    }

    private Load with(Part part, double... moreEdges) {
        List<Part> all = new ArrayList<>(parts);
        all.add(part);
        List<Double> allEdges = new ArrayList<>(edges);
        for (double edge : moreEdges) {
            allEdges.add(edge);
        }
        allEdges.sort(null);
        return new Load(all, allEdges);
    }

    /** Adds a constant torque [N m]. */
    public Load constant(double torque) {
        return with((t, turns) -> torque);
    }

    /** Adds a torque [N m] from a time on. */
    public Load step(double atSeconds, double torque) {
        return with((t, turns) -> t >= atSeconds ? torque : 0, atSeconds);
    }

    /** Adds a grip of the clay and its release: a torque [N m] that comes and goes like half a sine. */
    public Load grip(double fromSeconds, double lengthSeconds, double torque) {
        return with(
                (t, turns) -> t <= fromSeconds || t >= fromSeconds + lengthSeconds
                        ? 0
                        : torque * Math.sin(Math.PI * (t - fromSeconds) / lengthSeconds),
                fromSeconds,
                fromSeconds + lengthSeconds);
    }

    /** Adds a torque [N m] that swings with the angle, such as a belt's joint: so many swings a turn of the motor. */
    public Load swing(double swingsATurn, double torque) {
        return with((t, turns) -> torque * Math.sin(2 * Math.PI * swingsATurn * turns));
    }

    /** Torque [N m] at a time after the start and an angle in turns. */
    public double torque(double timeSeconds, double turns) {
        double sum = 0;
        for (Part part : parts) {
            sum += part.torque(timeSeconds, turns);
        }
        return sum;
    }

    /** The next time after {@code seconds} at which the torque has a corner; infinity if there is none. */
    public double nextEdgeSeconds(double seconds) {
        for (double edge : edges) {
            if (edge > seconds + 1e-12) {
                return edge;
            }
        }
        return Double.POSITIVE_INFINITY;
    }
}
