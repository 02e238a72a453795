package org.steadyshaft.analysis;

import java.util.Locale;
import java.util.Optional;
import org.steadyshaft.signal.Finding;
import org.steadyshaft.signal.FindingCode;
import org.steadyshaft.signal.FundamentalTrack;
import org.steadyshaft.signal.SpeedTrack;

/** Asks about speeds that no shaft of a workshop turns at: a unit of time, a sample rate or a pole count is likelier to be wrong. */
final class SpeedRange {
    private static final double LOWEST_RPM = 1;

    /** Universal motors of small tools reach 30,000 to 40,000 rpm (common practice). */
    private static final double HIGHEST_RPM = 60_000;

    private static final double RARE_RPM = 40_000;

    /** A tacho is lost, and not merely left out beside the end, from so long before the end on. */
    private static final double LOST_SECONDS = 0.5;

    private SpeedRange() {}

    /** The question; empty where the speed may be. */
    static Optional<Finding> doubt(double meanRpm, int polePairs) {
        double hz = meanRpm / 60 * polePairs;
        if (hz > FundamentalTrack.RARE_HZ && meanRpm > RARE_RPM && meanRpm <= HIGHEST_RPM) {
            return Optional.of(Finding.caution(
                    FindingCode.RATE_SUSPECT,
                    String.format(
                            Locale.ROOT,
                            "The only tone that could be the tacho's, %.0f Hz, would be %.0f rpm with %d pole pairs: hardly a shaft. A"
                                    + " converter's whistle is likelier. Check the tacho's connection and the number of pole pairs.",
                            hz,
                            meanRpm,
                            polePairs)));
        }
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

    /** That a tacho rose beyond what is followed, and when; empty where it did not. */
    static Optional<Finding> left(SpeedTrack track, double durationSeconds) {
        int last = track.size() - 1;
        double hz = 1 / track.durationSeconds(last);
        boolean lost = durationSeconds - track.toSeconds(last) > LOST_SECONDS;
        if (!lost || hz < FundamentalTrack.NEAR_THE_HIGHEST * FundamentalTrack.HIGHEST_HZ) {
            return Optional.empty();
        }
        return Optional.of(Finding.caution(
                FindingCode.UNDERSAMPLED,
                String.format(
                        Locale.ROOT,
                        "The tacho was followed until %.2f s, where it had risen to %.0f Hz; beyond %.0f Hz it is not. The shaft did not"
                                + " stop there, and nothing is told of what came after.",
                        track.toSeconds(last),
                        hz,
                        FundamentalTrack.HIGHEST_HZ)));
    }
}
