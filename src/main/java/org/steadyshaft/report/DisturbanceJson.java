package org.steadyshaft.report;

import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.util.List;
import org.steadyshaft.analysis.Rotation;
import org.steadyshaft.response.LoadEvent;
import org.steadyshaft.response.Step;
import org.steadyshaft.stability.Alarm;
import org.steadyshaft.stability.Drift;
import org.steadyshaft.stability.StabilityPoint;

/** The part of result.json about slow changes, steps, loads and alarms; an empty list means looked for and not found. */
final class DisturbanceJson {
    private final JsonGenerator json;
    private final JsonNumbers numbers;

    DisturbanceJson(JsonGenerator json) {
        this.json = json;
        this.numbers = new JsonNumbers(json);
    }

    void write(Rotation rotation) throws IOException {
        if (rotation.drift().isPresent()) {
            drift(rotation.drift().get());
        }
        if (!rotation.stability().isEmpty()) {
            stability(rotation.stability());
        }
        json.writeArrayFieldStart("steps");
        for (Step step : rotation.steps()) {
            step(step);
        }
        json.writeEndArray();
        json.writeArrayFieldStart("loadEvents");
        for (LoadEvent event : rotation.loadEvents()) {
            loadEvent(event);
        }
        json.writeEndArray();
        json.writeArrayFieldStart("alarms");
        for (Alarm alarm : rotation.alarms()) {
            json.writeStartObject();
            json.writeStringField("code", alarm.code().name());
            numbers.write("fromS", alarm.where().fromSeconds());
            numbers.write("toS", alarm.where().toSeconds());
            json.writeStringField("text", alarm.text());
            json.writeEndObject();
        }
        json.writeEndArray();
    }

    private void drift(Drift drift) throws IOException {
        json.writeObjectFieldStart("drift");
        numbers.write("percentPerMinute", drift.percentPerMinute());
        numbers.write("low95", drift.low95());
        numbers.write("high95", drift.high95());
        json.writeBooleanField("significant", drift.significant());
        json.writeEndObject();
    }

    private void stability(List<StabilityPoint> points) throws IOException {
        json.writeArrayFieldStart("stability");
        for (StabilityPoint point : points) {
            json.writeStartObject();
            numbers.write("tauS", point.tauSeconds());
            numbers.write("deviation", point.deviation());
            numbers.write("low95", point.low95());
            numbers.write("high95", point.high95());
            json.writeEndObject();
        }
        json.writeEndArray();
    }

    private void step(Step step) throws IOException {
        json.writeStartObject();
        numbers.write("timeS", step.timeSeconds());
        numbers.write("fromRpm", step.fromRpm());
        numbers.write("toRpm", step.toRpm());
        numbers.write("deadTimeS", step.deadTimeSeconds());
        numbers.write("riseTimeS", step.riseTimeSeconds());
        numbers.write("overshootPercent", step.overshootPercent());
        numbers.write("settlingTimeS", step.settlingTimeSeconds());
        json.writeEndObject();
    }

    private void loadEvent(LoadEvent event) throws IOException {
        json.writeStartObject();
        numbers.write("timeS", event.timeSeconds());
        numbers.write("dipPercent", event.dipPercent());
        numbers.write("recoveryS", event.recoverySeconds());
        numbers.write("droopPercent", event.droopPercent());
        json.writeEndObject();
    }
}
