package org.steadyshaft.capture;

import java.io.BufferedWriter;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import org.steadyshaft.signal.BlockReader;
import org.steadyshaft.signal.SampleSource;

/** Writes one channel as text, as a cheap scope with an 8-bit converter would export it. */
public final class ScopeTextWriter {
    private static final int STEPS = 250;

    private final double rangeVolts;
    private final double firstSeconds;
    private final int timeDecimals;

    /** A scope whose stamps begin at 0 and have five decimals. */
    public ScopeTextWriter(double rangeVolts) {
        this(rangeVolts, 0, 5);
    }

    /**
     * @param rangeVolts from the bottom to the top of the screen
     * @param firstSeconds time stamp of the first row
     * @param timeDecimals decimals of a time stamp; fewer than the interval needs make stamps repeat
     */
    public ScopeTextWriter(double rangeVolts, double firstSeconds, int timeDecimals) {
        this.firstSeconds = firstSeconds;
        this.timeDecimals = timeDecimals;
        if (!(rangeVolts > 0)) {
            throw new IllegalArgumentException("range " + rangeVolts + " V; expected above 0");
        }
        this.rangeVolts = rangeVolts;
    }

    /**
     * Writes the first channel of a recording.
     *
     * @throws IOException if the file cannot be written
     */
    public void write(SampleSource source, Path file) throws IOException {
        double step = rangeVolts / STEPS;
        int decimals = (int) Math.max(3, Math.ceil(1 - Math.log10(step)));
        String row = "%." + timeDecimals + "f,%." + decimals + "f\n";
        try (BufferedWriter out = Files.newBufferedWriter(file, StandardCharsets.UTF_8);
                BlockReader reader = source.open()) {
            out.write("time (s),tacho (V)\n");
            double[][] block = new double[source.channels()][4096];
            long sample = 0;
            for (int count = reader.read(block); count > 0; count = reader.read(block)) {
                for (int i = 0; i < count; i++) {
                    double limited = Math.max(-0.5 * rangeVolts, Math.min(0.5 * rangeVolts, block[0][i]));
                    out.write(String.format(
                            Locale.ROOT,
                            row,
                            firstSeconds + sample++ / source.sampleRateHz(),
                            step * Math.round(limited / step)));
                }
            }
        }
    }
}
