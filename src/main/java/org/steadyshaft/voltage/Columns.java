package org.steadyshaft.voltage;

import java.util.List;

/**
 * The columns of the linear model beside the turn's voltage: an offset, pick-up at multiples of the mains, and lines of the speed. A line
 * at f is a small extra angle d = (w0 / 2 pi f) (c cos + s sin), which adds d/dt [W d] to the voltage; so c and s are amplitudes of the
 * speed as a share of its mean w0.
 * {@link ColumnBlock} holds their values.
 *
 * @param humHz frequencies of pick-up
 * @param lineHz frequencies of speed lines
 * @param response how the lines come through to the recording
 */
record Columns(Frequencies humHz, Frequencies lineHz, LineResponse response) {
    /** Phases are computed afresh every so many samples. */
    static final int BLOCK = 64;

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

    Columns(Frequencies humHz, Frequencies lineHz) {
        this(humHz, lineHz, LineResponse.TRUE);
    }

    /** The same with some of the lines alone. */
    Columns only(List<Integer> lines) {
        double[] hz = lines.stream().mapToDouble(lineHz::get).toArray();
        int[] multiple = lines.stream().mapToInt(lineHz::multiple).toArray();
        return new Columns(humHz, new Frequencies(hz, multiple), response);
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

    /** Phase [rad] of a line at a time, exact also after hours: whole turns are taken off first. */
    static double phase(double hz, double seconds) {
        double turns = hz * seconds;
        return 2 * Math.PI * (turns - Math.floor(turns));
    }
}
