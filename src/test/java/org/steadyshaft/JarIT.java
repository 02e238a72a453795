package org.steadyshaft;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import java.util.zip.ZipEntry;
import java.util.zip.ZipFile;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.steadyshaft.file.InputFiles;

/** The jars as they are handed out. */
class JarIT {
    private static final Path TARGET = Path.of(System.getProperty("steadyshaft.target", "target"));
    private static final Path WHOLE = TARGET.resolve("steadyshaft.jar");
    private static final Path THIN = TARGET.resolve("steadyshaft-thin.jar");

    @TempDir
    private Path folder;

    private String run(Path jar, Object... arguments) throws IOException, InterruptedException {
        List<String> command = new ArrayList<>(List.of(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-jar",
                jar.toAbsolutePath().toString()));
        Stream.of(arguments).map(Object::toString).forEach(command::add);
        Path printed = folder.resolve("printed.txt");
        Process process = new ProcessBuilder(command)
                .directory(folder.toFile())
                .redirectErrorStream(true)
                .redirectOutput(printed.toFile())
                .start();
        assertTrue(process.waitFor(5, TimeUnit.MINUTES), "never ended: " + command);
        String text = Files.readString(printed);
        assertEquals(0, process.exitValue(), text);
        return text;
    }

    private static Map<String, String> tree(Path place) throws IOException {
        Map<String, String> tree = new TreeMap<>();
        try (Stream<Path> all = Files.walk(place)) {
            for (Path file : all.filter(Files::isRegularFile).toList()) {
                // what is kept for a second run names the build, which is another
                if (!file.endsWith("measures.json")) {
                    tree.put(place.relativize(file).toString(), InputFiles.sha256(file));
                }
            }
        }
        return tree;
    }

    /** Nothing that is needed was left out of the single jar: captures, formats, charts, limits, comparison come out byte for byte. */
    @Test
    void the_single_jar_does_what_the_thin_one_does() throws IOException, InterruptedException {
        List<Map<String, String>> made = new ArrayList<>();
        List<String> printed = new ArrayList<>();
        for (Path jar : List.of(WHOLE, THIN)) {
            Path place = Files.createDirectory(folder.resolve(jar.getFileName() + ".d"));
            Path own = Files.writeString(
                    place.resolve("limits.toml"), "[work]\nspeed_rpm = [1, 30000]\nripple_rms_percent = 90\n");
            for (String format : List.of("wav", "flac", "text")) {
                run(
                        jar,
                        "simulate",
                        "bench-refires",
                        "bench-hot-loop",
                        "--minutes",
                        "0.15",
                        "--format",
                        format,
                        "--out",
                        place.resolve(format));
            }
            String text = run(
                    jar,
                    place.resolve("wav"),
                    place.resolve("flac"),
                    place.resolve("text"),
                    "--limits",
                    own,
                    "--out",
                    place.resolve("out"));
            String seen = run(jar, "inspect", place.resolve("flac/bench-refires.flac"));
            printed.add((text + seen).replace(place.toString(), ""));
            made.add(tree(place));
        }
        assertTrue(made.get(0).size() > 30, made.get(0).keySet().toString());
        assertTrue(made.get(0).containsKey("out/comparison.html"));
        assertEquals(made.get(1), made.get(0));
        assertEquals(printed.get(1), printed.get(0));
    }

    @Test
    void the_single_jar_holds_little_that_is_not_needed() throws IOException {
        assertTrue(Files.size(WHOLE) < 9_000_000, Files.size(WHOLE) + " bytes");
    }

    @ParameterizedTest
    @ValueSource(strings = {"steadyshaft.jar", "steadyshaft-thin.jar"})
    void every_library_has_its_licence_in_the_jar(String jar) throws IOException {
        try (ZipFile zip = new ZipFile(TARGET.resolve(jar).toFile())) {
            Set<String> listed = new TreeSet<>();
            for (String line : text(zip, "licenses/THIRD-PARTY.txt").lines().toList()) {
                String[] cells = line.split(" \\| ");
                if (cells.length == 3 && cells[0].contains(":") && !cells[0].contains(" ")) {
                    listed.add(cells[0]);
                    assertTrue(text(zip, "licenses/" + cells[2]).length() > 500, line);
                }
            }
            assertEquals(libraries(), listed);
            assertTrue(text(zip, "licenses/Apache-2.0.txt").contains("TERMS AND CONDITIONS FOR USE"));
        }
    }

    private static String text(ZipFile zip, String name) throws IOException {
        ZipEntry entry = zip.getEntry(name);
        assertTrue(entry != null, name + " is not in " + zip.getName());
        try (InputStream in = zip.getInputStream(entry)) {
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        }
    }

    /** Group and artifact of every library, from the bill of materials, which must list what lies beside the thin jar. */
    private static Set<String> libraries() throws IOException {
        JsonNode bill = new ObjectMapper().readTree(TARGET.resolve("bom.json").toFile());
        Set<String> names = new TreeSet<>();
        Set<String> files = new TreeSet<>();
        for (JsonNode part : bill.get("components")) {
            names.add(part.get("group").asText() + ":" + part.get("name").asText());
            files.add(part.get("name").asText() + "-" + part.get("version").asText() + ".jar");
        }
        for (String file : files) {
            assertTrue(Files.exists(TARGET.resolve("lib").resolve(file)), file + " is not beside the thin jar");
        }
        return names;
    }

    /** A second build gives the same bytes only if none of the program's entries carries the time of this one. */
    @ParameterizedTest
    @ValueSource(strings = {"steadyshaft.jar", "steadyshaft-thin.jar"})
    void no_entry_carries_the_time_of_its_build(String jar) throws IOException {
        try (ZipFile zip = new ZipFile(TARGET.resolve(jar).toFile())) {
            Set<LocalDateTime> times = new TreeSet<>();
            zip.stream()
                    .filter(entry -> entry.getName().startsWith("org/steadyshaft/"))
                    .forEach(entry -> times.add(entry.getTimeLocal()));
            assertEquals(Set.of(LocalDateTime.of(2026, 1, 1, 0, 0)), times);
            assertEquals(
                    zip.stream().map(ZipEntry::getName).distinct().count(),
                    zip.stream().count());
        }
    }

    @Test
    void it_says_its_version() throws IOException, InterruptedException {
        assertTrue(run(WHOLE, "--version").matches("steadyshaft [0-9.]+\\s+"));
    }
}
