package org.steadyshaft.report;

import gg.jte.ContentType;
import gg.jte.TemplateEngine;
import gg.jte.output.StringOutput;
import gg.jte.output.WriterOutput;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.util.Base64;
import java.util.HexFormat;
import java.util.Map;
import org.steadyshaft.file.Digests;

/** Fills the page templates of src/main/jte, which are compiled into the program and escape every value. */
public final class Pages {
    private static final TemplateEngine ENGINE = TemplateEngine.createPrecompiled(
            null, ContentType.Html, Pages.class.getClassLoader(), "org.steadyshaft.report.pages");

    /** The program's own script, as it stands between its tags. */
    private static final String SORT = "\n" + read("sort.js");

    private static final String CHART = "\n" + read("chart.js");

    /**
     * What a page may do: show its own text, styles and drawings, run the program's own scripts, known by their digests, and nothing from a
     * network. Source: W3C, Content Security Policy Level 3, sections 6 and 2.3.1 (hash-source).
     */
    private static final String POLICY = "default-src 'none'; style-src 'unsafe-inline'; img-src data:; script-src "
            + source(SORT) + " " + source(CHART) + "; base-uri 'none'; form-action 'none'";

    private Pages() {}

    private static String source(String script) {
        return "'sha256-" + Base64.getEncoder().encodeToString(HexFormat.of().parseHex(Digests.sha256(script))) + "'";
    }

    /** What a template makes of one value. */
    static String text(String template, Object value) {
        StringOutput out = new StringOutput();
        ENGINE.render(template, value, out);
        return out.toString();
    }

    static void write(String template, Map<String, Object> values, Writer out) {
        ENGINE.render(template, values, new WriterOutput(out));
    }

    /** The policy that every page carries. */
    public static String policy() {
        return POLICY;
    }

    /** The script that sorts tables, with its tags. */
    public static String sortScript() {
        return "<script>" + SORT + "</script>";
    }

    /** The script that lets a reader look closer at a chart, with its tags. */
    public static String chartScript() {
        return "<script>" + CHART + "</script>";
    }

    private static String read(String resource) {
        try (InputStream in = Pages.class.getResourceAsStream(resource)) {
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
