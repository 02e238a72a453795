package org.steadyshaft.voltage;

/**
 * A piece of steady running: samples of the tacho's voltage with the smooth angle of the shaft at each. Plain arrays for the inner loops;
 * the angle is made finer when lines of some size are found, nothing else changes.
 */
final class AnglePiece {
    /** The smooth angle's speed is kept at this distance: its swings are slower than 10 Hz. */
    private static final double SLOW_SECONDS = 0.02;

    final double firstSeconds;
    final double stepSeconds;
    final double[] volts;
    final double[] angle;
    final double[] radPerSecond;
    final double meanRadPerSecond;

    /** The smooth change of the angle alone, every so many samples. */
    final double[] slowRadPerSecond;

    final int slowStride;

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
        this.slowStride = (int) Math.max(1, Math.floor(SLOW_SECONDS / stepSeconds));
        this.slowRadPerSecond = new double[(radPerSecond.length + slowStride - 1) / slowStride];
        for (int i = 0; i < slowRadPerSecond.length; i++) {
            slowRadPerSecond[i] = radPerSecond[i * slowStride];
        }
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

    /** Adds a line of the speed, of so large a share of its mean, to the angle and its change. */
    void bend(double hz, double cosine, double sine) {
        double swing = meanRadPerSecond / (2 * Math.PI * hz);
        for (int from = 0; from < angle.length; from += Columns.BLOCK) {
            double phase = Columns.phase(hz, firstSeconds + from * stepSeconds);
            double c = Math.cos(phase);
            double s = Math.sin(phase);
            double turnCos = Math.cos(2 * Math.PI * hz * stepSeconds);
            double turnSin = Math.sin(2 * Math.PI * hz * stepSeconds);
            for (int i = from; i < Math.min(angle.length, from + Columns.BLOCK); i++) {
                angle[i] += swing * (cosine * c + sine * s);
                radPerSecond[i] += meanRadPerSecond * (sine * c - cosine * s);
                double next = c * turnCos - s * turnSin;
                s = s * turnCos + c * turnSin;
                c = next;
            }
        }
    }
}
