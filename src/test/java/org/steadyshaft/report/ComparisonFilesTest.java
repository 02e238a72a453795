package org.steadyshaft.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.StringReader;
import java.io.StringWriter;
import java.math.BigDecimal;
import java.math.MathContext;
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
        ComparisonFiles.json(comparison, json);
        StringWriter csv = new StringWriter();
        ComparisonFiles.csv(comparison, csv);
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
                assertEquals(group.get("circuit").asText(), record.get("circuit"));
                assertEquals(group.get("load").asText(), record.get("load"));
                assertEquals(measure.getKey(), record.get("measure"));
                assertEquals(measure.getValue().get("value").asDouble(), Double.parseDouble(record.get("value")));
                assertEquals(measure.getValue().get("low95").asDouble(), Double.parseDouble(record.get("low95")));
                assertOnPage(group, measure.getKey(), record.get("value"));
            }
        }
        assertEquals(rows.size(), row);
        assertTrue(row > 40, "rows " + row);
    }

    /** The row of the page's table holds the same number to sort by, and shows its first three digits. */
    private void assertOnPage(JsonNode group, String measure, String value) {
        String band = String.format("%.0f to", group.get("fromRpm").asDouble());
        ComparisonPage.Table table = ComparisonPage.of(comparison).tables().stream()
                .filter(t -> t.heading().startsWith(band)
                        && t.heading().endsWith("load: " + group.get("load").asText()))
                .findFirst()
                .orElseThrow();
        ComparisonPage.TableRow row = table.rows().stream()
                .filter(r -> r.circuit().equals(group.get("circuit").asText()))
                .findFirst()
                .orElseThrow();
        int column =
                List.of("ripple", "swing", "twice mains", "wander", "blips").indexOf(measure);
        ComparisonPage.Cell cell = row.cells().get(2 + column);
        assertEquals(value, cell.order());
        BigDecimal shown = new BigDecimal(cell.text().split(" ")[0]);
        assertEquals(0, shown.compareTo(new BigDecimal(value).round(new MathContext(3))), cell.text() + " " + value);
    }

    @Test
    void thePageIsValidHtml() throws Exception {
        StringWriter out = new StringWriter();
        Pages.write("comparison.jte", Map.of("page", ComparisonPage.of(comparison)), out);
        assertEquals("", PagesHtmlTest.errors(out.toString()));
        assertFalse(out.toString().contains("<script>document.title"));
    }
}
