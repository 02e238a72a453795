package org.steadyshaft.numeric;

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
     * Fits a line, in three passes: means, sums about them, residuals. As a difference of large sums the squares would drown.
     *
     * @throws IllegalArgumentException with fewer than two different x, or different numbers of x and y
     */
    public static LineFit of(double[] x, double[] y) {
        if (x.length != y.length || x.length < 2) {
            throw new IllegalArgumentException(x.length + " x and " + y.length + " y; expected two or more of each");
        }
        double middleX = mean(x);
        double middleY = mean(y);
        double squaresX = 0;
        double products = 0;
        for (int i = 0; i < x.length; i++) {
            double away = x[i] - middleX;
            squaresX += away * away;
            products += away * (y[i] - middleY);
        }
        double slope = products / squaresX;
        double intercept = middleY - slope * middleX;
        double squares = 0;
        for (int i = 0; i < x.length; i++) {
            double residual = y[i] - middleY - slope * (x[i] - middleX);
            squares += residual * residual;
        }
        double error = x.length > 2 ? Math.sqrt(squares / (x.length - 2) / squaresX) : 0;
        return new LineFit(intercept, slope, error);
    }

    private static double mean(double[] values) {
        double sum = 0;
        for (double value : values) {
            sum += value;
        }
        double about = sum / values.length;
        double left = 0;
        for (double value : values) {
            left += value - about;
        }
        return about + left / values.length;
    }

    public double at(double x) {
        return intercept + slope * x;
    }
}
