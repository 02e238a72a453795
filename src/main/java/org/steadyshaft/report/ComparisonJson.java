package org.steadyshaft.report;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.io.Writer;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.steadyshaft.compare.Comparison;
import org.steadyshaft.compare.Difference;
import org.steadyshaft.compare.Estimate;
import org.steadyshaft.compare.Group;
import org.steadyshaft.compare.Measure;
import org.steadyshaft.compare.Run;
import org.steadyshaft.compare.Sag;
import org.steadyshaft.compare.SpeedLevel;
import org.steadyshaft.compare.WorkCheck;

/** Writes comparison.json: the numbers of a comparison and its decision in words. */
record ComparisonJson(Comparison comparison, JsonGenerator json, JsonNumbers numbers) {
    private static final String SCHEMA = "steadyshaft-comparison-2";

    static void write(Comparison comparison, Writer out) throws IOException {
        try (JsonGenerator json = new JsonFactory().createGenerator(out)) {
            json.disable(JsonGenerator.Feature.AUTO_CLOSE_TARGET);
            json.useDefaultPrettyPrinter();
            new ComparisonJson(comparison, json, new JsonNumbers(json)).write();
        }
        out.write('\n');
    }

    private void write() throws IOException {
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
            numbers.write("meanRpm", alone.group().meanRpm());
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
        SpeedLevel own = group.speeds();
        numbers.write("fromRpm", own.fromRpm());
        numbers.write("toRpm", own.toRpm());
        json.writeStringField("load", group.load());
        numbers.write("meanRpm", group.meanRpm());
        strings("settings", group.settings());
        strings("dates", group.dates());
        strings("captures", group.runs().stream().map(Run::name).toList());
        strings("leftOut", group.leftOut().stream().map(CheckWords::doubtful).toList());
        strings("doubtful", group.doubtful().stream().map(CheckWords::doubtful).toList());
        strings("alarms", group.alarms().stream().map(Enum::name).toList());
        json.writeObjectFieldStart("measures");
        for (Estimate estimate : group.estimates().values()) {
            json.writeObjectFieldStart(estimate.measure().word());
            json.writeStringField("unit", estimate.measure().unit());
            numbers.write("value", estimate.value());
            numbers.writeFinite("low95", estimate.low95());
            numbers.writeFinite("high95", estimate.high95());
            numbers.write("minutes", estimate.minutes());
            if (estimate.count().isPresent()) {
                json.writeNumberField("count", estimate.count().get());
            }
            numbers.write("betweenRunsPercent", estimate.betweenRunsPercent());
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
        numbers.write("lightRpm", sag.lightRpm());
        numbers.write("loadedRpm", sag.loadedRpm());
        numbers.write("percent", sag.regulation().percent());
        numbers.writeFinite("low95", sag.low95());
        numbers.writeFinite("high95", sag.high95());
        json.writeStringField("reference", "loaded speed");
        strings("captures", sag.runs().stream().map(Run::name).toList());
        json.writeEndObject();
    }

    private void difference(Difference difference) throws IOException {
        json.writeStartObject();
        json.writeStringField("measure", difference.measure().word());
        json.writeStringField("unit", difference.measure().unit());
        json.writeStringField("load", difference.load());
        numbers.write("firstRpm", difference.first().meanRpm());
        numbers.write("secondRpm", difference.second().meanRpm());
        json.writeStringField("first", difference.first().circuit());
        json.writeStringField("second", difference.second().circuit());
        numbers.write("firstValue", difference.first().value());
        numbers.write("secondValue", difference.second().value());
        if (difference.fromPercent() > 0) {
            numbers.write("blipsFromPercent", difference.fromPercent());
        }
        if (difference.outcome().isPresent()) {
            Difference.Test test = difference.outcome().get();
            numbers.writeFinite("differenceLow95", test.low95());
            numbers.writeFinite("differenceHigh95", test.high95());
            numbers.write("p", test.p());
            numbers.write("adjustedP", test.adjustedP());
        } else {
            numbers.write("adjustedP", 1);
        }
        numbers.write("limit", difference.limit());
        json.writeStringField("verdict", difference.verdict().word());
        if (!difference.reason().isEmpty()) {
            json.writeStringField("reason", difference.reason());
        }
        strings("doubtful", doubtful(difference));
        numbers.write("moreMinutes", difference.moreMinutes());
        json.writeEndObject();
    }

    private void check(WorkCheck check) throws IOException {
        json.writeStartObject();
        json.writeStringField("work", check.work().name());
        json.writeStringField("circuit", check.circuit());
        if (check.group().isPresent()) {
            Group group = check.group().get();
            numbers.write("meanRpm", group.meanRpm());
            json.writeStringField("load", group.load());
            strings("settings", group.settings());
        }
        json.writeStringField("measure", check.measure().word());
        if (check.figure().isPresent()) {
            numbers.write("value", check.figure().get().value());
            numbers.writeFinite("low95", check.figure().get().low95());
            numbers.writeFinite("high95", check.figure().get().high95());
            numbers.writeFinite("marginPercent", check.marginPercent());
        }
        numbers.write("most", check.most());
        json.writeStringField("status", check.status().word());
        if (!check.reason().isEmpty()) {
            json.writeStringField("reason", check.reason());
        }
        numbers.write("moreMinutes", check.moreMinutes());
        json.writeEndObject();
    }

    private static List<String> doubtful(Difference difference) {
        return Stream.of(difference.first(), difference.second())
                .flatMap(s -> s.doubtful().stream())
                .map(CheckWords::doubtful)
                .toList();
    }
}
