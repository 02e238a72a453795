package org.steadyshaft.voltage;

/**
 * What the waveform says place by place, every quarter of a cell: angle, level and offset by local least squares, with the noise there.
 * Arrays are wrapped here and not to be changed by those who read them; a series belongs to one piece of the recording.
 */
public final class LocalSeries {
    final int count;
    final double[] time;
    final double[] lack;
    final double[] angle;
    final double[] level;
    final double[] offset;
    final double[] variance;
    final double[] power;

    LocalSeries(int count) {
        this.count = count;
        this.time = new double[count];
        this.lack = new double[count];
        this.angle = new double[count];
        this.level = new double[count];
        this.offset = new double[count];
        this.variance = new double[count];
        this.power = new double[count];
    }

    public int size() {
        return count;
    }

    /** Tells of one place what was found at another; its time stays. */
    void copy(int from, int to) {
        lack[to] = lack[from];
        level[to] = level[from];
        offset[to] = offset[from];
        variance[to] = variance[from];
        power[to] = power[from];
    }

    /** Time [s] after the recording's first sample. */
    public double timeSeconds(int place) {
        return time[place];
    }

    /** Angle of the shaft [rad]. */
    public double angle(int place) {
        return angle[place];
    }

    /** What the reference angle lacked [rad]. */
    public double lack(int place) {
        return lack[place];
    }

    /** Level: voltage over what the turn's voltage gives at this speed; about 1, near 0 where the lead is open. */
    public double level(int place) {
        return level[place];
    }

    /** A copy of the levels of all places. */
    public double[] levels() {
        return level.clone();
    }

    /** Offset in the unit of the samples. */
    public double offset(int place) {
        return offset[place];
    }

    /** Variance of the angle [rad^2] that the residual there makes. */
    public double variance(int place) {
        return variance[place];
    }

    /** Mean square of the residual there. */
    public double power(int place) {
        return power[place];
    }

    /** A copy of the mean squares of the residual of all places. */
    public double[] powers() {
        return power.clone();
    }
}
