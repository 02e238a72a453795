package org.steadyshaft.voltage;

/**
 * A piece of steady running: samples of the tacho's voltage with the smooth angle of the shaft at each. Plain arrays for the inner loops;
 * the angle is made finer when lines of some size are found, nothing else changes.
 */
final class AnglePiece {
    final double firstSeconds;
    final double stepSeconds;
    final double[] volts;
    final double[] angle;
    final double[] radPerSecond;
    final double meanRadPerSecond;

    AnglePiece(double firstSeconds, double stepSeconds, double[] volts, double[] angle, double[] radPerSecond) {
        this.firstSeconds = firstSeconds;
        this.stepSeconds = stepSeconds;
        this.volts = volts;
        this.angle = angle;
        this.radPerSecond = radPerSecond;
        double sum = 0;
        for (double w : radPerSecond) {
            sum += w;
        }
        this.meanRadPerSecond = sum / radPerSecond.length;
    }

    int samples() {
        return volts.length;
    }

    double seconds() {
        return volts.length * stepSeconds;
    }

    double shaftHz() {
        return meanRadPerSecond / (2 * Math.PI);
    }

    /** Turns the angle by a constant. */
    void turn(double rad) {
        for (int i = 0; i < angle.length; i++) {
            angle[i] += rad;
        }
    }
}
