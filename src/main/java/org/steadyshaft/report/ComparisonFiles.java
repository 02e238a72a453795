package org.steadyshaft.report;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.io.Writer;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVPrinter;
import org.steadyshaft.compare.Comparison;
import org.steadyshaft.compare.Difference;
import org.steadyshaft.compare.Estimate;
import org.steadyshaft.compare.Group;
import org.steadyshaft.compare.Measure;
import org.steadyshaft.compare.Run;
import org.steadyshaft.compare.Sag;
import org.steadyshaft.compare.SpeedLevel;
import org.steadyshaft.compare.WorkCheck;
import org.steadyshaft.file.SpreadsheetText;

/** Writes the numbers of a comparison: comparison.json, and the same as one table, comparison.csv. */
final class ComparisonFiles {
    private static final String SCHEMA = "steadyshaft-comparison-2";

    /** How the table begins. */
    static final String FIRST_COLUMNS = "kind,circuit,other,work,setting,load,mean_rpm,other_rpm,runs,measure";

    /** How the table of groups began that earlier versions wrote. */
    static final String FORMER_FIRST_COLUMNS = "circuit,from_rpm,to_rpm,load,runs,mean_rpm";

    private ComparisonFiles() {}

    static void json(Comparison comparison, Writer out) throws IOException {
        try (JsonGenerator json = new JsonFactory().createGenerator(out)) {
            json.disable(JsonGenerator.Feature.AUTO_CLOSE_TARGET);
            json.useDefaultPrettyPrinter();
            new ComparisonFiles.Json(comparison, json).write();
        }
        out.write('\n');
    }

    /** One file. */
    private record Json(Comparison comparison, JsonGenerator json) {
        void write() throws IOException {
            json.writeStartObject();
            json.writeStringField("schema", SCHEMA);
            strings("circuits", comparison.circuits());
            DecisionWords words = new DecisionWords(comparison);
            json.writeObjectFieldStart("decision");
            json.writeStringField("headline", words.headline());
            json.writeArrayFieldStart("parts");
            for (DecisionWords.Part part : words.parts()) {
                json.writeStartObject();
                json.writeStringField("about", part.label());
                strings(
                        "points",
                        part.points().stream().map(DecisionWords.Point::words).toList());
                json.writeEndObject();
            }
            json.writeEndArray();
            json.writeEndObject();
            json.writeArrayFieldStart("groups");
            for (Group group : comparison.groups()) {
                group(group);
            }
            json.writeEndArray();
            json.writeArrayFieldStart("regulation");
            for (Sag sag : comparison.sags()) {
                sag(sag);
            }
            json.writeEndArray();
            json.writeArrayFieldStart("differences");
            for (Difference difference : comparison.differences()) {
                difference(difference);
            }
            json.writeEndArray();
            json.writeArrayFieldStart("notMatched");
            for (Comparison.Unmatched alone : comparison.unmatched()) {
                json.writeStartObject();
                json.writeStringField("circuit", alone.group().circuit());
                json.writeStringField("load", alone.group().load());
                number(json, "meanRpm", alone.group().meanRpm());
                json.writeStringField("reason", alone.reason());
                json.writeEndObject();
            }
            json.writeEndArray();
            json.writeStringField("limitsFrom", comparison.own() ? "user" : "starting points of the program");
            json.writeArrayFieldStart("limits");
            for (WorkCheck check : comparison.checks()) {
                check(check);
            }
            json.writeEndArray();
            json.writeEndObject();
        }

        private void strings(String field, List<String> values) throws IOException {
            json.writeArrayFieldStart(field);
            for (String value : values) {
                json.writeString(value);
            }
            json.writeEndArray();
        }

