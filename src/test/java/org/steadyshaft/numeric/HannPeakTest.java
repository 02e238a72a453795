package org.steadyshaft.numeric;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Locale;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.steadyshaft.published.CosineWindow;

/**
 * The interpolation formulas, derived again from the window's definition, and their exactness on tones without noise.
 *
 * <p>Derivation: the Hann window is a half, less a quarter of the same one bin up and one bin down; the transform of a
 * constant over N samples is sin(pi x) / (pi x) for large N. So a line x bins away has the height
 *
 * <p>H(x) = s(x) + (s(x - 1) + s(x + 1)) / 2 with s(x) = sin(pi x) / (pi x), which is s(x) / (1 - x^2),
 *
 * <p>and with the line d above the peak bin r = H(1 - d) / H(d) = (1 + d) / (2 - d), hence d = (2 r - 1) / (r + 1).
 */
class HannPeakTest {
    private static final double AMPLITUDE = 0.7;

    private static double sinc(double x) {
        return x == 0 ? 1 : Math.sin(Math.PI * x) / (Math.PI * x);
    }

    /** The window's transform from its three parts, 1 at the centre. */
    private static double height(double x) {
        return sinc(x) + 0.5 * (sinc(x - 1) + sinc(x + 1));
    }

    /** On heights from the three parts the result is the line itself; 1e-13 bins is rounding. */
    @ParameterizedTest
    @ValueSource(doubles = {-0.5, -0.37, -0.1, -1e-5, 0, 1e-5, 0.01, 0.2, 0.3333, 0.4999, 0.5})
    void formulaFollowsFromTheWindow(double offset) {
        double[] power = new double[41];
        for (int k = 0; k < power.length; k++) {
            double high = AMPLITUDE * height(k - 20 - offset);
            power[k] = high * high;
        }
        HannPeak peak = HannPeak.at(power, 20);
        assertEquals(20 + offset, peak.bin(), 1e-13);
        assertEquals(AMPLITUDE, peak.magnitude(), 1e-9 * AMPLITUDE);
    }

    /**
     * A turning pointer exp(j(2 pi f t + phase)) has no image; what is left is that N is finite. The sum over N samples gives,
     * with a = pi x / N and b = pi / N, H(x) = sin(pi x) cos a sin^2 b / (sin a (sin^2 b - sin^2 a)) / N: to second order this
     * departs from the formula by b^2 / 3 at every x, which the ratio of two bins does not see. So the error is of fourth
     * order: below (pi / N)^4 bins, and a 256th with four times the samples.
     */
    @Test
    void pointersAreExactButForTheFiniteLength() {
        double shortWorst = worstPointerError(64);
        double longWorst = worstPointerError(256);
        String seen =
                String.format(Locale.ROOT, "worst error %.3g bins of 64 samples, %.3g of 256", shortWorst, longWorst);
        assertTrue(shortWorst > 1e-9 && shortWorst < Math.pow(Math.PI / 64, 4), seen);
        assertEquals(256, shortWorst / longWorst, 13, seen);
    }

    /**
     * A real tone has an image at the negative frequency. At least 300 bins from both edges the image's skirt, which falls
     * with the cube of the distance, is about 1 / (pi 600^3) = 1.5e-9 of the line; allowed is 1e-8.
     */
    @ParameterizedTest
    @ValueSource(doubles = {300, 301.1, 511.5, 700.25, 900.49, 900.51, 1200.9, 1747.6})
    void realTonesFarFromTheEdges(double bin) {
        int length = 4096;
        for (double phase = 0.1; phase < 2 * Math.PI; phase += 0.7) {
            double[] samples = tone(length, bin, phase);
            HannPeak peak = peakOf(length, samples, new double[length]);
            assertEquals(bin, peak.bin(), 1e-8, "bin");
            double amplitude =
                    peak.magnitude() * 2 / Window.of(CosineWindow.HANN, length).sum();
            assertEquals(AMPLITUDE, amplitude, 1e-6 * AMPLITUDE, "amplitude");
        }
    }

    /** The result does not jump where another bin becomes the highest. */
    @Test
    void continuousBetweenTwoBins() {
        int length = 1024;
        double before = peakOf(length, tone(length, 300.4999999, 0.3), new double[length])
                .bin();
        double after = peakOf(length, tone(length, 300.5000001, 0.3), new double[length])
                .bin();
        assertEquals(2e-7, after - before, 1e-9);
    }

    @Test
    void scaleDoesNotMoveTheLine() {
        double[] power = {0, 1, 4, 2, 0};
        double[] scaled = {0, 1e-20, 4e-20, 2e-20, 0};
        HannPeak peak = HannPeak.at(power, 2);
        HannPeak small = HannPeak.at(scaled, 2);
        assertEquals(peak.bin(), small.bin(), 1e-15);
        assertEquals(peak.magnitude() * 1e-10, small.magnitude(), 1e-22);
    }

    /** What no Hann line can be stays within half a bin of the peak: a lone bin, a flat top, nothing at all. */
    @Test
    void oddShapesStayAtThePeak() {
        assertEquals(new HannPeak(2, 3), HannPeak.at(new double[] {0, 0, 9, 0, 0}, 2));
        assertEquals(1.5, HannPeak.at(new double[] {0, 4, 4, 0}, 2).bin());
        assertEquals(2.5, HannPeak.at(new double[] {0, 1, 4, 4, 0}, 2).bin());
        assertEquals(new HannPeak(2, 0), HannPeak.at(new double[5], 2));
    }

    @Test
    void recordRefusesNonsense() {
        assertThrows(IllegalArgumentException.class, () -> new HannPeak(-0.1, 1));
        assertThrows(IllegalArgumentException.class, () -> new HannPeak(1, Double.NaN));
        assertThrows(IllegalArgumentException.class, () -> new HannPeak(Double.NaN, 1));
    }

    private static double worstPointerError(int length) {
        double worst = 0;
        for (double bin = length / 4.0; bin < length / 4.0 + 2; bin += 0.05) {
            for (double phase = 0; phase < 6; phase += 1.5) {
                double[] real = tone(length, bin, phase);
                double[] imaginary = tone(length, bin, phase - 0.5 * Math.PI);
                worst = Math.max(worst, Math.abs(peakOf(length, real, imaginary).bin() - bin));
            }
        }
        return worst;
    }

    private static double[] tone(int length, double bin, double phase) {
        double[] samples = new double[length];
        for (int n = 0; n < length; n++) {
            samples[n] = AMPLITUDE * Math.cos(2 * Math.PI * bin * n / length + phase);
        }
        return samples;
    }

    private static HannPeak peakOf(int length, double[] real, double[] imaginary) {
        double[] power = ComplexSpectrum.hannPower(real, imaginary);
        return HannPeak.at(power, ComplexSpectrum.highest(power, length / 2));
    }
}
