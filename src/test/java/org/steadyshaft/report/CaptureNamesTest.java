package org.steadyshaft.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.steadyshaft.file.OwnFile;

class CaptureNamesTest {
    @ParameterizedTest
    @CsvSource({
        "in/wheel.wav, wheel",
        "wheel.csv.gz, wheel",
        "CON.wav, _CON",
        "nul.wav, _nul",
        "aux.left.wav, _aux_left",
        "COM1.flac, _COM1",
        "lpt9.csv, _lpt9",
        "console.wav, console",
        "com.wav, com",
        "a.part.wav, _a_part",
        "A.PART.wav, _A_PART",
        "..., _",
        "index.html.wav, index.html-2",
        "summary.csv.wav, summary.csv-2",
        "comparison.csv.wav, comparison.csv-2",
        "comparison.json.wav, comparison.json-2",
        "comparison.html.wav, comparison.html-2",
        ".steadyshaft.lock.wav, _steadyshaft.lock"
    })
    void a_name_is_one_that_every_system_can_hold(String file, String name) {
        assertEquals(name, new CaptureNames().nameFor(file));
    }

    @Test
    void names_that_differ_only_in_case_get_two_folders() {
        CaptureNames names = new CaptureNames();
        Set<String> given = new HashSet<>();
        for (String file : List.of("Wheel.wav", "wheel.wav", "WHEEL.csv", "wheel-2.wav")) {
            assertTrue(given.add(names.nameFor(file).toLowerCase(Locale.ROOT)), given.toString());
        }
    }

    @Test
    void a_folder_that_is_not_free_is_passed_over() {
        Set<String> taken = Set.of("wheel", "wheel-2");
        assertEquals("wheel-3", new CaptureNames(name -> !taken.contains(name)).nameFor("wheel.wav"));
    }

    /** Whatever analyse writes into the output folder is reserved there. */
    @Test
    void all_names_of_the_batch_are_reserved() {
        for (OwnFile own : ResultFiles.ofTheBatch()) {
            assertFalse(new CaptureNames().nameFor(own.name() + ".wav").equals(own.name()), own.name());
        }
    }
}
