package org.steadyshaft.analysis;

import java.nio.file.Path;
import java.util.Locale;
import java.util.Optional;
import org.steadyshaft.capture.ReadOptions;
import org.steadyshaft.capture.Recordings;
import org.steadyshaft.ripple.Ripple;
import org.steadyshaft.ripple.RippleLine;
import org.steadyshaft.signal.SampleSource;

/** Measured by hand: what the waveform tells of the ripple of some files. */
final class RippleTable {
    private RippleTable() {}

    /** @param arguments pole pairs, then files */
    public static void main(String[] arguments) throws Exception {
        AnalysisSettings settings = new AnalysisSettings(
                Integer.parseInt(arguments[0]), AnalysisSettings.PolePairsFrom.OPTION, 50, Optional.empty());
        for (int i = 1; i < arguments.length; i++) {
            Path file = Path.of(arguments[i]);
            SampleSource source = arguments[i].matches("\\d+")
                    ? RippleCase.of(Long.parseLong(arguments[i])).source()
                    : Recordings.open(file, file.getFileName().toString(), ReadOptions.NONE);
            Outcome.Analysed outcome = new CaptureAnalyser(settings).analyse(source, "", CaptureLabel.NONE);
            System.out.println(file.getFileName() + " "
                    + outcome.findings().stream()
                            .map(f -> f.code() + ": " + f.text())
                            .toList());
            outcome.rotation().ifPresent(RippleTable::print);
        }
    }

    private static void print(Rotation rotation) {
        System.out.printf(
                Locale.ROOT,
                "  fc %.2f rpm %.2f%n",
                rotation.speed().meanRpm() * 8 / 60,
                rotation.speed().meanRpm());
        if (rotation.ripple().isPresent()) {
            Ripple r = rotation.ripple().get();
            System.out.printf(
                    Locale.ROOT,
                    "  rms %.4f +- %.4f ptp %.4f noise %.3f band %.2f-%.1f%n  2x %s%n  1x %s%n",
                    r.rmsPercent(),
                    r.expandedRmsPercent(),
                    r.peakToPeakPercent(),
                    r.noisePercent(),
                    r.bandFromHz(),
                    r.bandToHz(),
                    r.twiceMains(),
                    r.mains());
        }
        for (RippleLine l : rotation.spectrum().lines()) {
            System.out.printf(
                    Locale.ROOT,
                    "    %.3f Hz %.4f +- %.4f %s %s %s%n",
                    l.frequencyHz(),
                    l.amplitudePercent(),
                    l.expandedPercent(),
                    l.cause().word(),
                    l.certainty(),
                    l.readFrom().word());
        }
        System.out.println("    hum " + rotation.spectrum().humHz() + " hunting " + rotation.hunting() + " pattern "
                + rotation.pattern().map(p -> String.format(Locale.ROOT, "%.2f", p.rmsPercent())));
    }
}
