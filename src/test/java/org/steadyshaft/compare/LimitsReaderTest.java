package org.steadyshaft.compare;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What users write of their work is read as written or refused with place, found and expected. */
class LimitsReaderTest {
    @TempDir
    private Path folder;

    private Path file(String text) throws IOException {
        return Files.writeString(folder.resolve("limits.toml"), text);
    }

    private String refusal(String text) throws IOException {
        Path file = file(text);
        return refusal(file);
    }

    private static String refusal(Path file) {
        String message =
                assertThrows(IOException.class, () -> LimitsReader.read(file)).getMessage();
        assertTrue(message.startsWith(file.toString()), message);
        assertTrue(message.codePoints().noneMatch(Character::isISOControl), "control characters in: " + message);
        assertFalse(message.contains("Exception") || message.contains("org.tomlj"), message);
        return message.substring(file.toString().length());
    }

    @Test
    void the_starting_points_are_what_their_file_says() {
        List<Work> works = LimitsReader.startingPoints();

        assertEquals(
                List.of("throwing-clay", "turning-wood", "winding-coils", "drilling"),
                works.stream().map(Work::name).toList());
        Set<Measure> limited =
                works.stream().flatMap(w -> w.most().keySet().stream()).collect(Collectors.toSet());
        assertTrue(limited.contains(Measure.RIPPLE) && limited.contains(Measure.BLIPS), limited.toString());
        assertTrue(works.stream()
                .allMatch(w -> w.most().containsKey(Measure.BLIPS) && w.loads().isEmpty()));
    }

    @Test
    void everything_is_read_as_written() throws IOException {
        List<Work> works = LimitsReader.read(file("""
                # glazing comes first for this pottery
                [glazing]
                title = "Glasieren \u00E4 \\u001b"
                speed_rpm = [300, 900.5]
                load = "2 kg clay"
                ripple_rms_percent = 0.4
                swing_percent = 3
                twice_mains_percent = 0.6
                blip_percent = 1
                wander_percent = 1.5
                blips_per_minute = 0
                sag_percent = 10
                settling_seconds = 2
                hunting_percent = 0.3

                [a-bat]
                speed_rpm = [1000, 2000]
                blips_per_minute = 2
                """));

        Work glazing = works.get(0);
        assertEquals(
                Map.of(
                        Measure.RIPPLE, 0.4,
                        Measure.SWING, 3.0,
                        Measure.TWICE_MAINS, 0.6,
                        Measure.WANDER, 1.5,
                        Measure.BLIPS, 0.0,
                        Measure.SAG, 10.0,
                        Measure.SETTLING, 2.0,
                        Measure.HUNTING, 0.3),
                glazing.most());
        assertEquals(List.of("glazing", "a-bat"), works.stream().map(Work::name).toList());
        assertEquals(300, glazing.fromRpm());
        assertEquals(900.5, glazing.toRpm());
        assertTrue(glazing.title().startsWith("Glasieren \u00E4"), glazing.title());
        assertTrue(glazing.applies(900.5, "2 kg clay") && !glazing.applies(900.5, "none"));
        assertFalse(glazing.applies(299, "2 kg clay") || glazing.applies(901, "2 kg clay"));
        assertEquals(OptionalDouble.of(1), glazing.blipPercent());
        assertTrue(works.get(1).blipPercent().isEmpty());
        assertEquals("a-bat", works.get(1).title());
        assertTrue(works.get(1).applies(1500, "whatever"));
    }

    /** Spelt otherwise, none by any of its words, one of several. */
    @Test
    void loads_are_known_by_their_meaning() throws IOException {
        Work work = LimitsReader.read(
                        file("[a]\nspeed_rpm = [1, 2]\nblips_per_minute = 1\nload = [\"light\", \"2 kg clay\"]\n"))
                .get(0);

        assertTrue(work.applies(1.5, "") && work.applies(1.5, "none") && work.applies(1.5, "No-Load"));
        assertTrue(work.applies(1.5, "2 KG clay") && work.applies(1.5, "2kg_clay"));
        assertFalse(work.applies(1.5, "3 kg clay"));
    }

    /** Worked by hand: 40 and 250 turns of a wheel at 10 of the motor for one are 400 and 2500 of the motor. */
    @Test
    void speeds_may_be_those_of_the_driven_wheel() throws IOException {
        Work work = LimitsReader.read(file("[a]\nspeed_rpm = [40, 250]\nbelt_ratio = 10\nblips_per_minute = 1\n"))
                .get(0);

        assertEquals(400, work.fromRpm());
        assertEquals(2500, work.toRpm());
    }

    @Test
    void works_keep_the_order_of_the_file() throws IOException {
        StringBuilder text = new StringBuilder();
        for (String name : "zinc yew xylol wood vat".split(" ")) {
            text.append("[" + name + "]\nspeed_rpm = [1, 2]\nblips_per_minute = 1\n");
        }
        assertEquals(
                List.of("zinc", "yew", "xylol", "wood", "vat"),
                LimitsReader.read(file(text.toString())).stream()
                        .map(Work::name)
                        .toList());
    }

