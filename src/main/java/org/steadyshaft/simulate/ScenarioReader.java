package org.steadyshaft.simulate;

import java.io.IOException;
import java.io.InputStream;
import java.io.StringReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.steadyshaft.file.InputFiles;
import org.tomlj.Toml;
import org.tomlj.TomlArray;
import org.tomlj.TomlParseResult;

/**
 * Reads scenarios from TOML files beside this class; index.txt names them in the order in which they are listed. A missing or
 * wrong key is refused with the file's name, the key, what was found and what was expected.
 */
public final class ScenarioReader {
    /** How the name of a scenario file ends. */
    public static final String ENDING = ".toml";

    private static final String FOLDER = "scenarios/";

    /** Key that names the parts a scenario is made of. */
    private static final String USE = "use";

    private static final String PARTS = "parts/";

    private ScenarioReader() {}

    /** Names of the scenarios that come with the program. */
    public static List<String> names() {
        return text("index.txt").lines().filter(l -> !l.isBlank()).toList();
    }

    /**
     * Reads a scenario that comes with the program.
     *
     * @throws IllegalArgumentException if there is none of that name
     */
    public static Scenario read(String name) {
        if (!names().contains(name)) {
            throw new IllegalArgumentException("there is no scenario '" + name + "'");
        }
        return parse(name, text(name + ".toml"));
    }

    private static String text(String file) {
        try (InputStream in = ScenarioReader.class.getResourceAsStream(FOLDER + file)) {
            if (in == null) {
                throw new IllegalStateException(FOLDER + file + " is missing from the program");
            }
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new IllegalStateException(e);
        }
    }

    /**
     * Reads a scenario from its text.
     *
     * @throws IllegalArgumentException if the text is no scenario
     */
    public static Scenario parse(String name, String text) {
        return scenario(withParts(name, text));
    }

    /** The file and the parts it names, which come with the program. */
    private static ScenarioToml withParts(String name, String text) {
        List<TomlParseResult> tables = new ArrayList<>();
        TomlParseResult own = table(name, text);
        tables.add(own);
        if (own.contains(USE)) {
            if (!(own.get(USE) instanceof TomlArray parts)) {
                throw new ScenarioToml(name, tables).wrong(USE, own.get(USE), "a row of names of parts");
            }
            for (Object part : parts.toList()) {
                if (!partNames().contains(part)) {
                    throw new ScenarioToml(name, tables).wrong(USE, part, "one of " + String.join(", ", partNames()));
                }
                tables.add(table(part.toString(), text(PARTS + part + ENDING)));
            }
        }
        ScenarioToml toml = new ScenarioToml(name, tables);
        toml.has(USE);
        return toml;
    }

    private static TomlParseResult table(String name, String text) {
        TomlParseResult table = Toml.parse(text);
        if (table.hasErrors()) {
            throw new IllegalArgumentException(
                    name + ENDING + ": " + table.errors().get(0));
        }
        return table;
    }

    /** Names of the parts that a scenario may use: motors, tachos, recorders. */
    public static List<String> partNames() {
        return text(PARTS + "index.txt").lines().filter(l -> !l.isBlank()).toList();
    }

    /**
     * A key of a scenario file.
     *
     * @param key with its table
     * @param unit unit or kind of its value
     * @param otherwise what holds where it is left out; empty where it may not be
     * @param meaning in words; may be empty
     */
    public record Key(String key, String unit, String otherwise, String meaning) {}

    /** All keys that a scenario file may have, in the order in which a file is best written. */
    public static List<Key> keys() {
        try (CSVParser rows = CSVFormat.DEFAULT
                .builder()
                .setHeader()
                .setSkipHeaderRecord(true)
                .get()
                .parse(new StringReader(text("keys.csv")))) {
            return rows.stream()
                    .map(r -> new Key(r.get("key"), r.get("unit"), r.get("default"), r.get("meaning")))
                    .toList();
        } catch (IOException e) {
            throw new IllegalStateException(e);
        }
    }

    /** The keys that are looked at in reading a scenario. */
    static Set<String> askedBy(String name, String text) {
        ScenarioToml toml = withParts(name, text);
        scenario(toml);
        return toml.asked();
    }

    /**
     * Reads a user's own scenario file.
     *
     * @throws IOException if it cannot be read
     * @throws IllegalArgumentException if the text is no scenario
     */
    public static Scenario read(Path file) throws IOException {
        String full = file.getFileName().toString();
        String plain = full.endsWith(ENDING) ? full.substring(0, full.length() - ENDING.length()) : full;
        return parse(plain, InputFiles.text(file));
    }

    private static Scenario scenario(ScenarioToml toml) {
        try {
            String title = toml.word("title");
            MachineReader machine = new MachineReader(toml);
            RecorderReader recording = new RecorderReader(toml);
            Scenario scenario = new Scenario(
                    toml.name(),
                    title,
                    toml.number("run.seconds"),
                    toml.number("run.settle"),
                    toml.number("run.start_rpm"),
                    machine.motor(),
                    machine.mains(),
                    toml.optional("motor.bypass"),
                    machine.moment("motor.field_lost"),
                    machine.drive(),
                    machine.load(),
                    machine.misfiring(),
                    machine.setPointSteps(),
                    machine.changes(),
                    machine.orders(),
                    recording.tacho(),
                    recording.hum(),
                    toml.number("tacho.spikes", 0),
                    recording.recorder(),
                    recording.faults(),
                    recording.sheet(machine.isLoop()),
                    toml.all());
            // the tacho asks for its keys when it is made
            scenario.polePairs();
            toml.refuseUnknown();
            return scenario;
        } catch (IllegalArgumentException e) {
            String file = toml.name() + ENDING;
            String message = e.getMessage();
            throw message != null && message.startsWith(file)
                    ? e
                    : new IllegalArgumentException(file + ": " + message, e);
        }
    }
}
