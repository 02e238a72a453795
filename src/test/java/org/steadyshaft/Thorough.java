package org.steadyshaft;

import java.util.stream.LongStream;

/**
 * How much the seeded tests draw. A plain run draws enough to notice a stage that went wrong; with -Dsteadyshaft.thorough=true, as
 * before a release, each draws all it was written for.
 */
public final class Thorough {
    private static final boolean ASKED = Boolean.getBoolean("steadyshaft.thorough");

    private Thorough() {}

    /** One of two counts. */
    public static int count(int plain, int thorough) {
        return ASKED ? thorough : plain;
    }

    /** Seeds from 1 to one of two counts. */
    public static LongStream seeds(int plain, int thorough) {
        return LongStream.rangeClosed(1, count(plain, thorough));
    }
}
