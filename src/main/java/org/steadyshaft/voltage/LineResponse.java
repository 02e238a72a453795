package org.steadyshaft.voltage;

import org.hipparchus.complex.Complex;

/**
 * How the two parts of a speed line come through to the recording, as a share of what Faraday's law gives: the part of the angle, dW/dtheta
 * times the angle's swing, and the part of the level, W times the speed's swing. Both are 1 where tacho and recorder are true to the
 * speed; turned and shrunk where the input is coupled by a capacitor; the level's is too small where something holds the peaks back.
 */
interface LineResponse {
    LineResponse TRUE = new LineResponse() {
        @Override
        public Complex angle(double hz) {
            return Complex.ONE;
        }

        @Override
        public Complex level(double hz) {
            return Complex.ONE;
        }
    };

    /** What comes through of the angle's part of a line at a frequency. */
    Complex angle(double hz);

    /** What comes through of the level's part. */
    Complex level(double hz);

    /** Share by which the level's part itself is off, one standard deviation. */
    default double vague() {
        return 0;
    }

    /** A recording whose level follows the speed only by a share; its angle is the shaft's. */
    record Held(double share) implements LineResponse {
        /** What holds peaks back bends the level's part over the wave too: of the square of what is missing. Measured on bent waves. */
        private static final double BENT_SHARE = 0.2;

        @Override
        public double vague() {
            return BENT_SHARE * (1 - share) * (1 - share);
        }

        @Override
        public Complex angle(double hz) {
            return Complex.ONE;
        }

        @Override
        public Complex level(double hz) {
            return new Complex(share);
        }
    }

    /**
     * An input behind a capacitor and a resistor, H(f) = i f / (corner + i f): the turn's voltage is known as it came through, so what counts
     * is each sideband's H over that of the harmonic that bears it. Half the sum and half the difference of the two sidebands are the
     * parts of angle and level (amplitude and phase modulation of a carrier, handbooks of modulation).
     */
    final class Coupled implements LineResponse {
        private final double cornerHz;
        private final double cycleHz;
        private final double[] power;

        /** @param power square of the amplitude of each harmonic of the tacho, the fundamental first */
        Coupled(double cornerHz, double cycleHz, double[] power) {
            this.cornerHz = cornerHz;
            this.cycleHz = cycleHz;
            this.power = power.clone();
        }

        double cornerHz() {
            return cornerHz;
        }

        @Override
        public Complex angle(double hz) {
            Complex sum = Complex.ZERO;
            double all = 0;
            for (int k = 1; k <= power.length; k++) {
                double weight = k * k * power[k - 1];
                double ratio = hz / (k * cycleHz);
                Complex both = upper(k, hz).multiply(1 + ratio).add(lower(k, hz).multiply(1 - ratio));
                sum = sum.add(both.multiply(0.5 * weight));
                all += weight;
            }
            return sum.divide(all);
        }

        @Override
        public Complex level(double hz) {
            Complex sum = Complex.ZERO;
            double all = 0;
            for (int k = 1; k <= power.length; k++) {
                double ratio = hz / (k * cycleHz);
                Complex apart =
                        upper(k, hz).multiply(1 + ratio).subtract(lower(k, hz).multiply(1 - ratio));
                sum = sum.add(apart.multiply(0.5 * power[k - 1] / ratio));
                all += power[k - 1];
            }
            return sum.divide(all);
        }

        private Complex upper(int harmonic, double hz) {
            return passes(harmonic * cycleHz + hz).divide(passes(harmonic * cycleHz));
        }

        /** Turned back, as the lower sideband is the mirror of the upper. */
        private Complex lower(int harmonic, double hz) {
            return passes(harmonic * cycleHz - hz)
                    .divide(passes(harmonic * cycleHz))
                    .conjugate();
        }

        private Complex passes(double hz) {
            Complex swing = new Complex(0, hz);
            return swing.divide(swing.add(cornerHz));
        }
    }
}
