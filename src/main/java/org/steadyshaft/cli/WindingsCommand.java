package org.steadyshaft.cli;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.PrintWriter;
import java.nio.charset.Charset;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.steadyshaft.report.WindingsLeaflet;
import org.steadyshaft.signal.PlainText;
import org.steadyshaft.windings.Ranges;
import org.steadyshaft.windings.Reading;
import org.steadyshaft.windings.WindingFinder;
import org.steadyshaft.windings.WindingTables;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Which contact of a scrapped motor is which, before any power. */
@Command(
        name = "windings",
        description = {
            "Tells which contacts of an unknown, unplugged motor belong to armature, field, tacho and thermal cut-out, from a meter's",
            "readings; says which second test must still agree, and gives no answer where several windings fit.",
            "FILE is a table with the columns from, to, ohms, and where they were tried jumps (while the shaft is turned by hand),",
            "volts (on AC, by hand), brushes (the wires lead there), opens_warm: yes or no. Without FILE it asks on the terminal.",
            "MOTOR UNPLUGGED, HARNESS OFF, CAPACITORS EMPTY. Insulation and power are for licensed practice."
        },
        mixinStandardHelpOptions = true)
final class WindingsCommand implements Callable<Integer> {
    private static final int MOST_CONTACTS = 12;

    @Spec
    private CommandSpec spec;

    @Mixin
    private LeafletOutput output;

    @Option(
            names = "--ranges",
            paramLabel = "FILE",
            description = "resistances that each winding may have, as --describe prints them")
    private Path ranges;

    @Option(names = "--describe", description = "prints the table of ranges and does nothing else")
    private boolean describe;

    @Parameters(paramLabel = "FILE", arity = "0..1", description = "readings (CSV)")
    private Path file;

    @Override
    public Integer call() {
        if (describe) {
            spec.commandLine().getOut().print(WindingTables.usualText());
            return 0;
        }
        Ranges taken;
        List<Reading> readings;
        try {
            taken = ranges == null ? WindingTables.usualRanges() : WindingTables.ranges(ranges);
            readings = file == null ? asked() : WindingTables.readings(file);
        } catch (IOException e) {
            throw new ParameterException(spec.commandLine(), PlainText.of(String.valueOf(e.getMessage())));
        }
        if (readings.isEmpty()) {
            throw new ParameterException(
                    spec.commandLine(), "windings needs readings: a table, or answers on the terminal");
        }
        return output.give(
                WindingsLeaflet.of(new WindingFinder(taken).find(readings), taken), "windings", folder -> List.of());
    }

    /** Asks for the contacts, then for every pair of them. */
    private List<Reading> asked() throws IOException {
        PrintWriter out = spec.commandLine().getOut();
        BufferedReader in = new BufferedReader(new InputStreamReader(System.in, Charset.defaultCharset()));
        out.println("Motor unplugged, harness off, capacitors empty, leads of the meter nulled.");
        out.println("Names of the contacts, with spaces between (the frame is called frame), or Enter to end:");
        out.flush();
        String line = in.readLine();
        List<String> contacts = line == null || line.isBlank()
                ? List.of()
                : List.of(line.strip().split("\\s+"));
        if (contacts.size() > MOST_CONTACTS || contacts.stream().distinct().count() != contacts.size()) {
            throw new IOException(
                    "found " + contacts.size() + " contacts; expected at most " + MOST_CONTACTS + ", each once");
        }
        List<Reading> readings = new ArrayList<>();
        for (int i = 0; i < contacts.size(); i++) {
            for (int j = i + 1; j < contacts.size(); j++) {
                Optional<Reading> reading = asked(contacts.get(i), contacts.get(j), in, out);
                reading.ifPresent(readings::add);
            }
        }
        return readings;
    }

    private static Optional<Reading> asked(String from, String to, BufferedReader in, PrintWriter out)
            throws IOException {
        while (true) {
            out.println("Ohm between " + PlainText.of(from) + " and " + PlainText.of(to)
                    + " (o for open, Enter to leave it out; add j if the reading jumps while the shaft is turned, v if a meter on AC"
                    + " shows a voltage then):");
            out.flush();
            String line = in.readLine();
            if (line == null || line.isBlank()) {
                return Optional.empty();
            }
            String words = line.strip().toLowerCase(Locale.ROOT).replace(',', '.');
            String number = words.split("\\s+")[0];
            try {
                double ohms = number.startsWith("o") ? Double.POSITIVE_INFINITY : Double.parseDouble(number);
                if (ohms >= 0) {
                    return Optional.of(new Reading(
                            from, to, ohms, said(words, "j"), said(words, "v"), Optional.empty(), Optional.empty()));
                }
            } catch (NumberFormatException e) {
                // asked again
            }
            out.println("Found '" + PlainText.of(line) + "'; expected a number of ohm, o, or nothing.");
        }
    }

    private static Optional<Boolean> said(String words, String letter) {
        return words.matches(".*\\s" + letter + "(\\s.*)?") ? Optional.of(true) : Optional.empty();
    }
}
