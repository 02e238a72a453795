package org.steadyshaft.analysis;

import java.util.Locale;
import java.util.Optional;
import org.steadyshaft.signal.Finding;
import org.steadyshaft.signal.FindingCode;

/** Asks about speeds that no shaft of a workshop turns at: a unit of time, a sample rate or a pole count is likelier to be wrong. */
final class SpeedRange {
    private static final double LOWEST_RPM = 1;

    /** Universal motors of small tools reach 30,000 to 40,000 rpm (common practice). */
    private static final double HIGHEST_RPM = 60_000;

    private SpeedRange() {}

    /** The question; empty where the speed may be. */
    static Optional<Finding> doubt(double meanRpm, int polePairs) {
        if (meanRpm >= LOWEST_RPM && meanRpm <= HIGHEST_RPM) {
            return Optional.empty();
        }
        return Optional.of(Finding.caution(
                FindingCode.RATE_SUSPECT,
                String.format(
                        Locale.ROOT,
                        "A speed of %.4g rpm is hardly that of a shaft. Is the unit of the times in the file right, and its sample rate,"
                                + " and are %d pole pairs right? Name the unit in the header, such as 'Time (ms)', or give"
                                + " --sample-rate or --pole-pairs.",
                        meanRpm,
                        polePairs)));
    }
}
