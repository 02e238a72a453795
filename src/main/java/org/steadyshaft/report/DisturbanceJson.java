package org.steadyshaft.report;

import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.util.List;
import java.util.OptionalDouble;
import org.steadyshaft.analysis.Rotation;
import org.steadyshaft.response.LoadEvent;
import org.steadyshaft.response.Step;
import org.steadyshaft.stability.Alarm;
import org.steadyshaft.stability.Drift;
import org.steadyshaft.stability.StabilityPoint;

/** The part of result.json about slow changes, steps, loads and alarms; an empty list means looked for and not found. */
final class DisturbanceJson {
    private final JsonGenerator json;

    DisturbanceJson(JsonGenerator json) {
        this.json = json;
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
            number("fromS", alarm.where().fromSeconds());
            number("toS", alarm.where().toSeconds());
            json.writeStringField("text", alarm.text());
            json.writeEndObject();
        }
        json.writeEndArray();
    }

    private void drift(Drift drift) throws IOException {
        json.writeObjectFieldStart("drift");
        number("percentPerMinute", drift.percentPerMinute());
        number("low95", drift.low95());
        number("high95", drift.high95());
        json.writeBooleanField("significant", drift.significant());
        json.writeEndObject();
    }

    private void stability(List<StabilityPoint> points) throws IOException {
        json.writeArrayFieldStart("stability");
        for (StabilityPoint point : points) {
            json.writeStartObject();
            number("tauS", point.tauSeconds());
            number("deviation", point.deviation());
            number("low95", point.low95());
            number("high95", point.high95());
            json.writeEndObject();
        }
        json.writeEndArray();
    }

    private void step(Step step) throws IOException {
        json.writeStartObject();
        number("timeS", step.timeSeconds());
        number("fromRpm", step.fromRpm());
        number("toRpm", step.toRpm());
        number("deadTimeS", step.deadTimeSeconds());
        number("riseTimeS", step.riseTimeSeconds());
        number("overshootPercent", step.overshootPercent());
        number("settlingTimeS", step.settlingTimeSeconds());
        json.writeEndObject();
    }

    private void loadEvent(LoadEvent event) throws IOException {
        json.writeStartObject();
        number("timeS", event.timeSeconds());
        number("dipPercent", event.dipPercent());
        number("recoveryS", event.recoverySeconds());
        number("droopPercent", event.droopPercent());
        json.writeEndObject();
    }

    private void number(String field, OptionalDouble value) throws IOException {
        if (value.isPresent()) {
            number(field, value.getAsDouble());
        }
    }

    private void number(String field, double value) throws IOException {
        json.writeFieldName(field);
        json.writeNumber(Numbers.machine(value));
    }
}
