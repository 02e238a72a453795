package org.steadyshaft.voltage;

import java.util.Arrays;

/**
 * The voltage of one turn: W(theta) = sum over the shaft orders k = 1 to M of cosine_k cos(k theta) + sine_k sin(k theta), with theta the
 * angle of the shaft [rad]. The tacho gives v = theta' W(theta) (Faraday's law with a flux that depends on the angle alone), so W is in
 * volts times seconds a radian, or in the unit of the samples where that is not known. It holds the fundamental of the pole pairs, its
 * harmonics and the uneven poles; the mean over a turn is 0. Unchanging; may be shared by threads.
 *
 * <p>{@link #value} and {@link #slope} read a table with cubics between its entries, exact to 1e-6 of the largest order's amplitude.
 */
public final class TurnVoltage {
    private static final double TURN = 2 * Math.PI;
    private static final int CREST_POINTS = 256;

    /**
     * Table entries a period of the highest order. A cubic through value and slope errs by (step)^4 / 384 of a sine's amplitude (remainder
     * of Hermite interpolation): 2.4e-7 at 64 entries.
     */
    private static final int ENTRIES_A_PERIOD = 64;

    private final double[] cosine;
    private final double[] sine;
    private final int entries;

    /** Value, slope and curvature at entry i stand at 3 i, 3 i + 1, 3 i + 2, the last two times the entries' distance (squared). */
    private final double[] table;

    private TurnVoltage(double[] cosine, double[] sine) {
        this.cosine = cosine;
        this.sine = sine;
        int least = ENTRIES_A_PERIOD * cosine.length;
        this.entries = Integer.highestOneBit(least - 1) << 1;
        this.table = table();
    }

    /**
     * @param cosine amplitudes of the cosines, order 1 first; at least one order
     * @param sine as many amplitudes of the sines
     */
    public static TurnVoltage of(double[] cosine, double[] sine) {
        boolean finite = Arrays.stream(cosine).allMatch(Double::isFinite)
                && Arrays.stream(sine).allMatch(Double::isFinite);
        if (cosine.length == 0 || cosine.length != sine.length || !finite) {
            throw new IllegalArgumentException("turn voltage of " + cosine.length + " cosines and " + sine.length
                    + " sines; expected as many of both, all finite");
        }
        return new TurnVoltage(cosine.clone(), sine.clone());
    }

    private double[] table() {
        double step = TURN / entries;
        double[] filled = new double[3 * (entries + 1)];
        double[] unit = new double[entries];
        for (int i = 0; i < entries; i++) {
            unit[i] = Math.cos(i * step);
        }
        int quarter = entries / 4;
        for (int k = 1; k <= cosine.length; k++) {
            double a = cosine[k - 1];
            double b = sine[k - 1];
            double order = k * step;
            int at = 0;
            for (int i = 0; i < entries; i++) {
                double c = unit[at];
                double s = unit[(at - quarter) & (entries - 1)];
                double wave = a * c + b * s;
                filled[3 * i] += wave;
                filled[3 * i + 1] += order * (b * c - a * s);
                filled[3 * i + 2] -= order * order * wave;
                at = (at + k) & (entries - 1);
            }
        }
        System.arraycopy(filled, 0, filled, 3 * entries, 3);
        return filled;
    }

    /** Its orders alone. */
    public TurnOrders alone() {
        return new TurnOrders(cosine, sine);
    }

    /** Highest shaft order it holds. */
    public int orders() {
        return cosine.length;
    }

    /** @param order 1 to {@link #orders()} */
    public double cosine(int order) {
        return cosine[order - 1];
    }

    /** @param order 1 to {@link #orders()} */
    public double sine(int order) {
        return sine[order - 1];
    }

    /** Peak amplitude of an order; 1 to {@link #orders()}. */
    public double amplitude(int order) {
        return Math.hypot(cosine[order - 1], sine[order - 1]);
    }

    /** Root of the mean of W^2 over a turn. */
    public double rms() {
        double sum = 0;
        for (int k = 0; k < cosine.length; k++) {
            sum += cosine[k] * cosine[k] + sine[k] * sine[k];
        }
        return Math.sqrt(0.5 * sum);
    }

    /** Peak over root mean square of the wave of a pitch, uneven poles left out: 1.41 of a sine, 1 of a square. */
    public double crest(int polePairs) {
        double peak = 0;
        double squares = 0;
        for (int i = 0; i < CREST_POINTS; i++) {
            double value = 0;
            for (int k = 1; k * polePairs <= orders(); k++) {
                double angle = TURN * i * k / CREST_POINTS;
                value += cosine(k * polePairs) * Math.cos(angle) + sine(k * polePairs) * Math.sin(angle);
            }
            peak = Math.max(peak, Math.abs(value));
            squares += value * value;
        }
        return peak / Math.sqrt(squares / CREST_POINTS);
    }

    /** W at an angle [rad]; any number of turns either way. */
    public double value(double angle) {
        double place = place(angle);
        int entry = (int) place;
        double u = place - entry;
        int at = 3 * entry;
        return cubic(u, table[at], table[at + 3], table[at + 1], table[at + 4]);
    }

    /** dW/dtheta at an angle [rad]. */
    public double slope(double angle) {
        double place = place(angle);
        int entry = (int) place;
        double u = place - entry;
        int at = 3 * entry;
        return cubic(u, table[at + 1], table[at + 4], table[at + 2], table[at + 5]) * (entries / TURN);
    }

    /**
     * Values and slopes at many angles, for hot loops: one table look-up for both.
     *
     * @param angle angles [rad], from index 0 on
     * @param value takes W
     * @param slope takes dW/dtheta
     */
    public void fill(double[] angle, double[] value, double[] slope, int count) {
        double perRadian = entries / TURN;
        for (int i = 0; i < count; i++) {
            double place = place(angle[i]);
            int entry = (int) place;
            double u = place - entry;
            int at = 3 * entry;
            double d0 = table[at + 1];
            double d1 = table[at + 4];
            value[i] = cubic(u, table[at], table[at + 3], d0, d1);
            slope[i] = cubic(u, d0, d1, table[at + 2], table[at + 5]) * perRadian;
        }
    }

    /** Place in the table, 0 to {@link #entries} exclusive. */
    private double place(double angle) {
        double turns = angle * (1 / TURN);
        double place = (turns - Math.floor(turns)) * entries;
        return place < entries ? place : 0;
    }

    /** The cubic over 0 to 1 with given values and slopes at its ends. */
    private static double cubic(double u, double from, double to, double fromSlope, double toSlope) {
        double rise = to - from;
        return from + u * (fromSlope + u * (3 * rise - 2 * fromSlope - toSlope + u * (fromSlope + toSlope - 2 * rise)));
    }
}
