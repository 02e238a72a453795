package org.steadyshaft.numeric;

/** The cubic through four evenly spaced values. */
public final class Cubic {
    private Cubic() {}

    /** Its value at {@code x}, where a, b, c and d stand at -1, 0, 1 and 2. */
    public static double at(double a, double b, double c, double d, double x) {
        double c1 = -a / 3 - b / 2 + c - d / 6;
        double c2 = (a + c) / 2 - b;
        double c3 = (d - a) / 6 + (b - c) / 2;
        return b + x * (c1 + x * (c2 + x * c3));
    }
}
