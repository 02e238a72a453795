package org.steadyshaft.report;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.steadyshaft.file.WholeFiles;

/**
 * A page of its own beside those of a batch: a plan, a count, settings; for a browser or for a terminal.
 *
 * @param title what it is
 * @param lead the answer, in a sentence
 * @param sections how it comes about
 * @param caution what stands where a hand would come near live or turning parts; empty where none does
 */
public record Leaflet(String title, String lead, List<Section> sections, String caution) {
    /**
     * A part of it.
     *
     * @param heading what it is about
     * @param words paragraphs before the table
     * @param columns headings of the table; none without one
     * @param rows its rows, each as long as the headings
     * @param charts pictures after it
     */
    public record Section(
            String heading,
            List<String> words,
            List<String> columns,
            List<List<String>> rows,
            List<ChartParts.Chart> charts) {
        public Section {
            words = List.copyOf(words);
            columns = List.copyOf(columns);
            rows = List.copyOf(rows);
            charts = List.copyOf(charts);
        }

        static Section of(String heading, List<String> words) {
            return new Section(heading, words, List.of(), List.of(), List.of());
        }

        static Section of(String heading, List<String> words, List<String> columns, List<List<String>> rows) {
            return new Section(heading, words, columns, rows, List.of());
        }
    }

    public Leaflet {
        sections = List.copyOf(sections);
    }

    /**
     * Writes it as a page.
     *
     * @throws IOException if the file cannot be written
     */
    public void write(Path file) throws IOException {
        WholeFiles.write(file, w -> Pages.write("leaflet.jte", Map.of("leaflet", this), w));
    }

    /** Prints it for a terminal, no wider than so many characters where words allow it. */
    public void print(PrintWriter out, int columns) {
        wrapped(lead, columns, "").forEach(out::println);
        if (!caution.isEmpty()) {
            out.println();
            wrapped("Caution. " + caution, columns, "").forEach(out::println);
        }
        for (Section section : sections) {
            out.println();
            out.println(section.heading());
            section.words().forEach(words -> wrapped(words, columns, "  ").forEach(out::println));
            table(section, columns).forEach(out::println);
        }
    }

    /** A table that is too wide is a paragraph a row. */
    private static List<String> table(Section section, int columns) {
        List<String> lines = table(section);
        if (lines.stream().allMatch(l -> l.length() <= columns)) {
            return lines;
        }
        List<String> paragraphs = new ArrayList<>();
        for (List<String> row : section.rows()) {
            StringBuilder words = new StringBuilder(row.get(0));
            for (int c = 1; c < row.size(); c++) {
                words.append(
                        row.get(c).isEmpty()
                                ? ""
                                : (c == 1 ? ": " : "; ") + section.columns().get(c) + " " + row.get(c));
            }
            paragraphs.addAll(wrapped(words.toString(), columns, "  "));
        }
        return paragraphs;
    }

    private static List<String> table(Section section) {
        List<String> lines = new ArrayList<>();
        if (section.columns().isEmpty()) {
            return lines;
        }
        List<List<String>> all = new ArrayList<>(List.of(section.columns()));
        all.addAll(section.rows());
        for (List<String> row : all) {
            StringBuilder line = new StringBuilder("  ");
            for (int c = 0; c < row.size(); c++) {
                int column = c;
                int width =
                        all.stream().mapToInt(r -> r.get(column).length()).max().orElse(0);
                line.append(row.get(c))
                        .append(" ".repeat(width - row.get(c).length()))
                        .append("  ");
            }
            lines.add(line.toString().stripTrailing());
        }
        return lines;
    }

    private static List<String> wrapped(String words, int columns, String indent) {
        List<String> lines = new ArrayList<>();
        StringBuilder line = new StringBuilder(indent);
        for (String word : words.split(" ")) {
            boolean begun = line.length() > indent.length();
            if (begun && line.length() + 1 + word.length() > columns) {
                lines.add(line.toString());
                line = new StringBuilder(indent);
                begun = false;
            }
            line.append(begun ? " " : "").append(word);
        }
        lines.add(line.toString());
        return lines;
    }
}
