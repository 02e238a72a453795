package org.steadyshaft.simulate;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.steadyshaft.signal.DoubleSeries;
import org.steadyshaft.signal.Tachometer;
import org.tomlj.Toml;
import org.tomlj.TomlArray;
import org.tomlj.TomlParseResult;

/**
 * Reads scenarios from TOML files beside this class; index.txt names them in the order in which they are listed. A missing or
 * wrong key is refused with the file's name, the key, what was found and what was expected.
 */
public final class ScenarioReader {
    /** Cell of the run sheet that a scenario may leave out. */
    private static final String TACHO = "tacho";

    private static final String FOLDER = "scenarios/";

    private final String name;
    private final TomlParseResult toml;

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

    private Scenario scenario() {
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
                sheet(),
                new TreeMap<>(toml.dottedKeySet().stream().collect(Collectors.toMap(k -> k, k -> plain(toml.get(k))))));
    }

    private static Object plain(Object value) {
        return value instanceof TomlArray array
                ? array.toList().stream().map(ScenarioReader::plain).toList()
                : value;
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
        boolean rectified = Boolean.TRUE.equals(toml.getBoolean("drive.rectified"));
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
                boolean holds = Boolean.TRUE.equals(toml.getBoolean("drive.holds_gate"));
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
                toml.contains("drive.lead_breaks")
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
        sheet.put(TACHO, toml.contains("sheet." + TACHO) ? word("sheet." + TACHO) : "");
        return sheet;
    }

    private String word(String key) {
        Object value = toml.get(key);
        if (!(value instanceof String text)) {
            throw wrong(key, value, "a text");
        }
        return text;
    }

    private double number(String key) {
        Object value = toml.get(key);
        if (!(value instanceof Number number)) {
            throw wrong(key, value, "a number");
        }
        return number.doubleValue();
    }

    private double number(String key, double otherwise) {
        return toml.contains(key) ? number(key) : otherwise;
    }

    private OptionalDouble optional(String key) {
        return toml.contains(key) ? OptionalDouble.of(number(key)) : OptionalDouble.empty();
    }

    private DoubleSeries numbers(String key) {
        return toml.contains(key) ? series(key, toml.get(key)) : DoubleSeries.EMPTY;
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
        if (toml.contains(key)) {
            if (!(toml.get(key) instanceof TomlArray array)) {
                throw wrong(key, toml.get(key), "rows of " + length + " numbers");
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
