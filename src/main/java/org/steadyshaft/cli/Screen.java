package org.steadyshaft.cli;

import java.io.Console;
import java.lang.reflect.Method;
import java.util.Locale;
import picocli.CommandLine.Help.Ansi.Style;
import picocli.CommandLine.Model.UsageMessageSpec;

/**
 * What the output is shown on.
 *
 * @param columns its width; without bound where it is no terminal
 * @param coloured whether it shows colours
 */
record Screen(int columns, boolean coloured) {
    /** Narrower ones wrap: a name and a verdict need so much. */
    private static final int FEWEST_COLUMNS = 66;

    /** A file, a pipe or a test. */
    static final Screen NONE = new Screen(Integer.MAX_VALUE, false);

    /** The one that the program runs on. */
    static Screen here() {
        return isTerminal() ? new Screen(Math.max(FEWEST_COLUMNS, width()), showsColours()) : NONE;
    }

    /** From JDK 22 on there is a console without a terminal too, and only its own method tells. */
    static boolean isTerminal() {
        Console console = System.console();
        if (console == null) {
            return false;
        }
        try {
            Method ask = Console.class.getMethod("isTerminal");
            return (Boolean) ask.invoke(console);
        } catch (ReflectiveOperationException e) {
            return true;
        }
    }

    private static int width() {
        UsageMessageSpec spec = new UsageMessageSpec();
        spec.autoWidth(true);
        return spec.width();
    }

    /** Nobody asked for none (NO_COLOR, a convention of command line programs), and the terminal is one that has them. */
    private static boolean showsColours() {
        String kind = System.getenv().getOrDefault("TERM", "");
        boolean windows =
                System.getProperty("os.name", "").toLowerCase(Locale.ROOT).startsWith("windows");
        return System.getenv().getOrDefault("NO_COLOR", "").isEmpty()
                && !kind.equals("dumb")
                && (!windows || !kind.isEmpty() || System.getenv("WT_SESSION") != null);
    }

    /** Words in a colour, where there are colours. */
    String in(Style colour, String words) {
        return coloured && !words.isBlank()
                ? Style.on(colour, Style.bold) + words + Style.off(colour, Style.bold)
                : words;
    }
}
