package org.steadyshaft.report;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.steadyshaft.file.WholeFiles;

/**
 * Puts the pages of a batch into one file that can be passed on: the comparison, all captures, and each capture's own page, with the links
 * between them leading within the file. It is made from the pages as they were written. So that it can go by mail it stays below two
 * million bytes: where there is too much, the close charts go first, then what the page's script draws from, then the first chart, then
 * the captures' pages; it says what is left out.
 */
public final class SharePage {
    private static final int MOST_BYTES = 2_000_000;

    private static final Pattern MAIN = Pattern.compile("<main[^>]*>(.*)</main>", Pattern.DOTALL);
    private static final Pattern ANCHOR = Pattern.compile("(\\bid=\"|href=\"#|url\\(#)([^\")]+)");
    private static final Pattern LABELLED = Pattern.compile("aria-labelledby=\"([^\"]+)\"");
    private static final Pattern PAGE_LINK = Pattern.compile("<a href=\"([^\"]+)/report\\.html\">(.*?)</a>");
    private static final Pattern CLOSE_CHARTS =
            Pattern.compile("<details>\\s*<summary>(?:(?!</details>).)*<svg.*?</details>\\s*", Pattern.DOTALL);
    private static final Pattern ZOOM_DATA =
            Pattern.compile("<p class=\"readout\".*?<script type=\"application/json\">.*?</script>", Pattern.DOTALL);
    private static final Pattern FIRST_CHART =
            Pattern.compile("<h3 id=\"[^\"]*chart\">.*?</figure>\\s*", Pattern.DOTALL);
    private static final Pattern CONTENTS = Pattern.compile("<nav class=\"contents\".*?</nav>\\s*", Pattern.DOTALL);

    private final Path out;
    private final List<CaptureSummary> captures;
    private final boolean compared;

    /**
     * @param out the output folder, with all pages of the batch
     * @param captures in the batch's order
     * @param compared whether circuits were compared
     */
    public SharePage(Path out, List<CaptureSummary> captures, boolean compared) {
        this.out = out;
        this.captures = List.copyOf(captures);
        this.compared = compared;
    }

    /** What goes when the file would be too large: each step takes what those before it take, too. */
    private enum Slim {
        WHOLE(""),
        NO_CLOSE_CHARTS("the charts that look closely"),
        NO_ZOOM("the charts that look closely, and the first one cannot be looked at more closely"),
        NO_CHARTS("the captures' charts"),
        NO_CAPTURES("the captures' own pages");

        private final String left;

        Slim(String left) {
            this.left = left;
        }
    }

    /**
     * Writes the file.
     *
     * @return where it is
     * @throws IOException if a page cannot be read or the file cannot be written
     */
    public Path write() throws IOException {
        Path file = out.resolve(ResultFiles.SHARE);
        for (Slim slim : Slim.values()) {
            String page = page(slim);
            if (slim == Slim.NO_CAPTURES || page.getBytes(StandardCharsets.UTF_8).length <= MOST_BYTES) {
                WholeFiles.write(file, w -> w.write(page));
                return file;
            }
        }
        throw new IllegalStateException("no way to write " + file);
    }

    private String page(Slim slim) throws IOException {
        Map<String, String> anchors = new HashMap<>();
        if (slim != Slim.NO_CAPTURES) {
            for (int i = 0; i < captures.size(); i++) {
                anchors.put(captures.get(i).href(), "c" + (i + 1));
            }
        }
        List<String> parts = new ArrayList<>();
        if (compared) {
            parts.add(part("comparison", ResultFiles.COMPARISON_PAGE, "comparison", anchors));
        }
        if (captures.size() > 1) {
            parts.add(part("all", ResultFiles.INDEX, "", anchors));
        }
        long length = parts.stream().mapToLong(String::length).sum();
        for (CaptureSummary capture : captures) {
            if (slim != Slim.NO_CAPTURES && length <= MOST_BYTES) {
                String text = slimmed(
                        part(
                                anchors.get(capture.href()),
                                capture.folder() + "/" + ResultFiles.PAGE,
                                "capture",
                                anchors),
                        slim);
                length += text.length();
                parts.add(text);
            }
        }
        return Pages.text("share.jte", new Shared(parts, slim.left));
    }

    /**
     * What the file shows.
     *
     * @param parts the pages, as markup
     * @param leftOut what had to be left out; empty where nothing was
     */
    public record Shared(List<String> parts, String leftOut) {}

    /** A page as a part of a larger one: its names are its own, and its links to captures' pages lead within the file, or nowhere. */
    private String part(String anchor, String file, String style, Map<String, String> anchors) throws IOException {
        Matcher main = MAIN.matcher(Files.readString(out.resolve(file)));
        String content = main.find() ? main.group(1) : "";
        content = ANCHOR.matcher(content)
                .replaceAll(m -> Matcher.quoteReplacement(m.group(1) + anchor + "-" + m.group(2)));
        content = LABELLED.matcher(content)
                .replaceAll(m -> Matcher.quoteReplacement(
                        "aria-labelledby=\"" + anchor + "-" + m.group(1).replace(" ", " " + anchor + "-") + "\""));
        content = PAGE_LINK.matcher(content).replaceAll(m -> {
            String to = anchors.get(m.group(1) + "/" + ResultFiles.PAGE);
            return Matcher.quoteReplacement(to == null ? m.group(2) : "<a href=\"#" + to + "\">" + m.group(2) + "</a>");
        });
        content = content.replace("<a href=\"" + ResultFiles.COMPARISON_PAGE + "\">", "<a href=\"#comparison\">");
        for (int level = 3; level > 0; level--) {
            content = content.replaceAll("<(/?)h" + level + "\\b", "<$1h" + (level + 1));
        }
        return "<article id=\"" + anchor + "\" class=\"" + style + "\">" + content + "</article>\n";
    }

    private static String slimmed(String page, Slim slim) {
        String slimmed = page;
        if (slim.compareTo(Slim.NO_CLOSE_CHARTS) >= 0) {
            slimmed = CLOSE_CHARTS.matcher(slimmed).replaceAll("");
        }
        if (slim.compareTo(Slim.NO_ZOOM) >= 0) {
            slimmed = ZOOM_DATA.matcher(slimmed).replaceAll("").replace("<div class=\"zoom\"", "<div");
        }
        if (slim.compareTo(Slim.NO_CHARTS) >= 0) {
            slimmed = FIRST_CHART.matcher(slimmed).replaceAll("");
        }
        // headings that are gone have no place in the contents
        return slim == Slim.WHOLE ? slimmed : CONTENTS.matcher(slimmed).replaceAll("");
    }
}