    /** Each line takes the place of the fourth in a file that is right otherwise. */
    @ParameterizedTest(name = "{index}")
    @CsvSource(
            delimiter = '|',
            value = {
                "ripple_percent = 1 | :4: ripple_percent: found 1; expected one of title, speed_rpm, load, belt_ratio, blip_percent, ripple_rms_percent",
                "swing_percent = \"low\" | :4: swing_percent: found 'low'; expected a number",
                "swing_percent = true | :4: swing_percent: found true; expected a number",
                "swing_percent = [3] | :4: swing_percent: found [3]; expected a number",
                "swing_percent = nan | :4: swing_percent: found NaN; expected a number",
                "swing_percent = inf | :4: swing_percent: found Infinity; expected a number",
                "swing_percent = -0.1 | :4: swing_percent: found -0.1; expected a number from 0 on",
                "swing_percent = 1,5 | :4 ; found ; expected ",
                "swing_percent 3 | :4 ; found ; expected ",
                "swing_percent = | :4 ; found ; expected ",
                "blips_per_minute = 3 | :4: ; blips_per_minute; expected ",
                "load = 2 | :4: load: found 2; expected words in quotes",
                "load = [2] | :4: load: found [2]; expected words in quotes",
                "load = [] | :4: load: found []; expected at least one word",
                "belt_ratio = 0 | :4: belt_ratio: found 0; expected turns of the motor",
                "belt_ratio = \"10:1\" | :4: belt_ratio: found '10:1'; expected a number",
                "blip_percent = -1 | :4: blip_percent: found -1; expected a number from 0 on",
                "title = \"\" | :4: title: found ''; expected words in quotes",
                "\"\\u001b\" = 1 | :4: ; expected one of title",
                "swing_percent = \"\\u001b\" | :4: swing_percent: found ; expected a number",
                "[throwing.wet] | :4: wet: found {}; expected one of title",
            })
    void a_wrong_line_is_refused(String line, String words) throws IOException {
        String message = refusal("[throwing]\nspeed_rpm = [400, 2500]\nblips_per_minute = 2\n" + line + "\n");
        for (String word : words.split(" ?; ?")) {
            assertTrue(message.contains(word), message + " lacks: " + word);
        }
        assertTrue(message.contains("expected"), message);
        assertTrue(message.startsWith(":4") || message.startsWith(":5"), message);
    }

    @ParameterizedTest(name = "{index}")
    @CsvSource(
            delimiter = '|',
            value = {
                "[400] | two numbers",
                "[400, 900, 2500] | two numbers",
                "[] | two numbers",
                "400 | two numbers",
                "\"400 to 2500\" | two numbers",
                "[\"400\", \"2500\"] | two numbers",
                "{from = 400, to = 2500} | two numbers",
                "[2500, 400] | the lower first",
                "[400, 400] | the lower first",
                "[0, 400] | above 0",
                "[-1, 400] | above 0",
                "[nan, 400] | above 0",
                "[400, nan] | above 0",
                "[400, inf] | above 0"
            })
    void wrong_speeds_are_refused(String speeds, String expected) throws IOException {
        String message = refusal("[throwing]\nblips_per_minute = 2\nspeed_rpm = " + speeds + "\n");
        assertTrue(message.startsWith(":3: speed_rpm: found "), message);
        String numbers = speeds.replaceAll("[^0-9]+", " ").strip();
        assertTrue(
                message.substring(0, message.indexOf("expected"))
                        .replaceAll("[^0-9]+", " ")
                        .contains(numbers),
                message + " lacks what was found: " + numbers);
        assertTrue(message.contains("expected two") && message.contains(expected), message);
    }

    @ParameterizedTest(name = "{index}")
    @CsvSource(
            delimiter = '|',
            value = {
                "'' | found no kind of work",
                "'# only words\n' | found no kind of work",
                "'swing_percent = 3\n' | :1: swing_percent: found 3; expected a table for each kind of work",
                "'[throwing]\nspeed_rpm = [1, 2]\n' | :1: [throwing] limits nothing; expected at least one of ripple_rms_percent",
                "'\n[throwing]\nswing_percent = 2\n' | :2: [throwing] has no speed_rpm; expected speed_rpm = [lowest, highest]",
                "'[throwing]\n' | :1: [throwing] limits nothing",
                "'[throwing]\nspeed_rpm = [1, 2]\nswing_percent = 2\nblip_percent = 1\n' | :4: blip_percent: found without a limit",
                "'[a.b]\nspeed_rpm = [1, 2]\nswing_percent = 2\n' | :1: ",
                "'[[throwing]]\nspeed_rpm = [1, 2]\nswing_percent = 2\n' | :1: throwing: found ",
                "'[x]\nspeed_rpm = [1, 2]\nswing_percent = 2\n[x]\n' | :4: ",
                "'\" \"]\nspeed_rpm = [1, 2]\nswing_percent = 2\n' | :1: ",
                "'[\" \"]\nspeed_rpm = [1, 2]\nswing_percent = 2\n' | :1: ",
                "'Dear reader, throwing needs steady speed.\n' | :1: ",
            })
    void a_wrong_file_is_refused(String text, String words) throws IOException {
        String message = refusal(text);
        assertTrue(message.contains(words), message + " lacks: " + words);
        assertTrue(message.contains("expected"), message);
    }

    @Test
    void bytes_that_are_no_text_are_refused() throws IOException {
        Path latin = Files.write(
                folder.resolve("latin.toml"), "[t]\ntitle = \"T\u00F6pfern\"\n".getBytes(StandardCharsets.ISO_8859_1));
        assertTrue(refusal(latin).contains("not UTF-8; expected"), refusal(latin));

        Path noise = Files.write(folder.resolve("noise.toml"), new byte[] {0x52, 0x49, 0x46, 0x46, 0, 1, 2, 3});
        assertTrue(refusal(noise).startsWith(":1"), refusal(noise));
    }

    @Test
    void what_is_not_there_or_no_file_is_refused() {
        assertEquals(": there is no such file", refusal(folder.resolve("none.toml")));
        assertTrue(refusal(folder).contains("folder"), refusal(folder));
    }

    /** Some editors put a byte order mark before the text. */
    @Test
    void a_byte_order_mark_does_no_harm() throws IOException {
        assertEquals(
                1,
                LimitsReader.read(file("\uFEFF[t]\nspeed_rpm = [1, 2]\nswing_percent = 2\n"))
                        .size());
    }
}
