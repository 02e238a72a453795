package org.steadyshaft.voltage;

/**
 * The columns of the linear model beside the turn's voltage: an offset, pick-up at multiples of the mains, and lines of the speed. A line
 * at f is a small extra angle d = (w0 / 2 pi f) (c cos + s sin), which adds d/dt [W d] to the voltage; so c and s are amplitudes of the
 * speed as a share of its mean w0.
 *
 * @param humHz frequencies of pick-up
 * @param lineHz frequencies of speed lines
 */
record Columns(Frequencies humHz, Frequencies lineHz) {
    /** Phases are computed afresh so often; between, they are turned on. Errors grow by 1e-16 a sample. */
    static final int BLOCK = 128;

    /** Frequencies [Hz] and which multiple of the mains each is (0 for none), in a fixed order. */
    static final class Frequencies {
        static final Frequencies NONE = new Frequencies(new double[0], new int[0]);

        private final double[] hz;
        private final int[] multiple;

        Frequencies(double[] hz, int[] multiple) {
            this.hz = hz.clone();
            this.multiple = multiple.clone();
        }

        int size() {
            return hz.length;
        }

        double get(int index) {
            return hz[index];
        }

        int multiple(int index) {
            return multiple[index];
        }
    }

    int count() {
        return 1 + 2 * humHz.size() + 2 * lineHz.size();
    }

    /** Index of the cosine column of a hum line; the sine's is the next. */
    int hum(int index) {
        return 1 + 2 * index;
    }

    /** Index of the cosine column of a speed line; the sine's is the next. */
    int line(int index) {
        return 1 + 2 * humHz.size() + 2 * index;
    }

    /**
     * Fills rows of a block: out[sample][column].
     *
     * @param value W at the block's samples
     * @param slope dW/dtheta there
     */
    void fill(AnglePiece piece, int from, int count, double[] value, double[] slope, double[][] out) {
        for (int i = 0; i < count; i++) {
            out[i][0] = 1;
        }
        double at = piece.firstSeconds + from * piece.stepSeconds;
        for (int j = 0; j < humHz.size(); j++) {
            double phase = piece.tones().phase(humHz.get(j), humHz.multiple(j), at);
            hum(phase, piece.turn(piece.tones(), humHz.get(j), humHz.multiple(j), at), count, hum(j), out);
        }
        for (int j = 0; j < lineHz.size(); j++) {
            line(j, at, piece, from, count, value, slope, out);
        }
    }

    private static void hum(double phase, double turn, int count, int column, double[][] out) {
        double turnCos = Math.cos(turn);
        double turnSin = Math.sin(turn);
        double c = Math.cos(phase);
        double s = Math.sin(phase);
        for (int i = 0; i < count; i++) {
            out[i][column] = c;
            out[i][column + 1] = s;
            double next = c * turnCos - s * turnSin;
            s = s * turnCos + c * turnSin;
            c = next;
        }
    }

    private void line(
            int index,
            double at,
            AnglePiece piece,
            int from,
            int count,
            double[] value,
            double[] slope,
            double[][] out) {
        double hz = lineHz.get(index);
        int column = line(index);
        double turn = piece.turn(piece.lines(), hz, lineHz.multiple(index), at);
        double turnCos = Math.cos(turn);
        double turnSin = Math.sin(turn);
        double phase = piece.lines().phase(hz, lineHz.multiple(index), at);
        double c = Math.cos(phase);
        double s = Math.sin(phase);
        double share = piece.meanRadPerSecond / (2 * Math.PI * hz);
        for (int i = 0; i < count; i++) {
            double along = share * piece.radPerSecond[from + i] * slope[i];
            double across = piece.meanRadPerSecond * value[i];
            out[i][column] = along * c - across * s;
            out[i][column + 1] = along * s + across * c;
            double next = c * turnCos - s * turnSin;
            s = s * turnCos + c * turnSin;
            c = next;
        }
    }

    /** Phase [rad] of a line at a time, exact also after hours: whole turns are taken off first. */
    static double phase(double hz, double seconds) {
        double turns = hz * seconds;
        return 2 * Math.PI * (turns - Math.floor(turns));
    }
}
