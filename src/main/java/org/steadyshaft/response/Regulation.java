package org.steadyshaft.response;

import java.util.Objects;

/**
 * Speed regulation: by how much the speed falls under load, (n_light - n_load) / n_reference x 100 %. The loaded speed as
 * reference is the definition of textbooks on machines (S. J. Chapman and others, Electric Machinery Fundamentals; the
 * definition read in a course hand-out); the share of the light speed is also used (practice), so the reference is always named.
 *
 * @param percent positive where the load makes it slower
 * @param standardUncertaintyPercent by the law of propagation for independent speeds
 * @param reference what the difference is a share of
 */
public record Regulation(double percent, double standardUncertaintyPercent, Reference reference) {
    /** The speed that the difference is divided by. */
    public enum Reference {
        LOADED("loaded speed"),
        LIGHT("light speed");

        private final String word;

        Reference(String word) {
            this.word = word;
        }

        /** The words used in results. */
        public String word() {
            return word;
        }
    }

    public Regulation {
        if (!Double.isFinite(percent)
                || !(standardUncertaintyPercent >= 0)
                || !Double.isFinite(standardUncertaintyPercent)) {
            throw new IllegalArgumentException("regulation " + percent + " +- " + standardUncertaintyPercent + " %");
        }
        Objects.requireNonNull(reference, "reference");
    }

    /**
     * Regulation between two mean speeds whose errors are independent. With r = n_light / n_load the relative standard
     * uncertainty of r is the root sum of squares of those of the speeds; the share of the loaded speed is r - 1, that of the
     * light speed 1 - 1 / r (first-order propagation, JCGM 100:2008 section 5.1, from memory). An error of one clock common to
     * both cancels in r and does not belong in the uncertainties.
     *
     * @param lightRpm mean speed without the load; above 0
     * @param lightStandardRpm its standard uncertainty; not negative
     * @param loadedRpm mean speed with it; above 0
     * @param loadedStandardRpm its standard uncertainty; not negative
     */
    public static Regulation of(
            double lightRpm, double lightStandardRpm, double loadedRpm, double loadedStandardRpm, Reference reference) {
        if (!(lightRpm > 0) || !(loadedRpm > 0) || !(lightStandardRpm >= 0) || !(loadedStandardRpm >= 0)) {
            throw new IllegalArgumentException("speeds " + lightRpm + " +- " + lightStandardRpm + " rpm and "
                    + loadedRpm + " +- " + loadedStandardRpm + " rpm; expected above 0, uncertainties not negative");
        }
        double relative = Math.hypot(lightStandardRpm / lightRpm, loadedStandardRpm / loadedRpm);
        return switch (reference) {
            case LOADED ->
                new Regulation(
                        100 * (lightRpm - loadedRpm) / loadedRpm, 100 * lightRpm / loadedRpm * relative, reference);
            case LIGHT ->
                new Regulation(
                        100 * (lightRpm - loadedRpm) / lightRpm, 100 * loadedRpm / lightRpm * relative, reference);
        };
    }
}
