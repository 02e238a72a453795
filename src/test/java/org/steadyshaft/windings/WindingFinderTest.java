package org.steadyshaft.windings;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** What readings tell of an unknown motor. */
class WindingFinderTest {
    private static Reading reading(String from, String to, double ohms) {
        return new Reading(from, to, ohms, Optional.empty(), Optional.empty(), Optional.empty(), Optional.empty());
    }

    private static Reading jumping(String from, String to, double ohms) {
        return new Reading(from, to, ohms, Optional.of(true), Optional.empty(), Optional.empty(), Optional.empty());
    }

    private static List<Answer> find(Reading... readings) {
        return new WindingFinder(WindingTables.usualRanges()).find(List.of(readings));
    }

    /** The ranges of armature, field and cut-out overlap: no answer without a second test. */
    @ParameterizedTest
    @CsvSource({"2.2, 2", "0.7, 2", "1, 3", "3.9, 2"})
    void whereSeveralFitThereIsNoAnswer(double ohms, int candidates) {
        Answer answer = find(reading("1", "2", ohms)).get(0);
        assertEquals(Answer.Kind.OPEN, answer.kind());
        assertEquals(candidates, answer.candidates().size(), answer.toString());
        assertTrue(!answer.test().isEmpty());
    }

    @Test
    void theSecondTestDecides() {
        assertEquals(
                List.of(Winding.ARMATURE), find(jumping("1", "2", 2.2)).get(0).candidates());
        assertEquals(Answer.Kind.KNOWN, find(jumping("1", "2", 2.2)).get(0).kind());
        Reading steady =
                new Reading("1", "2", 2.2, Optional.empty(), Optional.empty(), Optional.of(false), Optional.empty());
        assertEquals(List.of(Winding.FIELD), find(steady).get(0).candidates());
    }

    /** 180 ohm fit the tacho alone: likely, and known when a meter shows a voltage by hand; a test against it leaves nothing. */
    @Test
    void aTachoIsKnownByItsVoltage() {
        assertEquals(Answer.Kind.LIKELY, find(reading("5", "6", 180)).get(0).kind());
        Reading makes =
                new Reading("5", "6", 180, Optional.empty(), Optional.of(true), Optional.empty(), Optional.empty());
        assertEquals(Answer.Kind.KNOWN, find(makes).get(0).kind());
        Reading none =
                new Reading("5", "6", 180, Optional.empty(), Optional.of(false), Optional.empty(), Optional.empty());
        assertEquals(Answer.Kind.OPEN, find(none).get(0).kind());
        assertTrue(find(none).get(0).candidates().isEmpty());
    }

    /** A field with a tap: 1.1 and 1.3 ohm add up to 2.4. */
    @Test
    void aTapIsSeenBySums() {
        List<Answer> answers = find(reading("1", "2", 1.1), reading("2", "3", 1.3), reading("1", "3", 2.4));
        assertTrue(answers.get(0).why().contains("2 is its tap"), answers.get(0).why());
        assertEquals(Answer.Kind.NONE, answers.get(2).kind());
        assertTrue(
                answers.get(2).why().contains("sum of 1 and 2 and 2 and 3"),
                answers.get(2).why());
    }

    @Test
    void aPathToTheFrameStopsEverything() {
        List<Answer> answers = find(reading("1", "2", 2.2), reading("1", "frame", 800_000), reading("2", "frame", 5e6));
        assertEquals(Answer.Kind.STOP, answers.get(0).kind());
        assertEquals("1 and frame", answers.get(0).reading().pair());
        assertEquals(Answer.Kind.NONE, answers.get(2).kind());
    }

    @Test
    void threeWiresOnATachoStop() {
        List<Answer> answers = find(reading("4", "5", 120), reading("5", "6", 150), reading("4", "6", 90));
        answers.forEach(a -> assertEquals(Answer.Kind.STOP, a.kind(), a.toString()));
    }

    @Test
    void whatIsOpenIsNoWinding() {
        assertEquals(
                Answer.Kind.NONE,
                find(reading("1", "5", Double.POSITIVE_INFINITY)).get(0).kind());
    }

    @Test
    void aTableIsRead(@TempDir Path folder) throws IOException {
        Path file = Files.writeString(
                folder.resolve("motor.csv"),
                "From;To;Ohms;jumps;volts\r\n1;2;2,2;yes;\r\n5;6;180;;yes\r\n1;5;OL;;\r\n1;frame;5000000;;\r\n");
        List<Reading> readings = WindingTables.readings(file);
        assertEquals(4, readings.size());
        assertEquals(2.2, readings.get(0).ohms());
        assertEquals(Optional.of(true), readings.get(0).jumps());
        assertTrue(readings.get(2).isOpen());
        assertTrue(readings.get(3).isToFrame());
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "from,to,ohms\n1,2,two|:2: column ohms: found 'two'; expected a resistance in ohm, or 'open'",
                "from,to,ohms\n1,1,3|:2: column to: found '1'; expected the names of two contacts",
                "from,to,ohms\n1,2,3\n2,1,3|:3: column to: found '2 and 1'; expected each pair of contacts once",
                "a,b\n1,2|:1: found the columns [a, b]; expected one called 'from'",
                "from,to,ohms,jumps\n1,2,3,perhaps|:2: column jumps: found 'perhaps'; expected yes, no or nothing",
                "from,to,ohms\n1,2,-3|:2: column ohms: found '-3'; expected a resistance",
                "from,to,ohms\n|found no reading"
            })
    void aWrongTableIsToldWithItsLine(String both, @TempDir Path folder) throws IOException {
        String[] parts = both.split("\\|");
        Path file = Files.writeString(folder.resolve("motor.csv"), parts[0]);
        IOException told = assertThrows(IOException.class, () -> WindingTables.readings(file));
        assertTrue(told.getMessage().contains(parts[1]), told.getMessage());
    }

    @Test
    void rangesCanBeEdited(@TempDir Path folder) throws IOException {
        String text = WindingTables.usualText().replace("tacho,20,600", "tacho,20,900");
        Ranges ranges = WindingTables.ranges(Files.writeString(folder.resolve("ranges.csv"), text));
        assertEquals(
                List.of(Winding.TACHO),
                new WindingFinder(ranges)
                        .find(List.of(reading("5", "6", 800)))
                        .get(0)
                        .candidates());
        Path lacking = Files.writeString(folder.resolve("lacking.csv"), "winding,from_ohms,to_ohms\ntacho,20,600\n");
        assertThrows(IOException.class, () -> WindingTables.ranges(lacking));
    }
}
