package org.steadyshaft.numeric;

import org.hipparchus.stat.regression.SimpleRegression;

/**
 * A straight line through points by least squares, y = intercept + slope x.
 *
 * @param intercept value at x = 0
 * @param slope change of y for each unit of x
 * @param slopeError standard error of the slope for independent residuals; 0 with two points
 */
public record LineFit(double intercept, double slope, double slopeError) {
    public LineFit {
        if (!Double.isFinite(intercept) || !Double.isFinite(slope) || !(slopeError >= 0)) {
            throw new IllegalArgumentException("line " + intercept + " + " + slope + " x, error " + slopeError);
        }
    }

    /**
     * Fits a line.
     *
     * @throws IllegalArgumentException with fewer than two different x
     */
    public static LineFit of(double[] x, double[] y) {
        SimpleRegression regression = new SimpleRegression();
        for (int i = 0; i < x.length; i++) {
            regression.addData(x[i], y[i]);
        }
        double error = x.length > 2 ? regression.getSlopeStdErr() : 0;
        return new LineFit(regression.getIntercept(), regression.getSlope(), error);
    }

    public double at(double x) {
        return intercept + slope * x;
    }
}
