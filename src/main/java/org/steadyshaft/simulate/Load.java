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

    /**
     * Adds a belt and the wheel it drives: a lump once a turn of the wheel, a seam once a turn of the belt.
     *
     * @param belt how it moves
     * @param lumpTorque of a wheel out of balance or a lump of clay, swinging like a sine [N m]
     * @param seamTorque of the seam as it runs over the pulley, a bump over a small part of the belt [N m]
     */
    public Load belt(Belt belt, double lumpTorque, double seamTorque) {
        return with((t, turns) ->
                lumpTorque * Math.sin(2 * Math.PI * belt.wheelTurns(turns)) + seamTorque * bump(belt.beltTurns(turns)));
    }

    /**
     * How a belt moves. Where it does not slip the wheel turns once for {@code ratio} turns of the motor and the belt once for its
     * length over the pulley's circumference; slip takes its share from both.
     *
     * @param ratio turns of the motor for one of the wheel
     * @param turns of the motor for one of the belt
     * @param slipPercent by how much belt and wheel stay behind
     */
    public record Belt(double ratio, double turns, double slipPercent) {
        public Belt {
            if (!(ratio > 0) || !(turns > 0) || !(slipPercent >= 0) || slipPercent >= 100) {
                throw new IllegalArgumentException(
                        "belt of ratio " + ratio + ", " + turns + " turns of the motor a turn of its own, slip "
                                + slipPercent + " %; expected above 0 and a slip of 0 to 100 %");
            }
        }

        /** Turns of the wheel after so many of the motor. */
        public double wheelTurns(double motorTurns) {
            return (1 - slipPercent / 100) * motorTurns / ratio;
        }

        /** Turns of the belt after so many of the motor. */
        public double beltTurns(double motorTurns) {
            return (1 - slipPercent / 100) * motorTurns / turns;
        }
    }

    /** A seam takes this share of the belt. */
    private static final double SEAM_SHARE = 0.04;

    /** Half a sine over the seam, nothing beside it. */
    private static double bump(double beltTurns) {
        double place = (beltTurns - Math.floor(beltTurns)) / SEAM_SHARE;
        return place < 1 ? Math.sin(Math.PI * place) : 0;
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
