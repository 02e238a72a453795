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
     * Fits a line. The residuals are summed one by one: as a difference of large sums their square would drown.
     *
     * @throws IllegalArgumentException with fewer than two different x, or different numbers of x and y
     */
    public static LineFit of(double[] x, double[] y) {
        if (x.length != y.length || x.length < 2) {
            throw new IllegalArgumentException(x.length + " x and " + y.length + " y; expected two or more of each");
        }
        SimpleRegression regression = new SimpleRegression();
        for (int i = 0; i < x.length; i++) {
            regression.addData(x[i], y[i]);
        }
        double intercept = regression.getIntercept();
        double slope = regression.getSlope();
        double squares = 0;
        for (int i = 0; i < x.length; i++) {
            double residual = y[i] - (intercept + slope * x[i]);
            squares += residual * residual;
        }
        double error = x.length > 2 ? Math.sqrt(squares / (x.length - 2) / regression.getXSumSquares()) : 0;
        return new LineFit(intercept, slope, error);
    }

    public double at(double x) {
        return intercept + slope * x;
    }
}
