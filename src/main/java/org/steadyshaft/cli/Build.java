package org.steadyshaft.cli;

import java.io.IOException;
import java.net.URISyntaxException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.stream.Stream;

/** Which build of the program runs: results of another build are not taken over. */
final class Build {
    private static final String STAMP = read();

    private Build() {}

    /** The same for the same build; size and time of the jar, or number and newest time of the classes. */
    static String stamp() {
        return STAMP;
    }

    private static String read() {
        try {
            Path place = Path.of(Build.class
                    .getProtectionDomain()
                    .getCodeSource()
                    .getLocation()
                    .toURI());
            if (Files.isRegularFile(place)) {
                return Files.size(place) + "@"
                        + Files.getLastModifiedTime(place).toMillis();
            }
            try (Stream<Path> files = Files.walk(place)) {
                long[] newest = {0, 0};
                files.filter(Files::isRegularFile).forEach(file -> {
                    newest[0]++;
                    newest[1] = Math.max(newest[1], file.toFile().lastModified());
                });
                return newest[0] + "@" + newest[1];
            }
        } catch (IOException | URISyntaxException | IllegalArgumentException e) {
            // unknown: then nothing from before is taken over
            return "started " + System.nanoTime();
        }
    }
}
