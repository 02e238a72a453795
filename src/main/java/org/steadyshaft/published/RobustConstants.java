package org.steadyshaft.published;

/** Constants of robust statistics. */
public final class RobustConstants {
    /**
     * Turns the median absolute deviation of normal data into its standard deviation: 1 / Phi^-1(3/4). Source: F. R.
     * Hampel, The influence curve and its role in robust estimation, JASA 69 (1974) 383-393; recomputed.
     */
    public static final double MAD_TO_SIGMA = 1.4826022185056018;

    private RobustConstants() {}
}
