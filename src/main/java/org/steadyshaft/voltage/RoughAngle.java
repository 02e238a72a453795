package org.steadyshaft.voltage;

import java.util.ArrayList;
import java.util.List;
import org.steadyshaft.signal.CycleTimes;
import org.steadyshaft.signal.Stretch;
import org.steadyshaft.signal.Tachometer;

/**
 * The angle of the shaft over time [rad] as the crossings show it, averaged over one turn so that the spacing of the poles and most of the
 * noise are gone: smooth, and wrong by what the speed does within a turn. Follows run-ups, ramps and stops. Between two rows of crossings
 * that lie close together the angle goes on by the number of whole cycles that fits best; where nothing was counted for longer it is not
 * known. Unchanging.
 */
public final class RoughAngle {
    private static final double TURN = 2 * Math.PI;

    /** Rows of crossings no further apart than this, or than so many cycles, are one run. */
    private static final double BRIDGED_SECONDS = 0.25;

    private static final double BRIDGED_CYCLES = 6;

    /** Beyond the first and the last crossing the angle is drawn on for so many cycles. */
    private static final double BEYOND_CYCLES = 4;

    private final int polePairs;
    private final List<Run> runs;

    /** Knots of one run: time, angle, and the angle's slope there. */
    private record Run(Knots knots, Stretch known) {}

    /** Arrays wrapped once. */
    private static final class Knots {
        private double[] time = new double[256];
        private double[] angle = new double[256];
        private double[] slope = new double[0];
        private int count;

        void add(double seconds, double radians) {
            if (count > 0 && !(seconds > time[count - 1])) {
                return;
            }
            if (count == time.length) {
                time = java.util.Arrays.copyOf(time, 2 * count);
                angle = java.util.Arrays.copyOf(angle, 2 * count);
            }
            time[count] = seconds;
            angle[count++] = radians;
        }

        /** Slopes as parabolas through three neighbours have them. */
        void finish() {
            slope = new double[count];
            for (int i = 0; i < count; i++) {
                int a = Math.max(0, Math.min(count - 3, i - 1));
                slope[i] = count < 3 ? (angle[1] - angle[0]) / (time[1] - time[0]) : parabola(a, time[i]);
            }
        }

        private double parabola(int a, double at) {
            double first = (angle[a + 1] - angle[a]) / (time[a + 1] - time[a]);
            double second = (angle[a + 2] - angle[a + 1]) / (time[a + 2] - time[a + 1]);
            double bend = (second - first) / (time[a + 2] - time[a]);
            return first + bend * (2 * at - time[a] - time[a + 1]);
        }

        double speedAtEnd() {
            int back = Math.max(0, count - 3);
            return (angle[count - 1] - angle[back]) / (time[count - 1] - time[back]);
        }
    }

    private RoughAngle(int polePairs, List<Run> runs) {
        this.polePairs = polePairs;
        this.runs = runs;
    }

    /** The angle that counted crossings show. */
    public static RoughAngle of(CycleTimes cycles, Tachometer tachometer) {
        return of(cycles, tachometer, List.of());
    }

    /**
     * The same with places across which nothing is carried: what lies before them ends there, what lies behind begins there.
     *
     * @param slips where the recorder lost its place, in order
     */
    public static RoughAngle of(CycleTimes cycles, Tachometer tachometer, List<Stretch> slips) {
        int p = tachometer.polePairs();
        List<Run> runs = new ArrayList<>();
        Knots knots = new Knots();
        double before = 0;
        int slip = 0;
        double leastFrom = Double.NEGATIVE_INFINITY;
        for (int segment = 0; segment < cycles.segments(); segment++) {
            int first = cycles.firstOf(segment);
            int end = cycles.endOf(segment);
            double start = cycles.timeSeconds(first);
            double angle = 0;
            double slipFrom = Double.POSITIVE_INFINITY;
            double slipTo = leastFrom;
            while (slip < slips.size() && slips.get(slip).toSeconds() <= start) {
                slipFrom = Math.min(slipFrom, slips.get(slip).fromSeconds());
                slipTo = slips.get(slip++).toSeconds();
            }
            if (slipTo > leastFrom && knots.count > 1) {
                close(knots, p, leastFrom, slipFrom, runs);
                knots = new Knots();
            }
            leastFrom = slipTo;
            if (knots.count > 1) {
                double speed = 0.5
                        * (knots.speedAtEnd()
                                + TURN
                                        / p
                                        * (Math.min(3, end - 1 - first))
                                        / (cycles.timeSeconds(Math.min(end - 1, first + 3)) - start));
                double away = start - before;
                if (away > Math.max(BRIDGED_SECONDS, BRIDGED_CYCLES * TURN / p / speed)) {
                    close(knots, p, leastFrom, Double.POSITIVE_INFINITY, runs);
                    knots = new Knots();
                } else {
                    double since = angleAt(knots, start, speed);
                    angle = Math.max(1, Math.round(since / (TURN / p))) * (TURN / p);
                }
            }
            addRow(cycles, first, end, p, angle, knots);
            before = cycles.timeSeconds(end - 1);
        }
        if (knots.count > 1) {
            close(knots, p, leastFrom, Double.POSITIVE_INFINITY, runs);
        }
        return new RoughAngle(p, runs);
    }