        private void group(Group group) throws IOException {
            json.writeStartObject();
            json.writeStringField("circuit", group.circuit());
            SpeedLevel own = speeds(group);
            number(json, "fromRpm", own.fromRpm());
            number(json, "toRpm", own.toRpm());
            json.writeStringField("load", group.load());
            number(json, "meanRpm", group.meanRpm());
            strings("settings", group.settings());
            strings("dates", group.dates());
            strings("captures", group.runs().stream().map(Run::name).toList());
            strings(
                    "leftOut",
                    group.leftOut().stream().map(CheckWords::doubtful).toList());
            strings(
                    "doubtful",
                    group.doubtful().stream().map(CheckWords::doubtful).toList());
            strings("alarms", group.alarms().stream().map(Enum::name).toList());
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
            json.writeObjectFieldStart("notTellable");
            for (Map.Entry<Measure, String> reason : group.untold().entrySet()) {
                json.writeStringField(reason.getKey().word(), reason.getValue());
            }
            json.writeEndObject();
            json.writeEndObject();
        }

        private void sag(Sag sag) throws IOException {
            json.writeStartObject();
            json.writeStringField("circuit", sag.circuit());
            json.writeStringField("setting", sag.setting());
            json.writeStringField("load", sag.load());
            number(json, "lightRpm", sag.lightRpm());
            number(json, "loadedRpm", sag.loadedRpm());
            number(json, "percent", sag.regulation().percent());
            number(json, "low95", sag.low95());
            number(json, "high95", sag.high95());
            json.writeStringField("reference", "loaded speed");
            strings("captures", sag.runs().stream().map(Run::name).toList());
            json.writeEndObject();
        }

        private void difference(Difference difference) throws IOException {
            json.writeStartObject();
            json.writeStringField("measure", difference.measure().word());
            json.writeStringField("unit", difference.measure().unit());
            json.writeStringField("load", difference.load());
            number(json, "firstRpm", difference.first().meanRpm());
            number(json, "secondRpm", difference.second().meanRpm());
            json.writeStringField("first", difference.first().circuit());
            json.writeStringField("second", difference.second().circuit());
            number(json, "firstValue", difference.first().value());
            number(json, "secondValue", difference.second().value());
            if (difference.fromPercent() > 0) {
                number(json, "blipsFromPercent", difference.fromPercent());
            }
            if (difference.outcome().isPresent()) {
                Difference.Test test = difference.outcome().get();
                number(json, "differenceLow95", test.low95());
                number(json, "differenceHigh95", test.high95());
                number(json, "p", test.p());
                number(json, "adjustedP", test.adjustedP());
            } else {
                number(json, "adjustedP", 1);
            }
            number(json, "limit", difference.limit());
            json.writeStringField("verdict", difference.verdict().word());
            if (!difference.reason().isEmpty()) {
                json.writeStringField("reason", difference.reason());
            }
            strings("doubtful", doubtful(difference));
            number(json, "moreMinutes", difference.moreMinutes());
            json.writeEndObject();
        }

        private void check(WorkCheck check) throws IOException {
            json.writeStartObject();
            json.writeStringField("work", check.work().name());
            json.writeStringField("circuit", check.circuit());
            if (check.group().isPresent()) {
                Group group = check.group().get();
                number(json, "meanRpm", group.meanRpm());
                json.writeStringField("load", group.load());
                strings("settings", group.settings());
            }
            json.writeStringField("measure", check.measure().word());
            if (check.figure().isPresent()) {
                number(json, "value", check.figure().get().value());
                number(json, "low95", check.figure().get().low95());
                number(json, "high95", check.figure().get().high95());
                number(json, "marginPercent", check.marginPercent());
            }
            number(json, "most", check.most());
            json.writeStringField("status", check.status().word());
            if (!check.reason().isEmpty()) {
                json.writeStringField("reason", check.reason());
            }
            number(json, "moreMinutes", check.moreMinutes());
            json.writeEndObject();
        }
    }

    private static SpeedLevel speeds(Group group) {
        return new SpeedLevel(
                group.runs().stream().mapToDouble(Run::meanRpm).min().orElse(0),
                group.runs().stream().mapToDouble(Run::meanRpm).max().orElse(0));
    }

