package org.steadyshaft.voltage;

/** Values at increasing times with cubics between them whose slopes are those of parabolas through three neighbours; held beyond the ends. */
public final class SeriesCubic {
    private final double[] time;
    private final double[] value;
    private final double[] slope;
    private final int count;

    /** @param count how many of both arrays count; at least 1. The arrays are kept, not copied. */
    public SeriesCubic(double[] time, double[] value, int count) {
        this.time = time;
        this.value = value;
        this.count = count;
        this.slope = new double[count];
        for (int i = 1; i + 1 < count; i++) {
            double before = time[i] - time[i - 1];
            double after = time[i + 1] - time[i];
            double left = (value[i] - value[i - 1]) / before;
            double right = (value[i + 1] - value[i]) / after;
            slope[i] = (left * after + right * before) / (before + after);
        }
    }

    /** Adds the curve to samples that stand at evenly spaced times. */
    public void addTo(double[] samples, double firstSeconds, double stepSeconds) {
        int at = 0;
        for (int i = 0; i < samples.length; i++) {
            double t = firstSeconds + i * stepSeconds;
            while (at + 1 < count && time[at + 1] <= t) {
                at++;
            }
            samples[i] += between(at, t);
        }
    }

    private double between(int at, double t) {
        if (at + 1 >= count || t <= time[at]) {
            return value[at];
        }
        double h = time[at + 1] - time[at];
        double u = (t - time[at]) / h;
        double rise = value[at + 1] - value[at];
        double a = h * slope[at];
        double b = h * slope[at + 1];
        return value[at] + u * (a + u * (3 * rise - 2 * a - b + u * (a + b - 2 * rise)));
    }
}
