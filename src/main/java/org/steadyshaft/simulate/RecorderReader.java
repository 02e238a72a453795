package org.steadyshaft.simulate;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.steadyshaft.signal.Tachometer;
import org.tomlj.TomlTable;

/** Reads the tacho, what records it, what goes wrong on the way and what the run sheet says from a scenario. */
final class RecorderReader {
    private static final List<String> FAULT_KEYS = List.of("kind", "at", "length", "size");
    private static final String NONE = "none";

    private final ScenarioToml toml;

    RecorderReader(ScenarioToml toml) {
        this.toml = toml;
    }

    Scenario.TachoMaker tacho() {
        Tachometer tachometer = new Tachometer((int) toml.number("tacho.pole_pairs"));
        double[] pattern = toml.numbers("tacho.pitch_deviation_percent").toArray();
        Set<Integer> missing = new TreeSet<>();
        toml.numbers("tacho.missing").stream().forEach(pole -> {
            if (!(pole >= 1) || pole > tachometer.polePairs()) {
                throw toml.wrong("tacho.missing", pole, "numbers of pole pairs from 1 to " + tachometer.polePairs());
            }
            missing.add((int) pole - 1);
        });
        return (seconds, seed) -> DrawnTacho.Settings.clean(toml.number("recorder.rate"), seconds)
                .withTachometer(tachometer)
                .withPattern(pattern)
                .withMissing(missing)
                .withShape(
                        toml.number("tacho.peak_at_thousand_rpm"),
                        toml.number("tacho.second", 0),
                        toml.number("tacho.third", 0))
                .withEccentricity(toml.number("tacho.eccentricity_percent", 0))
                .withHum(toml.number("tacho.hum", 0), toml.number("mains.hz"))
                .withNoise(toml.number("tacho.noise", 0), seed)
                .withClockError(toml.number("recorder.clock_error_ppm", 0))
                .withClockDrift(toml.number("recorder.clock_drift_ppm", 0));
    }

    double hum() {
        return toml.number("tacho.hum", 0);
    }

    Scenario.Recorder recorder() {
        return new Scenario.Recorder(
                oneOf("recorder.kind", Scenario.Recorder.Kind.values(), null),
                oneOf("recorder.file", Scenario.Recorder.File.values(), Scenario.Recorder.File.WAV),
                (int) toml.number("recorder.bits", 16),
                toml.number("recorder.full_scale"),
                toml.number("recorder.high_pass", 0),
                toml.numbers("recorder.lost_buffers"),
                (int) toml.number("recorder.decimals", 5),
                toml.number("recorder.trigger", 0),
                new Scenario.Oddities(
                        toml.number("recorder.clock_error_ppm", 0),
                        toml.optional("recorder.header_rate"),
                        toml.optional("recorder.gain_to"),
                        toml.number("recorder.gain_seconds", 1),
                        toml.word("recorder.second", NONE).equals(NONE)
                                ? Optional.empty()
                                : Optional.of(oneOf("recorder.second", SecondChannel.Kind.values(), null)),
                        toml.number("recorder.second_peak", 1)));
    }

    /** The value that a word stands for; {@code otherwise} where there is none, unless that is null. */
    private <T extends Enum<T>> T oneOf(String key, T[] values, T otherwise) {
        if (otherwise != null && !toml.has(key)) {
            return otherwise;
        }
        String word = toml.word(key);
        return Arrays.stream(values)
                .filter(v -> word(v).equals(word))
                .findFirst()
                .orElseThrow(() -> toml.wrong(
                        key,
                        word,
                        Arrays.stream(values).map(RecorderReader::word).collect(Collectors.joining(" or "))));
    }

    private static String word(Enum<?> value) {
        return value.name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    List<RecorderFaults.Fault> faults() {
        List<RecorderFaults.Fault> faults = new ArrayList<>();
        for (TomlTable table : toml.tables("faults")) {
            faults.add(fault("faults[" + (faults.size() + 1) + "]", table));
        }
        return faults;
    }

    private RecorderFaults.Fault fault(String where, TomlTable table) {
        for (String key : table.keySet()) {
            if (!FAULT_KEYS.contains(key)) {
                throw toml.wrong(where + "." + key, "an unknown key", String.join(", ", FAULT_KEYS));
            }
        }
        Object word = table.get("kind");
        RecorderFaults.Kind kind = Arrays.stream(RecorderFaults.Kind.values())
                .filter(k -> k.word().equals(word))
                .findFirst()
                .orElseThrow(() -> toml.wrong(
                        where + ".kind",
                        word,
                        Arrays.stream(RecorderFaults.Kind.values())
                                .map(RecorderFaults.Kind::word)
                                .collect(Collectors.joining(", "))));
        double at = toml.number(where + ".at", table.get("at"));
        double length = table.contains("length") ? toml.number(where + ".length", table.get("length")) : 0;
        double size = toml.number(where + ".size", table.get("size"));
        try {
            return new RecorderFaults.Fault(kind, at, length, size);
        } catch (IllegalArgumentException e) {
            throw new IllegalArgumentException(toml.name() + ".toml: " + where + ": " + e.getMessage(), e);
        }
    }

    Map<String, String> sheet(boolean loop) {
        Map<String, String> sheet = new LinkedHashMap<>();
        for (String key : List.of("circuit", "setting", "load")) {
            sheet.put(key, toml.word("sheet." + key));
        }
        for (String key : List.of("variant", "tacho", "date")) {
            sheet.put(key, toml.word("sheet." + key, ""));
        }
        double ratio = toml.number("belt.ratio", 0);
        sheet.put(
                "belt_ratio",
                ratio == 0 ? "" : BigDecimal.valueOf(ratio).stripTrailingZeros().toPlainString());
        sheet.put("loop", loop ? "yes" : "no");
        return sheet;
    }
}
