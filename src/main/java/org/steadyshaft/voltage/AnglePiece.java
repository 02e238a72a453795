package org.steadyshaft.voltage;

/**
 * A piece of steady running: samples of the tacho's voltage with the smooth angle of the shaft at each. Plain arrays for the inner loops;
 * the angle is made finer when lines of some size are found, nothing else changes.
 */
final class AnglePiece {
    /** The smooth angle's speed is kept at this distance: its swings are slower than 30 Hz, and lines up to 100 Hz are asked of it. */
    private static final double SLOW_SECONDS = 0.004;

    final double firstSeconds;
    final double stepSeconds;
    final double[] volts;
    final double[] angle;
    final double[] radPerSecond;
    final double meanRadPerSecond;

    /** The smooth change of the angle alone, every so many samples. */
    final double[] slowRadPerSecond;

    final int slowStride;

    private MainsPhase tones = MainsPhase.STEADY;
    private MainsPhase lines = MainsPhase.STEADY;

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

    /**
     * When a piece was, and how the mains ran in it.
     *
     * @param fromSeconds its begin
     * @param toSeconds its end
     */
    record Span(double fromSeconds, double toSeconds, MainsPhase mains) {}

    Span span() {
        return new Span(firstSeconds, firstSeconds + seconds(), lines);
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

    /** Says how the phase of the mains runs in this piece as its pick-up shows it. */
    void followTones(MainsPhase phase) {
        tones = phase;
    }

    /** Says how the phase of the mains runs in this piece as the speed's lines show it. */
    void followLines(MainsPhase phase) {
        lines = phase;
    }

    MainsPhase tones() {
        return tones;
    }

    MainsPhase lines() {
        return lines;
    }

    /**
     * By how much the phase of a line turns on from a sample to the next within a block that begins at a time [rad].
     *
     * @param mains how the mains' phase runs
     * @param multiple of the mains; 0 for a line that is none
     */
    double turn(MainsPhase mains, double hz, int multiple, double seconds) {
        double even = 2 * Math.PI * hz * stepSeconds;
        if (multiple == 0 || mains == MainsPhase.STEADY) {
            return even;
        }
        double block = Columns.BLOCK * stepSeconds;
        return even + multiple * (mains.ahead(seconds + block) - mains.ahead(seconds)) / Columns.BLOCK;
    }

    /** Adds a line of the speed, of so large a share of its mean, to the angle and its change. */
    void bend(double hz, int multiple, double cosine, double sine) {
        double swing = meanRadPerSecond / (2 * Math.PI * hz);
        for (int from = 0; from < angle.length; from += Columns.BLOCK) {
            double at = firstSeconds + from * stepSeconds;
            double phase = lines.phase(hz, multiple, at);
            double turn = turn(lines, hz, multiple, at);
            double c = Math.cos(phase);
            double s = Math.sin(phase);
            double turnCos = Math.cos(turn);
            double turnSin = Math.sin(turn);
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
