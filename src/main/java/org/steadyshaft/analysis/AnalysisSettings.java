package org.steadyshaft.analysis;

import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * What an analysis needs to know beside the recording.
 *
 * @param polePairs cycles of the tacho a turn
 * @param polePairsFrom who said so
 * @param mainsHz nominal mains frequency, 50 or 60
 * @param clockTolerancePpm how far the recorder's clock may be off, in parts per million; absent for what is usual
 * @param mostRpm speed above which an alarm is raised; absent for none
 * @param channel name or number (from 1) of the tacho's channel; absent to find it
 */
public record AnalysisSettings(
        int polePairs,
        PolePairsFrom polePairsFrom,
        double mainsHz,
        Optional<String> channel,
        OptionalDouble clockTolerancePpm,
        OptionalDouble mostRpm) {
    /**
     * Pole pairs taken where nobody says: the tachos of washing-machine motors often have eight (common practice). Every
     * speed scales with it, so the report says that it was assumed.
     */
    public static final int ASSUMED_POLE_PAIRS = 8;

    public static final double USUAL_MAINS_HZ = 50;

    /** Where the number of pole pairs comes from. */
    public enum PolePairsFrom {
        RUN_SHEET("run sheet"),
        OPTION("option"),
        ASSUMED("assumed"),
        /** By missing teeth or magnets, which mark the turn. */
        TURN_MARK("mark of the turn");

        private final String word;

        PolePairsFrom(String word) {
            this.word = word;
        }

        /** The word used in result files. */
        public String word() {
            return word;
        }
    }

    /** Settings with the usual clock tolerance of the recorder. */
    public AnalysisSettings(int polePairs, PolePairsFrom polePairsFrom, double mainsHz, Optional<String> channel) {
        this(polePairs, polePairsFrom, mainsHz, channel, OptionalDouble.empty(), OptionalDouble.empty());
    }

    public AnalysisSettings {
        Objects.requireNonNull(polePairsFrom, "polePairsFrom");
        Objects.requireNonNull(channel, "channel");
        if (clockTolerancePpm.isPresent() && !(clockTolerancePpm.getAsDouble() >= 0)) {
            throw new IllegalArgumentException("clock tolerance " + clockTolerancePpm + "; expected 0 ppm or more");
        }
        if (mostRpm.isPresent() && !(mostRpm.getAsDouble() > 0)) {
            throw new IllegalArgumentException("speed limit " + mostRpm + "; expected above 0 rpm");
        }
        if (mainsHz != 50 && mainsHz != 60) {
            throw new IllegalArgumentException("mains of " + mainsHz + " Hz; expected 50 or 60");
        }
    }

    /** The same where the recording itself told the pole pairs. */
    AnalysisSettings withMarkedTurn(int found) {
        return new AnalysisSettings(found, PolePairsFrom.TURN_MARK, mainsHz, channel, clockTolerancePpm, mostRpm);
    }
}
