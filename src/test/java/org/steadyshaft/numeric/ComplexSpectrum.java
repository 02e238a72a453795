package org.steadyshaft.numeric;

import org.steadyshaft.published.CosineWindow;

/** The Hann-windowed spectrum of complex samples from two real transforms, for the tests. */
final class ComplexSpectrum {
    private ComplexSpectrum() {}

    /** |X[k]|^2 for k = 0 to N/2 of real + j imaginary: the upper half of the spectrum is not needed here. */
    static double[] hannPower(double[] real, double[] imaginary) {
        int length = real.length;
        Window window = Window.of(CosineWindow.HANN, length);
        RealTransform transform = new RealTransform(length);
        double[] a = new double[length];
        double[] b = new double[length];
        window.apply(real, 0, 0, a);
        window.apply(imaginary, 0, 0, b);
        transform.forward(a);
        transform.forward(b);
        double[] power = new double[length / 2 + 1];
        power[0] = a[0] * a[0] + b[0] * b[0];
        power[length / 2] = a[1] * a[1] + b[1] * b[1];
        for (int k = 1; k < length / 2; k++) {
            // X = A + j B with A and B themselves complex
            double re = a[2 * k] - b[2 * k + 1];
            double im = a[2 * k + 1] + b[2 * k];
            power[k] = re * re + im * im;
        }
        return power;
    }

    /** The highest bin from 1 to the last but one. */
    static int highest(double[] power, int last) {
        int highest = 1;
        for (int k = 2; k < last; k++) {
            if (power[k] > power[highest]) {
                highest = k;
            }
        }
        return highest;
    }
}
