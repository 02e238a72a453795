package org.steadyshaft.capture;

import java.io.IOException;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.OptionalDouble;

/** Text exports of a known wave: sample i was taken at i / 4000 s and is -1.000, -0.875, ... 0.875 V in turn. */
final class TextFiles {
    static final int RATE_HZ = 4000;
    static final int ROWS = 600;

    private TextFiles() {}

    static double volts(int sample) {
        return (sample * 5 % 16 - 8) / 8.0;
    }

    /** One row of the table. */
    @FunctionalInterface
    interface Row {
        String of(int sample);
    }

    /** A number with so many decimals. */
    static String fixed(double value, int decimals) {
        return String.format(Locale.ROOT, "%." + decimals + "f", value);
    }

    /** Time in seconds and volts of a sample, with a separator between. */
    static String pair(int sample, String separator) {
        return fixed(sample / (double) RATE_HZ, 6) + separator + fixed(volts(sample), 3);
    }

    static String commas(String text) {
        return text.replace('.', ',');
    }

    /** What stands above the table, then {@link #ROWS} rows. */
    static String table(String above, Row row) {
        StringBuilder text = new StringBuilder(above);
        for (int i = 0; i < ROWS; i++) {
            text.append(row.of(i)).append('\n');
        }
        return text.toString();
    }

    static Path file(Path folder, String text, Charset charset) throws IOException {
        return Files.write(folder.resolve("run7.csv"), text.getBytes(charset));
    }

    static TextSource open(Path folder, String text) throws IOException {
        return open(file(folder, text, StandardCharsets.UTF_8));
    }

    static TextSource open(Path file) throws IOException {
        return TextSource.open(file, "run7.csv", ReadOptions.NONE);
    }

    static TextSource open(Path folder, String text, double sampleRateHz) throws IOException {
        Path file = file(folder, text, StandardCharsets.UTF_8);
        return TextSource.open(file, "run7.csv", new ReadOptions(OptionalDouble.of(sampleRateHz)));
    }
}
