package org.steadyshaft.speed;

import org.steadyshaft.numeric.RealTransform;
import org.steadyshaft.numeric.Window;
import org.steadyshaft.published.CosineWindow;

/**
 * How high a tacho may lie in a frame of samples at the recorder's own rate: what decides how far the rate may be lowered. Every line that
 * may be a fundamental and is not far weaker than the strongest that is not the mains counts, so that hum hides nothing; a line that
 * another one explains as its harmonic does not.
 */
public final class PilotLook {
    /** A line of less than this share of the strongest is no fundamental; its harmonics may be. */
    private static final double LEAST_OF_STRONGEST = 0.1;

    /** What may be hum counts for so much of its height: hum of ten times the tacho hides nothing. */
    private static final double MAINS_COUNTS = 0.1;

    /** Share of the power of all lines from which a candidate counts whatever else there is. */
    private static final double LEAST_SHARE = 0.1;

    /** Lines within this share of a low multiple of the mains may be hum. */
    private static final double MAINS_TOLERANCE = 0.006;

    private static final int MAINS_MULTIPLES = 4;
    /** As many harmonics as a family is looked for. */
    private static final int MOST_ORDER = 8;

    private static final int LOWEST_BIN = 3;
    private static final int MOST = 8;

    private final double mainsHz;
    private final Window window;
    private final RealTransform transform;
    private final double[] work;
    private final double[] power;
    private final SweptSpectrum swept;
    private final LineFamilies families;
    private final double[] hz = new double[MOST];
    private final double[] height = new double[MOST];
    private final double[] share = new double[MOST];
    private int candidates;

    /** @param frameSamples a power of two */
    public PilotLook(int frameSamples, double sampleRateHz, double mainsHz) {
        this.mainsHz = mainsHz;
        this.window = Window.of(CosineWindow.HANN, frameSamples);
        this.transform = new RealTransform(frameSamples);
        this.work = new double[frameSamples];
        this.power = new double[frameSamples / 2 + 1];
        this.swept = new SweptSpectrum(window, transform, power.length);
        this.families = new LineFamilies(sampleRateHz / frameSamples, mainsHz, LOWEST_BIN);
    }

    /** Highest frequency that may be the tacho's fundamental [Hz]; 0 where no line stands clear. */
    public double highestHz(double[] frame) {
        window.applyCentred(frame, work);
        transform.forward(work);
        transform.power(work, power);
        swept.sharpen(frame, power, families.noisePower(power));
        candidates = 0;
        families.find(power, this::candidate);
        double strongest = 0;
        for (int i = 0; i < candidates; i++) {
            strongest = Math.max(strongest, (isMains(hz[i]) ? MAINS_COUNTS : 1) * height[i]);
        }
        double highest = 0;
        for (int i = 0; i < candidates; i++) {
            boolean counts =
                    share[i] >= LEAST_SHARE || (!isMains(hz[i]) && height[i] >= LEAST_OF_STRONGEST * strongest);
            if (counts && !isHarmonic(i)) {
                highest = Math.max(highest, hz[i]);
            }
        }
        return highest;
    }

    private void candidate(double lineHz, double magnitude, double lineShare, double second) {
        if (candidates < MOST) {
            hz[candidates] = lineHz;
            height[candidates] = magnitude;
            share[candidates++] = lineShare;
        }
    }

    /**
     * Whether a lower candidate that explains more stands at a whole part of this frequency. The mains has strong low harmonics only: any
     * high frequency lies near some multiple of it.
     */
    private boolean isHarmonic(int i) {
        for (int j = 0; j < candidates; j++) {
            double order = Math.rint(hz[i] / hz[j]);
            boolean whole = order >= 2
                    && order <= (isMains(hz[j]) ? MAINS_MULTIPLES : MOST_ORDER)
                    && Math.abs(hz[i] - order * hz[j]) < MAINS_TOLERANCE * hz[i];
            if (whole && share[j] > share[i]) {
                return true;
            }
        }
        return false;
    }

    private boolean isMains(double lineHz) {
        double order = Math.rint(lineHz / mainsHz);
        return order >= 1
                && order <= MAINS_MULTIPLES
                && Math.abs(lineHz - order * mainsHz) < MAINS_TOLERANCE * order * mainsHz;
    }
}
