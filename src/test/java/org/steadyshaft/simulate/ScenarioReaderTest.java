package org.steadyshaft.simulate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Scenario files: what stands in them is known and described, and a mistake is told with file, key, what was found and what was expected. */
class ScenarioReaderTest {
    private static String text(String name) throws IOException {
        try (InputStream in = ScenarioReader.class.getResourceAsStream("scenarios/" + name + ".toml")) {
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        }
    }

    @Test
    void everyKeyIsDescribedAndEveryDescriptionIsOfAKey() throws IOException {
        Set<String> asked = new TreeSet<>();
        for (String name : ScenarioReader.names()) {
            asked.addAll(ScenarioReader.askedBy(name, text(name)));
        }
        Set<String> described = ScenarioReader.keys().stream()
                .map(ScenarioReader.Key::key)
                .collect(Collectors.toCollection(TreeSet::new));
        assertEquals(asked, described);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "inertia = 0.006|inertai = 0.006|motor.inertia: found nothing; expected a number",
                "[load]|[load]%fann = 4.0e-7|load.fann: found 'a key that is not known here'; expected load.grips",
                "set_rpm = 1165.0|set_rpm = \"fast\"|drive.set_rpm: found 'fast'; expected a number",
                "set_rpm = 1165.0|kind = \"knob\"|drive.kind: found 'knob'; expected rc-diac, timed or loop",
                "\"controller\"|\"controler\"|use: found 'controler'; expected one of series-motor, dc-field-motor",
                "[load]|[mains]%wander_percent = 9%[load]|the mains' frequency wanders by 9.0 % in 37.0 s; expected 0 to 5",
                "[load]|[tacho]%missing = [9]%[load]|tacho.missing: found '9.0'; expected numbers of pole pairs from 1 to 8",
                "full_scale = 6.0|full_scale = \"high\"|recorder.full_scale: found 'high'; expected a number",
            })
    void aMistakeIsToldWithItsPlace(String right, String wrong, String message) throws IOException {
        String text = text("bench-grip").replace(right, wrong.replace('%', '\n'));
        IllegalArgumentException told =
                assertThrows(IllegalArgumentException.class, () -> ScenarioReader.parse("mine", text));
        assertTrue(told.getMessage().startsWith("mine.toml: " + message), told.getMessage());
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "kind = \"gremlin\", at = 1, size = 1|faults[1].kind: found 'gremlin'; expected noise-burst, crackle",
                "kind = \"crackle\", at = 1, size = 2|faults[1]: crackle of size 2.0 is out of its range",
                "kind = \"crackle\", at = -1, size = 0.5|faults[1]: crackle at -1.0 s",
                "kind = \"lost-samples\", at = 1|faults[1].size: found nothing; expected a number",
                "kind = \"lost-samples\", when = 1|faults[1].when: found 'an unknown key'; expected kind, at, length, size",
            })
    void aWrongFaultIsToldWithItsPlace(String fault, String message) throws IOException {
        String text = "faults = [{" + fault + "}]\n" + text("bench-grip");
        IllegalArgumentException told =
                assertThrows(IllegalArgumentException.class, () -> ScenarioReader.parse("mine", text));
        assertTrue(told.getMessage().startsWith("mine.toml: " + message), told.getMessage());
    }

    @Test
    void faultsAreRead() throws IOException {
        Scenario scenario = ScenarioReader.parse(
                "mine",
                text("bench-grip") + "\n[[faults]]\nkind = \"open-lead\"\nat = 3.5\nlength = 0.2\nsize = 0.001\n");
        assertEquals(1, scenario.faults().size());
        assertEquals(
                new RecorderFaults.Fault(RecorderFaults.Kind.OPEN_LEAD, 3.5, 0.2, 0.001),
                scenario.faults().get(0));
    }
}
