package org.steadyshaft.simulate;

import java.io.IOException;
import java.io.InputStream;
import java.io.StringReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.steadyshaft.signal.DoubleSeries;
import org.steadyshaft.signal.Tachometer;
import org.tomlj.Toml;
import org.tomlj.TomlArray;
import org.tomlj.TomlParseResult;
import org.tomlj.TomlTable;

/**
 * Reads scenarios from TOML files beside this class; index.txt names them in the order in which they are listed. A missing or
 * wrong key is refused with the file's name, the key, what was found and what was expected.
 */
public final class ScenarioReader {
    /** Cell of the run sheet that a scenario may leave out. */
    private static final String TACHO = "tacho";

    /** How the name of a scenario file ends. */
    public static final String ENDING = ".toml";

    private static final String FOLDER = "scenarios/";
    private static final List<String> FAULT_KEYS = List.of("kind", "at", "length", "size");

    private final String name;
    private final TomlParseResult toml;

    /** Keys that were looked at: any other in the file is a mistake. */
    private final Set<String> asked = new TreeSet<>();

    private ScenarioReader(String name, TomlParseResult toml) {
        this.name = name;
        this.toml = toml;
    }

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
        TomlParseResult toml = Toml.parse(text);
        if (toml.hasErrors()) {
            throw new IllegalArgumentException(name + ".toml: " + toml.errors().get(0));
        }
        return new ScenarioReader(name, toml).scenario();
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
        ScenarioReader reader = new ScenarioReader(name, Toml.parse(text));
        reader.scenario();
        return reader.asked;
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
        return parse(plain, Files.readString(file));
    }

    private Scenario scenario() {
        Scenario scenario = made();
        // the tacho asks for its keys when it is made
        scenario.polePairs();
        for (String key : toml.dottedKeySet()) {
            boolean known = asked.stream().anyMatch(a -> key.equals(a) || key.startsWith(a + "."));
            if (!known) {
                String table = key.substring(0, Math.max(0, key.lastIndexOf('.') + 1));
                throw wrong(
                        key,
                        "a key that is not known here",
                        asked.stream()
                                .filter(a -> a.startsWith(table) && a.indexOf('.', table.length()) < 0)
                                .collect(Collectors.joining(", ")));
            }
        }
        return scenario;
    }

    private boolean has(String key) {
        asked.add(key);
        return toml.contains(key);
    }

    private Object get(String key) {
        asked.add(key);
        return toml.get(key);
    }

    private boolean flag(String key) {
        Object value = get(key);
        if (value != null && !(value instanceof Boolean)) {
            throw wrong(key, value, "true or false");
        }
        return Boolean.TRUE.equals(value);
    }

    private Scenario made() {
        return new Scenario(
                name,
                word("title"),
                number("run.seconds"),
                number("run.settle"),
                number("run.start_rpm"),
                motor(),
                new Mains(number("mains.rms"), number("mains.hz")),
                optional("motor.bypass"),
                drive(),
                load(),
                new Misfiring(
                        number("triac.refires_per_minute", 0),
                        number("triac.misses_per_minute", 0),
                        number("triac.latching_current", 0)),
                steps(),
                tacho(),
                number("tacho.spikes", 0),
                recorder(),
                faults(),
                sheet(),
                new TreeMap<>(toml.dottedKeySet().stream().collect(Collectors.toMap(k -> k, k -> plain(toml.get(k))))));
    }

    private static Object plain(Object value) {
        if (value instanceof TomlArray array) {
            return array.toList().stream().map(ScenarioReader::plain).toList();
        }
        if (value instanceof TomlTable table) {
            Map<String, Object> map = new TreeMap<>();
            table.keySet().forEach(key -> map.put(key, plain(table.get(List.of(key)))));
            return map;
        }
        return value;
    }

    private List<RecorderFaults.Fault> faults() {
        List<RecorderFaults.Fault> faults = new ArrayList<>();
        if (!has("faults")) {
            return faults;
        }
        if (!(get("faults") instanceof TomlArray array)) {
            throw wrong("faults", get("faults"), "tables headed [[faults]]");
        }
        for (int i = 0; i < array.size(); i++) {
            String where = "faults[" + (i + 1) + "]";
            if (!(array.get(i) instanceof TomlTable table)) {
                throw wrong(where, array.get(i), "a table headed [[faults]]");
            }
            faults.add(fault(where, table));
        }
        return faults;
    }

    private RecorderFaults.Fault fault(String where, TomlTable table) {
        for (String key : table.keySet()) {
            if (!FAULT_KEYS.contains(key)) {
                throw wrong(where + "." + key, "an unknown key", String.join(", ", FAULT_KEYS));
            }
        }
        Object word = table.get("kind");
        RecorderFaults.Kind kind = Arrays.stream(RecorderFaults.Kind.values())
                .filter(k -> k.word().equals(word))
                .findFirst()
                .orElseThrow(() -> wrong(
                        where + ".kind",
                        word,
                        Arrays.stream(RecorderFaults.Kind.values())
                                .map(RecorderFaults.Kind::word)
                                .collect(Collectors.joining(", "))));
        try {
            return new RecorderFaults.Fault(
                    kind,
                    number(where + ".at", table.get("at")),
                    table.contains("length") ? number(where + ".length", table.get("length")) : 0,
                    number(where + ".size", table.get("size")));
        } catch (IllegalArgumentException e) {
            throw e.getMessage().startsWith(name)
                    ? e
                    : new IllegalArgumentException(name + ".toml: " + where + ": " + e.getMessage());
        }
    }

    private double number(String where, Object value) {
        if (!(value instanceof Number number)) {
            throw wrong(where, value, "a number");
        }
        return number.doubleValue();
    }

    private Motor motor() {
        return new Motor(
                number("motor.armature_resistance"),
                number("motor.armature_inductance"),
                number("motor.field_resistance", 0),
                number("motor.field_inductance", 0),
                number("motor.flux_per_ampere", 0),
                number("motor.saturation_current", 4),
                number("motor.fixed_flux", 0),
                number("motor.brush_drop", 0),
                number("motor.inertia"),
                number("motor.dry_friction", 0),
                number("motor.viscous_friction", 0),
                number("motor.fan", 0));
    }

    private Scenario.DriveMaker drive() {
        boolean rectified = flag("drive.rectified");
        double mainsHz = number("mains.hz");
        switch (word("drive.kind")) {
            case "rc-diac" -> {
                RcDiacDrive drive = new RcDiacDrive(
                        number("drive.resistance"),
                        number("drive.capacitance"),
                        number("drive.break_over"),
                        number("drive.asymmetry_percent", 0),
                        number("drive.dump", 0),
                        rectified);
                return () -> drive;
            }
            case "timed" -> {
                boolean holds = flag("drive.holds_gate");
                TimedDrive drive = new TimedDrive(
                        number("drive.angle_degrees"), mainsHz, number("drive.unequal_degrees", 0), holds, rectified);
                return () -> drive;
            }
            case "loop" -> {
                LoopDrive.Settings settings = loop(mainsHz);
                double first = number("drive.set_rpm");
                double settle = number("run.settle");
                List<Scenario.Step> steps = steps();
                return () -> new LoopDrive(settings, t -> setPoint(first, settle, steps, t));
            }
            default -> throw wrong("drive.kind", word("drive.kind"), "rc-diac, timed or loop");
        }
    }

    private LoopDrive.Settings loop(double mainsHz) {
        return new LoopDrive.Settings(
                (int) number("tacho.pole_pairs"),
                mainsHz,
                number("drive.detector_delay", 0),
                (int) number("drive.every_half_cycles", 1),
                number("drive.proportional"),
                number("drive.integral"),
                number("drive.derivative", 0),
                number("drive.gain_over_rpm", 0),
                number("drive.first_drive", 0),
                has("drive.lead_breaks")
                        ? number("run.settle") + number("drive.lead_breaks")
                        : Double.POSITIVE_INFINITY);
    }

    private static double setPoint(double first, double settle, List<Scenario.Step> steps, double timeSeconds) {
        double rpm = first;
        for (Scenario.Step step : steps) {
            rpm = timeSeconds >= settle + step.timeSeconds() ? step.rpm() : rpm;
        }
        return rpm;
    }

    private List<Scenario.Step> steps() {
        return rows("drive.steps", 2).stream()
                .map(row -> new Scenario.Step(row.get(0), row.get(1)))
                .toList();
    }

    private Load load() {
        double settle = number("run.settle");
        Load load = Load.NONE.constant(number("load.torque", 0));
        for (DoubleSeries step : rows("load.steps", 2)) {
            load = load.step(settle + step.get(0), step.get(1));
        }
        for (DoubleSeries grip : rows("load.grips", 3)) {
            load = load.grip(settle + grip.get(0), grip.get(1), grip.get(2));
        }
        for (DoubleSeries swing : rows("load.swings", 2)) {
            load = load.swing(swing.get(0), swing.get(1));
        }
        return load;
    }

    private Scenario.TachoMaker tacho() {
        Tachometer tachometer = new Tachometer((int) number("tacho.pole_pairs"));
        double[] pattern = numbers("tacho.pitch_deviation_percent").toArray();
        return (seconds, seed) -> DrawnTacho.Settings.clean(number("recorder.rate"), seconds)
                .withTachometer(tachometer)
                .withPattern(pattern)
                .withShape(number("tacho.peak_at_thousand_rpm"), number("tacho.second", 0), number("tacho.third", 0))
                .withEccentricity(number("tacho.eccentricity_percent", 0))
                .withHum(number("tacho.hum", 0), number("mains.hz"))
                .withNoise(number("tacho.noise", 0), seed)
                .withClockError(number("recorder.clock_error_ppm", 0));
    }

    private Scenario.Recorder recorder() {
        String kind = word("recorder.kind");
        if (!kind.equals("sound-card") && !kind.equals("scope")) {
            throw wrong("recorder.kind", kind, "sound-card or scope");
        }
        return new Scenario.Recorder(
                kind.equals("scope") ? Scenario.Recorder.Kind.SCOPE : Scenario.Recorder.Kind.SOUND_CARD,
                (int) number("recorder.bits", 16),
                number("recorder.full_scale"),
                number("recorder.high_pass", 0),
                numbers("recorder.lost_buffers"),
                (int) number("recorder.decimals", 5),
                number("recorder.trigger", 0));
    }

    private Map<String, String> sheet() {
        Map<String, String> sheet = new LinkedHashMap<>();
        for (String key : List.of("circuit", "setting", "load")) {
            sheet.put(key, word("sheet." + key));
        }
        sheet.put(TACHO, has("sheet." + TACHO) ? word("sheet." + TACHO) : "");
        return sheet;
    }

    private String word(String key) {
        Object value = get(key);
        if (!(value instanceof String text)) {
            throw wrong(key, value, "a text");
        }
        return text;
    }

    private double number(String key) {
        Object value = get(key);
        if (!(value instanceof Number number)) {
            throw wrong(key, value, "a number");
        }
        return number.doubleValue();
    }

    private double number(String key, double otherwise) {
        return has(key) ? number(key) : otherwise;
    }

    private OptionalDouble optional(String key) {
        return has(key) ? OptionalDouble.of(number(key)) : OptionalDouble.empty();
    }

    private DoubleSeries numbers(String key) {
        return has(key) ? series(key, get(key)) : DoubleSeries.EMPTY;
    }

    private DoubleSeries series(String key, Object value) {
        if (!(value instanceof TomlArray array)) {
            throw wrong(key, value, "a row of numbers");
        }
        DoubleSeries.Builder numbers = new DoubleSeries.Builder();
        for (Object entry : array.toList()) {
            if (!(entry instanceof Number number)) {
                throw wrong(key, entry, "a number");
            }
            numbers.add(number.doubleValue());
        }
        return numbers.build();
    }

    private List<DoubleSeries> rows(String key, int length) {
        List<DoubleSeries> rows = new ArrayList<>();
        if (has(key)) {
            if (!(get(key) instanceof TomlArray array)) {
                throw wrong(key, get(key), "rows of " + length + " numbers");
            }
            for (Object entry : array.toList()) {
                DoubleSeries row = series(key, entry);
                if (row.size() != length) {
                    throw wrong(key, row.size() + " numbers", "rows of " + length + " numbers");
                }
                rows.add(row);
            }
        }
        return rows;
    }

    private IllegalArgumentException wrong(String key, Object found, String expected) {
        return new IllegalArgumentException(name + ".toml: " + key + ": found "
                + (found == null ? "nothing" : "'" + found + "'") + "; expected " + expected);
    }
}
