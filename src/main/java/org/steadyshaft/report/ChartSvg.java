package org.steadyshaft.report;

import java.awt.geom.Rectangle2D;
import java.io.IOException;
import java.io.StringWriter;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import org.apache.batik.dom.GenericDOMImplementation;
import org.apache.batik.svggen.SVGGeneratorContext;
import org.apache.batik.svggen.SVGGraphics2D;
import org.apache.batik.svggen.SVGIDGenerator;
import org.apache.batik.svggen.StyleHandler;
import org.jfree.chart.JFreeChart;
import org.w3c.dom.Document;
import org.w3c.dom.Element;

/**
 * Draws a chart as an SVG element to be put into a page: text stays text, colours are CSS variables, every id begins with
 * the chart's own, and a title and a description stand in it for those who cannot see it.
 */
final class ChartSvg {
    private static final String SVG = "http://www.w3.org/2000/svg";

    /** Style properties that matter in a page; the writer sets many more. */
    private static final Set<String> KEPT = Set.of(
            "fill",
            "stroke",
            "stroke-width",
            "stroke-dasharray",
            "stroke-linecap",
            "stroke-linejoin",
            "fill-opacity",
            "stroke-opacity",
            "opacity",
            "font-size",
            "font-weight",
            "clip-path");

    private final String id;
    private final int width;
    private final int height;

    /** @param id begins every id in the element; unique in the page */
    ChartSvg(String id, int width, int height) {
        this.id = id;
        this.width = width;
        this.height = height;
    }

    String draw(JFreeChart chart, String title, String description) {
        Document document = GenericDOMImplementation.getDOMImplementation().createDocument(SVG, "svg", null);
        SVGGeneratorContext context = SVGGeneratorContext.createDefault(document);
        context.setPrecision(2);
        context.setComment(null);
        context.setIDGenerator(new OwnIds());
        context.setStyleHandler(new CssStyles());
        SVGGraphics2D graphics = new SVGGraphics2D(context, false);
        chart.draw(graphics, new Rectangle2D.Double(0, 0, width, height));
        Element root = graphics.getRoot();
        root.setAttribute("viewBox", "0 0 " + width + " " + height);
        root.setAttribute("role", "img");
        root.setAttribute("aria-labelledby", id + "-title " + id + "-desc");
        root.insertBefore(words(document, "desc", description), root.getFirstChild());
        root.insertBefore(words(document, "title", title), root.getFirstChild());
        StringWriter out = new StringWriter();
        try {
            graphics.stream(root, out, false, false);
        } catch (IOException e) {
            throw new IllegalStateException("writing to a string cannot fail", e);
        }
        String text = out.toString();
        return text.substring(text.indexOf("<svg"))
                .replace("\r\n", "\n")
                .replace("id=\"genericDefs\"", "id=\"" + id + "-defs\"")
                .strip();
    }

    private Element words(Document document, String tag, String words) {
        Element element = document.createElementNS(SVG, tag);
        element.setAttribute("id", id + "-" + tag);
        element.appendChild(document.createTextNode(words));
        return element;
    }

    private final class OwnIds extends SVGIDGenerator {
        private int count;

        @Override
        public String generateID(String prefix) {
            return id + "-" + prefix + count++;
        }
    }

    private static final class CssStyles implements StyleHandler {
        @Override
        @SuppressWarnings("rawtypes") // the writer's own interface
        public void setStyle(Element element, Map styles, SVGGeneratorContext context) {
            StringBuilder text = new StringBuilder();
            for (Map.Entry<?, ?> entry : new TreeMap<Object, Object>(asMap(styles)).entrySet()) {
                if (KEPT.contains(entry.getKey().toString())) {
                    text.append(text.length() == 0 ? "" : ";")
                            .append(entry.getKey())
                            .append(':')
                            .append(ChartColour.css(entry.getValue().toString()));
                }
            }
            if (text.length() > 0) {
                element.setAttribute("style", text.toString());
            }
        }

        private static Map<?, ?> asMap(Map<?, ?> styles) {
            return styles;
        }
    }
}
