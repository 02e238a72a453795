package org.steadyshaft.signal;

/** Text from files made harmless for terminals and pages: control characters, which would act there, are replaced. */
public final class PlainText {
    private PlainText() {}

    /** The text with every control character replaced by U+FFFD. */
    public static String of(String text) {
        StringBuilder plain = new StringBuilder(text.length());
        text.codePoints().forEach(c -> plain.appendCodePoint(Character.isISOControl(c) ? 0xFFFD : c));
        return plain.toString();
    }
}
