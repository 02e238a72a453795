package org.steadyshaft.signal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertSame;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class PlainTextTest {
    @ParameterizedTest
    @ValueSource(
            ints = {
                0, 7, 9, 10, 13, 0x1B, 0x7F, 0x85, 0x9B, 0x061C, 0x200E, 0x200F, 0x2028, 0x2029, 0x202A, 0x202E, 0x2066,
                0x2069, 0xFEFF, 0xFFFE, 0xFFFF, 0xFDD0, 0xFDEF, 0x1FFFE, 0x10FFFF, 0xE0041, 0xD800, 0xDFFF
            })
    void what_acts_or_hides_is_replaced(int c) {
        String text = "a" + Character.toString(c) + "b";
        assertEquals("a\uFFFDb", PlainText.of(text), Integer.toHexString(c));
    }

    /** Words in any script, emoji with joiners among them, stay as they are. */
    @Test
    void words_stay() {
        String words =
                "8 k\u03A9, \u5236\u9676, \u0939\u093F\u0928\u094D\u0926\u0940, \u05D0\u05D1, \uD83D\uDC69\u200D\uD83C\uDFA8 - \u00FC\u00B5";
        assertSame(words, PlainText.of(words));
    }
}