    private static double angleAt(Knots knots, double seconds, double speed) {
        return knots.angle[knots.count - 1] + speed * (seconds - knots.time[knots.count - 1]);
    }

    /** The means of times and angles over one turn; at the ends of the row over what there is on both sides. */
    private static void addRow(CycleTimes cycles, int first, int end, int p, double angle, Knots knots) {
        double pitch = TURN / p;
        int count = end - first;
        double[] sum = new double[count + 1];
        double start = cycles.timeSeconds(first);
        for (int i = 0; i < count; i++) {
            sum[i + 1] = sum[i] + cycles.timeSeconds(first + i) - start;
        }
        int wide = Math.min(p, count);
        for (int i = 0; i + wide <= count; i++) {
            double at = i + 0.5 * (wide - 1);
            if (i == 0 && at > 0) {
                double speed = pitch * (count - 1) / (cycles.timeSeconds(end - 1) - start);
                double mean = sum[wide] / wide;
                double next = count > wide ? (sum[wide + 1] - sum[1]) / wide - mean : pitch / speed;
                double toStart = Math.max(0.25 * mean, at * next);
                knots.add(start + mean - toStart, angle + pitch * (at - toStart / next));
            }
            knots.add(start + (sum[i + wide] - sum[i]) / wide, angle + pitch * at);
        }
        double last = knots.time[knots.count - 1];
        int back = Math.max(0, knots.count - 2);
        double rest = cycles.timeSeconds(end - 1) - last;
        if (wide > 1 && rest > 0 && knots.count > 1) {
            double speed = (knots.angle[knots.count - 1] - knots.angle[back]) / (last - knots.time[back]);
            knots.add(last + rest, knots.angle[knots.count - 1] + speed * rest);
        }
    }

    private static void close(Knots knots, int p, double leastFrom, double mostTo, List<Run> runs) {
        knots.finish();
        double beyond = BEYOND_CYCLES * TURN / p;
        double from = Math.max(leastFrom, knots.time[0] - beyond / knots.slope[0]);
        double to = Math.min(mostTo, knots.time[knots.count - 1] + beyond / knots.slope[knots.count - 1]);
        if (!runs.isEmpty()) {
            from = Math.max(from, runs.get(runs.size() - 1).known.toSeconds());
        }
        runs.add(new Run(knots, new Stretch(from, Math.max(from, to))));
    }

    public int polePairs() {
        return polePairs;
    }

    /** Stretches over which the shaft was followed without a break, in order. */
    public List<Stretch> known() {
        return runs.stream().map(Run::known).toList();
    }

    /**
     * Angles at evenly spaced times inside one known stretch; each stretch counts from an angle of its own.
     *
     * @param stretch index into {@link #known()}
     * @param firstSeconds time of the first one
     * @param stepSeconds from one to the next
     * @param angle filled from index 0 [rad]
     */
    public void fill(int stretch, double firstSeconds, double stepSeconds, double[] angle, int count) {
        Knots knots = runs.get(stretch).knots;
        int at = 0;
        int high = knots.count;
        while (high - at > 1) {
            int middle = (at + high) >>> 1;
            if (knots.time[middle] <= firstSeconds) {
                at = middle;
            } else {
                high = middle;
            }
        }
        for (int i = 0; i < count; i++) {
            double t = firstSeconds + i * stepSeconds;
            while (at + 1 < knots.count && knots.time[at + 1] <= t) {
                at++;
            }
            angle[i] = between(knots, at, t);
        }
    }

    private static double between(Knots knots, int at, double t) {
        double since = t - knots.time[at];
        if (at + 1 >= knots.count || since < 0) {
            return knots.angle[at] + knots.slope[at] * since;
        }
        double h = knots.time[at + 1] - knots.time[at];
        double u = since / h;
        double rise = knots.angle[at + 1] - knots.angle[at];
        double a = h * knots.slope[at];
        double b = h * knots.slope[at + 1];
        return knots.angle[at] + u * (a + u * (3 * rise - 2 * a - b + u * (a + b - 2 * rise)));
    }
}