    private static List<String> doubtful(Difference difference) {
        return Stream.of(difference.first(), difference.second())
                .flatMap(s -> s.doubtful().stream())
                .map(CheckWords::doubtful)
                .toList();
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

    /**
     * Writes the same figures as one table: rows of the kinds measure, sag, difference and limit; what a kind has not is empty.
     */
    static void csv(Comparison comparison, Writer out) throws IOException {
        CSVPrinter printer = new CSVPrinter(
                out, CSVFormat.DEFAULT.builder().setRecordSeparator("\n").get());
        printer.printRecord((Object[]) (FIRST_COLUMNS
                        + ",unit,value,low95,high95,other_value,minutes,limit,p,adjusted_p,"
                        + "verdict,reason,more_minutes")
                .split(","));
        for (Group group : comparison.groups()) {
            for (Measure measure : Measure.values()) {
                measure(printer, group, measure);
            }
        }
        for (Sag sag : comparison.sags()) {
            row(
                    printer,
                    "sag",
                    sag.circuit(),
                    "",
                    "",
                    sag.setting(),
                    sag.load(),
                    sag.loadedRpm(),
                    sag.lightRpm(),
                    sag.runs().size(),
                    Measure.SAG,
                    sag.regulation().percent(),
                    sag.low95(),
                    sag.high95(),
                    "",
                    "",
                    "",
                    "",
                    "",
                    "",
                    "",
                    "");
        }
        for (Difference d : comparison.differences()) {
            Optional<Difference.Test> test = d.outcome();
            row(
                    printer,
                    "difference",
                    d.first().circuit(),
                    d.second().circuit(),
                    "",
                    "",
                    d.load(),
                    d.first().meanRpm(),
                    d.second().meanRpm(),
                    "",
                    d.measure(),
                    optional(d.first().value()),
                    optional(test.map(t -> t.low95())),
                    optional(test.map(t -> t.high95())),
                    optional(d.second().value()),
                    "",
                    optional(d.limit()),
                    optional(test.map(Difference.Test::p)),
                    optional(test.map(Difference.Test::adjustedP)),
                    d.verdict().word(),
                    d.reason(),
                    optional(d.moreMinutes()));
        }
        for (WorkCheck c : comparison.checks()) {
            Optional<WorkCheck.Figure> f = c.figure();
            row(
                    printer,
                    "limit",
                    c.circuit(),
                    "",
                    c.work().name(),
                    c.group().map(g -> String.join(" or ", g.settings())).orElse(""),
                    c.group().map(Group::load).orElse(""),
                    optional(c.group().map(Group::meanRpm)),
                    "",
                    "",
                    c.measure(),
                    optional(f.map(WorkCheck.Figure::value)),
                    optional(f.map(WorkCheck.Figure::low95)),
                    optional(f.map(WorkCheck.Figure::high95)),
                    "",
                    "",
                    c.most(),
                    "",
                    "",
                    c.status().word(),
                    c.reason(),
                    optional(c.moreMinutes()));
        }
        printer.flush();
    }

    private static void measure(CSVPrinter printer, Group group, Measure measure) throws IOException {
        Optional<Estimate> e = group.estimate(measure);
        String reason = group.untold().getOrDefault(measure, "");
        if (e.isPresent() || !reason.isEmpty()) {
            row(
                    printer,
                    "measure",
                    group.circuit(),
                    "",
                    "",
                    String.join(" or ", group.settings()),
                    group.load(),
                    group.meanRpm(),
                    "",
                    group.runs().size(),
                    measure,
                    optional(e.map(Estimate::value)),
                    optional(e.map(Estimate::low95)),
                    optional(e.map(Estimate::high95)),
                    "",
                    optional(e.map(Estimate::minutes)),
                    "",
                    "",
                    "",
                    "",
                    reason,
                    "");
        }
    }

    private static Object optional(Optional<Double> value) {
        return value.isPresent() ? value.get() : "";
    }

    /** Numbers are written as in all files, words so that no spreadsheet takes them for a formula. */
    private static void row(CSVPrinter printer, Object... cells) throws IOException {
        for (Object cell : cells) {
            if (cell instanceof Measure measure) {
                printer.print(measure.word());
                printer.print(measure.unit());
            } else if (cell instanceof Double number) {
                printer.print(Double.isFinite(number) ? Numbers.machine(number) : "");
            } else {
                printer.print(cell instanceof String words ? SpreadsheetText.of(words) : cell);
            }
        }
        printer.println();
    }
}
