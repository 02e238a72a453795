package org.steadyshaft.compare;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class LoadWordsTest {
    @ParameterizedTest
    @ValueSource(
            strings = {
                "",
                "  ",
                "none",
                "None",
                "light",
                "no load",
                "NO-LOAD",
                "no_load",
                "0",
                "0 kg",
                "0kg",
                "unloaded",
                "idle"
            })
    void none(String load) {
        assertTrue(LoadWords.isLight(load));
        assertEquals(LoadWords.NONE, LoadWords.loadKey(load));
    }

    @ParameterizedTest
    @ValueSource(strings = {"2 kg clay", "1 kg", "10 %", "clay", "light clay", "0.5 N m", "hand"})
    void some(String load) {
        assertFalse(LoadWords.isLight(load));
    }

    @Test
    void spellings_of_one_load_are_one() {
        for (String load : List.of("2kg clay", "2 KG  Clay", " 2 kg-clay ", "2_kg_clay")) {
            assertEquals("2 kg clay", LoadWords.loadKey(load));
        }
        assertEquals(LoadWords.key("1.5 kg"), LoadWords.key("1,5kg"));
    }
}
