package org.steadyshaft.cli;

import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import org.steadyshaft.analysis.AnalysisSettings;
import org.steadyshaft.analysis.AnalysisSettings.PolePairsFrom;
import org.steadyshaft.capture.ReadOptions;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/** What may be said on the command line about captures; a run sheet's own cells come first. */
final class CaptureOptions {
    @Spec(Spec.Target.MIXEE)
    private CommandSpec spec;

    @Option(
            names = "--pole-pairs",
            paramLabel = "N",
            description = "cycles of the tacho a turn, where the run sheet does not say (assumed: "
                    + AnalysisSettings.ASSUMED_POLE_PAIRS + ")")
    private Integer polePairs;

    @Option(
            names = "--mains-hz",
            paramLabel = "50|60",
            description = "mains frequency, where the run sheet does not say (default: 50)")
    private Double mainsHz;

    @Option(
            names = "--channel",
            paramLabel = "N|NAME",
            description = "the tacho's channel, by number from 1 or by name (default: the one that turns)")
    private String channel;

    @Option(names = "--sample-rate", paramLabel = "HZ", description = "samples a second of text that holds no times")
    private Double sampleRateHz;

    @Option(
            names = "--clock-ppm",
            paramLabel = "PPM",
            description = "how far the recorder's clock may be off (default: 50 for sound cards, 25 for scopes)")
    private Double clockPpm;

    @Option(
            names = "--max-rpm",
            paramLabel = "RPM",
            description = "speed of the motor's shaft above which OVERSPEED is told (default: no limit)")
    private Double maxRpm;

    /** @throws ParameterException if a value is out of range */
    void check() {
        if (polePairs != null && (polePairs < 1 || polePairs > 999)) {
            throw wrong("--pole-pairs: found " + polePairs + "; expected 1 to 999");
        }
        if (mainsHz != null && mainsHz != 50 && mainsHz != 60) {
            throw wrong("--mains-hz: found " + mainsHz + "; expected 50 or 60");
        }
        if (clockPpm != null && !(clockPpm >= 0 && clockPpm <= 1e5)) {
            throw wrong("--clock-ppm: found " + clockPpm + "; expected 0 to 100000");
        }
        if (maxRpm != null && !(maxRpm > 0 && maxRpm <= 1e6)) {
            throw wrong("--max-rpm: found " + maxRpm + "; expected above 0 and at most 1000000");
        }
        if (sampleRateHz != null && !(sampleRateHz > 0 && sampleRateHz <= 1e9)) {
            throw wrong("--sample-rate: found " + sampleRateHz + "; expected above 0 and at most 1e9");
        }
    }

    private ParameterException wrong(String message) {
        return new ParameterException(spec.commandLine(), message);
    }

    private static OptionalDouble optional(Double value) {
        return value == null ? OptionalDouble.empty() : OptionalDouble.of(value);
    }

    ReadOptions read() {
        return new ReadOptions(sampleRateHz == null ? OptionalDouble.empty() : OptionalDouble.of(sampleRateHz));
    }

    /** Settings for a capture of which a run sheet says this much; nothing where there is no sheet. */
    AnalysisSettings settings(OptionalInt sheetPolePairs, OptionalDouble sheetMainsHz, String sheetChannel) {
        int pairs = sheetPolePairs.orElse(polePairs == null ? AnalysisSettings.ASSUMED_POLE_PAIRS : polePairs);
        PolePairsFrom from = sheetPolePairs.isPresent()
                ? PolePairsFrom.RUN_SHEET
                : polePairs == null ? PolePairsFrom.ASSUMED : PolePairsFrom.OPTION;
        double mains = sheetMainsHz.orElse(mainsHz == null ? AnalysisSettings.USUAL_MAINS_HZ : mainsHz);
        Optional<String> named = sheetChannel.isEmpty() ? Optional.ofNullable(channel) : Optional.of(sheetChannel);
        return new AnalysisSettings(pairs, from, mains, named, optional(clockPpm), optional(maxRpm));
    }
}
