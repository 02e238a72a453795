package org.steadyshaft.numeric;

/** The input of the files made by scipy/recipe.py, by the same formulas. */
final class ScipyInput {
    static final double RATE_HZ = 8000;

    private ScipyInput() {}

    /** Evenly spread in -1 to 1 by the generator of NIST SP 1065, section 12.4. */
    static double[] noise(int count, long seed) {
        double[] out = new double[count];
        long state = seed;
        for (int i = 0; i < count; i++) {
            state = 16807 * state % 2147483647L;
            out[i] = 2.0 * state / 2147483647L - 1;
        }
        return out;
    }

    /** Three sines, an offset and noise. */
    static double[] wave(int count, long seed) {
        double[] out = noise(count, seed);
        for (int i = 0; i < count; i++) {
            double t = i / RATE_HZ;
            out[i] = 0.3
                    + Math.sin(2 * Math.PI * 200 * t + 0.4)
                    + 0.5 * Math.sin(2 * Math.PI * 313.7 * t + 1.1)
                    + 0.4 * Math.sin(2 * Math.PI * 1234.5 * t + 2.3)
                    + 0.2 * out[i];
        }
        return out;
    }

    /** The wave with a raised-cosine rise and fall over so many samples. */
    static double[] faded(int count, long seed, double over) {
        double[] out = wave(count, seed);
        for (int i = 0; i < count; i++) {
            double edge = Math.min(1, Math.min(i, count - i) / over);
            out[i] *= 0.5 - 0.5 * Math.cos(Math.PI * edge);
        }
        return out;
    }
}
