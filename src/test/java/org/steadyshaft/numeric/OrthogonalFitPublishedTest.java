package org.steadyshaft.numeric;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;

/**
 * The Longley data set of the NIST statistical reference datasets for linear least squares (Longley 1967): seven columns that are nearly alike
 * (condition number 2e7 where each is scaled). Data and certified values from memory; each confirms the other.
 */
class OrthogonalFitPublishedTest {
    private static final double[] EMPLOYED = {
        60323, 61122, 60171, 61187, 63221, 63639, 64989, 63761, 66019, 67857, 68169, 66513, 68655, 69564, 69331, 70551
    };
    private static final double[][] COLUMNS = {
        {1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1},
        {83.0, 88.5, 88.2, 89.5, 96.2, 98.1, 99.0, 100.0, 101.2, 104.6, 108.4, 110.8, 112.6, 114.2, 115.7, 116.9},
        {
            234289, 259426, 258054, 284599, 328975, 346999, 365385, 363112, 397469, 419180, 442769, 444546, 482704,
            502601, 518173, 554894
        },
        {2356, 2325, 3682, 3351, 2099, 1932, 1870, 3578, 2904, 2822, 2936, 4681, 3813, 3931, 4806, 4007},
        {1590, 1456, 1616, 1650, 3099, 3594, 3547, 3350, 3048, 2857, 2798, 2637, 2552, 2514, 2572, 2827},
        {
            107608, 108632, 109773, 110929, 112075, 113270, 115094, 116219, 117388, 118734, 120445, 121950, 123366,
            125368, 127852, 130081
        },
        {1947, 1948, 1949, 1950, 1951, 1952, 1953, 1954, 1955, 1956, 1957, 1958, 1959, 1960, 1961, 1962}
    };
    private static final double[] CERTIFIED = {
        -3482258.63459582,
        15.0618722713733,
        -0.0358191792925910,
        -2.02022980381683,
        -1.03322686717359,
        -0.0511041056535807,
        1829.15146461355
    };
    private static final double RESIDUAL_DEVIATION = 304.854073561965;

    @Test
    void longley() {
        OrthogonalFit fit = new OrthogonalFit(EMPLOYED.clone());
        for (double[] column : COLUMNS) {
            fit.add(column.clone());
        }
        double[] found = fit.coefficients();
        for (int i = 0; i < CERTIFIED.length; i++) {
            assertEquals(1, found[i] / CERTIFIED[i], 1e-6, "coefficient " + i);
        }
        double deviation = Math.sqrt(fit.energy() / (EMPLOYED.length - COLUMNS.length));
        assertEquals(1, deviation / RESIDUAL_DEVIATION, 1e-9);
    }
}
