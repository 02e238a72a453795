package org.steadyshaft.signal;

/**
 * Text from files and command lines made harmless for terminals, pages and tables, once, when it is read: what acts there, is forbidden
 * there or makes a text look like another is replaced by U+FFFD.
 */
public final class PlainText {
    private static final int REPLACEMENT = 0xFFFD;

    private PlainText() {}

    /** The text with every character replaced that does not belong into a line of words. */
    public static String of(String text) {
        if (text.codePoints().noneMatch(PlainText::acts)) {
            return text;
        }
        StringBuilder plain = new StringBuilder(text.length());
        text.codePoints().forEach(c -> plain.appendCodePoint(acts(c) ? REPLACEMENT : c));
        return plain.toString();
    }

    private static boolean acts(int c) {
        return Character.isISOControl(c) || breaksLines(c) || turnsDirection(c) || isNone(c);
    }

    /** U+2028 and U+2029, the separators of lines and paragraphs. */
    private static boolean breaksLines(int c) {
        return c == 0x2028 || c == 0x2029;
    }

    /** Marks, embeddings, overrides and isolates. Source: Unicode Standard Annex 9, table 1 and section 2. */
    private static boolean turnsDirection(int c) {
        return c == 0x061C || c == 0x200E || c == 0x200F || c >= 0x202A && c <= 0x202E || c >= 0x2066 && c <= 0x2069;
    }

    /**
     * Halves of pairs, noncharacters, the byte order mark and the invisible tags. Source: The Unicode Standard, sections 23.6, 23.7 and 23.9;
     * XML 1.0, production 2, forbids the first two as far as they are in its plane.
     */
    private static boolean isNone(int c) {
        return c >= 0xD800 && c <= 0xDFFF
                || (c & 0xFFFE) == 0xFFFE
                || c >= 0xFDD0 && c <= 0xFDEF
                || c == 0xFEFF
                || c >= 0xE0000 && c <= 0xE007F;
    }
}
