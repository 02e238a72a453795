package org.steadyshaft.cli;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/** Shows a page with whatever the system shows pages with. */
final class PageOpener {
    private final List<String> command;

    private PageOpener(List<String> command) {
        this.command = List.copyOf(command);
    }

    /** The usual way of an operating system, by the name that Java gives it. */
    static PageOpener of(String system) {
        String name = system.toLowerCase(Locale.ROOT);
        if (name.startsWith("windows")) {
            return new PageOpener(List.of("rundll32", "url.dll,FileProtocolHandler"));
        }
        return new PageOpener(List.of(name.startsWith("mac") ? "open" : "xdg-open"));
    }

    /** The command for a page. */
    List<String> commandFor(Path page) {
        List<String> words = new ArrayList<>(command);
        words.add(page.toAbsolutePath().normalize().toUri().toString());
        return words;
    }

    /** Starts it and does not wait; why it could not be started, if so. */
    Optional<String> open(Path page) {
        try {
            new ProcessBuilder(commandFor(page))
                    .redirectOutput(ProcessBuilder.Redirect.DISCARD)
                    .redirectError(ProcessBuilder.Redirect.DISCARD)
                    .start();
            return Optional.empty();
        } catch (IOException e) {
            return Optional.of(
                    "no program to show pages with (tried " + command.get(0) + "); open " + page + " yourself");
        }
    }
}
