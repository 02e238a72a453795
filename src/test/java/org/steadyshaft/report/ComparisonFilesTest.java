package org.steadyshaft.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.StringReader;
import java.io.StringWriter;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVRecord;
import org.junit.jupiter.api.Test;
import org.steadyshaft.compare.Comparison;

/** Page, JSON and CSV of a comparison tell the same numbers, and the page is valid HTML. */
class ComparisonFilesTest {
    private final Comparison comparison = MadeComparison.threeCircuits();

    @Test
    void everyFigureIsTheSameInAllThree() throws Exception {
        StringWriter json = new StringWriter();
        ComparisonJson.write(comparison, json);
        StringWriter csv = new StringWriter();
        ComparisonCsv.write(comparison, csv);
        List<CSVRecord> rows = CSVFormat.DEFAULT
                .builder()
                .setHeader()
                .setSkipHeaderRecord(true)
                .get()
                .parse(new StringReader(csv.toString()))
                .getRecords();
        int row = 0;
        for (JsonNode group : new ObjectMapper().readTree(json.toString()).get("groups")) {
            for (Map.Entry<String, JsonNode> measure : group.get("measures").properties()) {
                CSVRecord record = rows.get(row++);
                assertEquals("measure", record.get("kind"));
                assertEquals(group.get("circuit").asText(), record.get("circuit"));
                assertEquals(group.get("load").asText(), record.get("load"));
                assertEquals(measure.getKey(), record.get("measure"));
                assertEquals(measure.getValue().get("value").asDouble(), Double.parseDouble(record.get("value")));
                assertEquals(measure.getValue().get("low95").asDouble(), Double.parseDouble(record.get("low95")));
                assertOnPage(group, measure.getKey(), record.get("value"), record.get("high95"));
            }
        }
        assertTrue(row > 40, "rows " + row);
        assertEquals("sag", rows.get(row).get("kind"));
    }

    /** Every difference and every limit has its row, with its verdict and its reason. */
    @Test
    void everyVerdictIsTheSameInBothFiles() throws Exception {
        StringWriter json = new StringWriter();
        ComparisonJson.write(comparison, json);
        StringWriter csv = new StringWriter();
        ComparisonCsv.write(comparison, csv);
        JsonNode tree = new ObjectMapper().readTree(json.toString());
        List<String> told = new ArrayList<>();
        for (JsonNode d : tree.get("differences")) {
            told.add("difference " + d.get("first").asText() + " "
                    + d.get("second").asText() + " " + d.get("measure").asText() + " "
                    + d.get("verdict").asText() + " " + text(d, "reason"));
            boolean compared = !d.get("verdict").asText().equals("not comparable");
            assertEquals(compared, d.has("differenceLow95") && d.has("p"), d.toString());
            assertTrue(compared || !text(d, "reason").isEmpty(), d.toString());
        }
        for (JsonNode l : tree.get("limits")) {
            told.add("limit " + l.get("circuit").asText() + "  "
                    + l.get("measure").asText() + " " + l.get("status").asText() + " " + text(l, "reason"));
        }
        List<String> rows = CSVFormat.DEFAULT
                .builder()
                .setHeader()
                .setSkipHeaderRecord(true)
                .get()
                .parse(new StringReader(csv.toString()))
                .stream()
                .filter(r -> r.get("kind").matches("difference|limit"))
                .map(r -> r.get("kind") + " " + r.get("circuit") + " " + r.get("other") + " " + r.get("measure") + " "
                        + r.get("verdict") + " " + r.get("reason"))
                .toList();
        assertEquals(told, rows);
        assertTrue(told.size() > 100, "rows " + told.size());
    }

    private static String text(JsonNode node, String field) {
        return node.has(field) ? node.get(field).asText() : "";
    }

    /** The row of the page's table holds the same number to sort by, and shows it as far as its interval goes. */
    private void assertOnPage(JsonNode group, String measure, String value, String high) {
        String load = group.get("load").asText().equals("none")
                ? "light"
                : "load " + group.get("load").asText();
        double rpm = group.get("meanRpm").asDouble();
        ComparisonPage.TableRow row = ComparisonPage.of(comparison).tables().stream()
                .filter(t -> t.heading().endsWith(", " + load))
                .flatMap(t -> t.rows().stream())
                .filter(r -> r.circuit().equals(group.get("circuit").asText())
                        && Math.abs(Double.parseDouble(r.cells().get(0).order()) - rpm) < 1e-6 * rpm)
                .findFirst()
                .orElseThrow();
        int column =
                List.of("ripple", "swing", "twice mains", "wander", "blips").indexOf(measure);
        ComparisonPage.Cell cell = row.cells().get(2 + column);
        assertEquals(value, cell.order());
        double shown = Double.parseDouble(cell.text().split(" ")[0]);
        double half = Double.parseDouble(high) - Double.parseDouble(value);
        assertEquals(Double.parseDouble(value), shown, 0.6 * half, cell.text() + " " + value);
    }

    @Test
    void thePageIsValidHtml() throws Exception {
        StringWriter out = new StringWriter();
        Pages.write("comparison.jte", Map.of("page", ComparisonPage.of(comparison)), out);
        assertEquals("", PagesHtmlTest.errors(out.toString()));
        assertFalse(out.toString().contains("<script>document.title"));
    }
}
