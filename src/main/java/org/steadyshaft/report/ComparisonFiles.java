package org.steadyshaft.report;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.io.Writer;
import java.util.Optional;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVPrinter;
import org.steadyshaft.compare.Comparison;
import org.steadyshaft.compare.Difference;
import org.steadyshaft.compare.Estimate;
import org.steadyshaft.compare.Group;
import org.steadyshaft.compare.Sag;
import org.steadyshaft.compare.WorkCheck;
import org.steadyshaft.file.SpreadsheetText;

/** Writes the numbers of a comparison: comparison.json, and comparison.csv with one row a measure. */
final class ComparisonFiles {
    private static final String SCHEMA = "steadyshaft-comparison-1";

    /** How the table of groups begins. */
    static final String FIRST_COLUMNS = "circuit,from_rpm,to_rpm,load,runs,mean_rpm";

    private ComparisonFiles() {}

    static void json(Comparison comparison, Writer out) throws IOException {
        try (JsonGenerator json = new JsonFactory().createGenerator(out)) {
            json.disable(JsonGenerator.Feature.AUTO_CLOSE_TARGET);
            json.useDefaultPrettyPrinter();
            json.writeStartObject();
            json.writeStringField("schema", SCHEMA);
            json.writeArrayFieldStart("circuits");
            for (String circuit : comparison.circuits()) {
                json.writeString(circuit);
            }
            json.writeEndArray();
            groups(comparison, json);
            sags(comparison, json);
            differences(comparison, json);
            json.writeStringField("limitsFrom", comparison.own() ? "user" : "starting points of the program");
            checks(comparison, json);
            json.writeEndObject();
        }
        out.write('\n');
    }

    private static void groups(Comparison comparison, JsonGenerator json) throws IOException {
        json.writeArrayFieldStart("groups");
        for (Group group : comparison.groups()) {
            json.writeStartObject();
            json.writeStringField("circuit", group.circuit());
            number(json, "fromRpm", group.band().fromRpm());
            number(json, "toRpm", group.band().toRpm());
            json.writeStringField("load", group.load());
            number(json, "meanRpm", group.meanRpm());
            json.writeArrayFieldStart("captures");
            for (var run : group.runs()) {
                json.writeString(run.name());
            }
            json.writeEndArray();
            json.writeObjectFieldStart("measures");
            for (Estimate estimate : group.estimates().values()) {
                json.writeObjectFieldStart(estimate.measure().word());
                json.writeStringField("unit", estimate.measure().unit());
                number(json, "value", estimate.value());
                number(json, "low95", estimate.low95());
                number(json, "high95", estimate.high95());
                number(json, "minutes", estimate.minutes());
                if (estimate.count().isPresent()) {
                    json.writeNumberField("count", estimate.count().get());
                }
                number(json, "betweenRunsPercent", estimate.betweenRunsPercent());
                json.writeEndObject();
            }
            json.writeEndObject();
            json.writeEndObject();
        }
        json.writeEndArray();
    }

    private static void sags(Comparison comparison, JsonGenerator json) throws IOException {
        json.writeArrayFieldStart("regulation");
        for (Sag sag : comparison.sags()) {
            json.writeStartObject();
            json.writeStringField("circuit", sag.circuit());
            json.writeStringField("setting", sag.setting());
            json.writeStringField("load", sag.load());
            number(json, "lightRpm", sag.lightRpm());
            number(json, "loadedRpm", sag.loadedRpm());
            number(json, "percent", sag.regulation().percent());
            number(json, "expandedUncertaintyPercent", 2 * sag.regulation().standardUncertaintyPercent());
            json.writeStringField("reference", "loaded speed");
            json.writeEndObject();
        }
        json.writeEndArray();
    }

    private static void differences(Comparison comparison, JsonGenerator json) throws IOException {
        json.writeArrayFieldStart("differences");
        for (Difference difference : comparison.differences()) {
            json.writeStartObject();
            json.writeStringField("measure", difference.measure().word());
            number(json, "fromRpm", difference.band().fromRpm());
            number(json, "toRpm", difference.band().toRpm());
            json.writeStringField("load", difference.load());
            json.writeStringField("first", difference.first());
            json.writeStringField("second", difference.second());
            boolean like = difference.verdict() != Difference.Verdict.NOT_COMPARABLE;
            if (like || difference.firstValue() > 0 && difference.secondValue() > 0) {
                number(json, "firstValue", difference.firstValue());
                number(json, "secondValue", difference.secondValue());
            }
            number(json, "adjustedP", difference.adjustedP());
            json.writeStringField("verdict", difference.verdict().word());
            if (!like) {
                json.writeStringField("reason", difference.reason());
            }
            number(json, "moreMinutes", difference.moreMinutes());
            json.writeEndObject();
        }
        json.writeEndArray();
    }

    private static void checks(Comparison comparison, JsonGenerator json) throws IOException {
        json.writeArrayFieldStart("limits");
        for (WorkCheck check : comparison.checks()) {
            json.writeStartObject();
            json.writeStringField("work", check.work().name());
            json.writeStringField("circuit", check.circuit());
            number(json, "fromRpm", check.band().fromRpm());
            number(json, "toRpm", check.band().toRpm());
            json.writeStringField("load", check.load());
            json.writeStringField("measure", check.measure().word());
            number(json, "value", check.value());
            number(json, "low95", check.low95());
            number(json, "high95", check.high95());
            number(json, "most", check.most());
            number(json, "marginPercent", check.marginPercent());
            json.writeStringField("status", check.status().word());
            number(json, "moreMinutes", check.moreMinutes());
            json.writeEndObject();
        }
        json.writeEndArray();
    }

    private static void number(JsonGenerator json, String field, Optional<Double> value) throws IOException {
        if (value.isPresent()) {
            number(json, field, value.get());
        }
    }

    private static void number(JsonGenerator json, String field, double value) throws IOException {
        if (Double.isFinite(value)) {
            json.writeFieldName(field);
            json.writeNumber(Numbers.machine(value));
        }
    }

    static void csv(Comparison comparison, Writer out) throws IOException {
        CSVPrinter printer = new CSVPrinter(
                out, CSVFormat.DEFAULT.builder().setRecordSeparator("\n").get());
        printer.printRecord((Object[]) (FIRST_COLUMNS + ",measure,unit,value,low95,high95,minutes").split(","));
        for (Group group : comparison.groups()) {
            for (Estimate e : group.estimates().values()) {
                printer.printRecord(
                        SpreadsheetText.of(group.circuit()),
                        Numbers.machine(group.band().fromRpm()),
                        Numbers.machine(group.band().toRpm()),
                        SpreadsheetText.of(group.load()),
                        group.runs().size(),
                        Numbers.machine(group.meanRpm()),
                        e.measure().word(),
                        e.measure().unit(),
                        Numbers.machine(e.value()),
                        Numbers.machine(e.low95()),
                        Double.isFinite(e.high95()) ? Numbers.machine(e.high95()) : "",
                        Numbers.machine(e.minutes()));
            }
        }
        printer.flush();
    }
}
