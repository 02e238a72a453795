package org.steadyshaft.report;

import gg.jte.ContentType;
import gg.jte.TemplateEngine;
import gg.jte.output.WriterOutput;
import java.io.Writer;
import java.util.Map;

/** Fills the page templates of src/main/jte, which are compiled into the program and escape every value. */
final class Pages {
    private static final TemplateEngine ENGINE = TemplateEngine.createPrecompiled(
            null, ContentType.Html, Pages.class.getClassLoader(), "org.steadyshaft.report.pages");

    private Pages() {}

    static void write(String template, Map<String, Object> values, Writer out) {
        ENGINE.render(template, values, new WriterOutput(out));
    }
}
