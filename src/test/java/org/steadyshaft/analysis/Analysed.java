package org.steadyshaft.analysis;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.steadyshaft.signal.SampleSource;

/** Analyses simulated captures in tests. */
public final class Analysed {
    private Analysed() {}

    /** Analyses a source of eight pole pairs at 50 Hz mains. */
    public static Outcome.Analysed of(SampleSource source) {
        return of(source, 8);
    }

    public static Outcome.Analysed of(SampleSource source, int polePairs) {
        try {
            return new CaptureAnalyser(new AnalysisSettings(
                            polePairs, AnalysisSettings.PolePairsFrom.OPTION, 50, Optional.empty()))
                    .analyse(source, "", CaptureLabel.NONE);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** The measures of a source of eight pole pairs that must turn, with a clock tolerance [ppm]. */
    public static Rotation with(SampleSource source, OptionalDouble clockTolerancePpm) {
        return with(
                source,
                new AnalysisSettings(
                        8,
                        AnalysisSettings.PolePairsFrom.OPTION,
                        50,
                        Optional.empty(),
                        clockTolerancePpm,
                        OptionalDouble.empty()));
    }

    /** The measures of a source that must turn, by these settings. */
    static Rotation with(SampleSource source, AnalysisSettings settings) {
        try {
            return new CaptureAnalyser(settings)
                    .analyse(source, "", CaptureLabel.NONE)
                    .rotation()
                    .orElseThrow();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** The measures of a source that must turn. */
    public static Rotation rotation(SampleSource source) {
        Outcome.Analysed outcome = of(source);
        return outcome.rotation()
                .orElseThrow(() -> new AssertionError("no rotation in " + source.name() + ": " + outcome.findings()));
    }

    /** The same of a circuit that controls the speed, as the run sheet says. */
    public static Rotation looped(SampleSource source) {
        return with(source, 8, true).rotation().orElseThrow();
    }

    /** A source of so many pole pairs, of a circuit that controls the speed or does not. */
    static Outcome.Analysed with(SampleSource source, int polePairs, boolean loop) {
        return with(source, polePairs, new CaptureLabel("", "", "", "", Map.of("loop", loop ? "yes" : "no")));
    }

    /** A source of so many pole pairs, of which the user says this. */
    static Outcome.Analysed with(SampleSource source, int polePairs, CaptureLabel label) {
        try {
            return new CaptureAnalyser(new AnalysisSettings(
                            polePairs, AnalysisSettings.PolePairsFrom.OPTION, 50, Optional.empty()))
                    .analyse(source, "", label);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
