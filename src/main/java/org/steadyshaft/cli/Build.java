package org.steadyshaft.cli;

import java.io.IOException;
import java.net.URISyntaxException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.stream.Stream;
import java.util.zip.ZipFile;
import org.steadyshaft.file.Digests;
import org.steadyshaft.file.InputFiles;

/** Which build of the program runs: results of another build are not taken over. */
final class Build {
    private static final String STAMP = read();

    private Build() {}

    /**
     * The same for the same build, told by what is in it and not by times: a digest of the names, lengths and checksums in the jar, which
     * names its libraries too, or of the classes.
     */
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
            List<String> parts = Files.isRegularFile(place) ? ofJar(place) : ofFolder(place);
            Collections.sort(parts);
            return Digests.sha256(String.join("\n", parts));
        } catch (IOException | URISyntaxException | IllegalArgumentException e) {
            // unknown: then nothing from before is taken over
            return "started " + System.nanoTime();
        }
    }

    private static List<String> ofJar(Path jar) throws IOException {
        List<String> parts = new ArrayList<>();
        try (ZipFile zip = new ZipFile(jar.toFile())) {
            zip.stream().forEach(entry -> parts.add(entry.getName() + " " + entry.getSize() + " " + entry.getCrc()));
        }
        return parts;
    }

    private static List<String> ofFolder(Path classes) throws IOException {
        List<String> parts = new ArrayList<>();
        try (Stream<Path> files = Files.walk(classes)) {
            for (Path file : files.filter(Files::isRegularFile).toList()) {
                parts.add(classes.relativize(file) + " " + InputFiles.sha256(file));
            }
        }
        return parts;
    }
}
