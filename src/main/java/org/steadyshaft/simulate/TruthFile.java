package org.steadyshaft.simulate;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.util.DefaultIndenter;
import com.fasterxml.jackson.core.util.DefaultPrettyPrinter;
import java.io.IOException;
import java.io.Writer;
import java.math.BigDecimal;
import java.math.MathContext;
import java.util.List;
import java.util.Map;

/** Writes what is true of a simulated capture: speed over time, events, lines, and every parameter it was made with. */
public final class TruthFile {
    /** The name of the layout, first in the file. */
    public static final String SCHEMA = "steadyshaft-truth-1";

    private static final double TRACK_STEP_SECONDS = 0.02;
    private static final MathContext DIGITS = new MathContext(9);

    private final JsonGenerator json;

    private TruthFile(JsonGenerator json) {
        this.json = json;
    }

    /** @throws IOException if it cannot be written; the writer is left open */
    public static void write(SimulatedCapture capture, Writer out) throws IOException {
        JsonGenerator generator = new JsonFactory().createGenerator(out);
        generator.disable(JsonGenerator.Feature.AUTO_CLOSE_TARGET);
        generator.setPrettyPrinter(new DefaultPrettyPrinter().withObjectIndenter(new DefaultIndenter("  ", "\n")));
        new TruthFile(generator).capture(capture);
        generator.close();
        out.write("\n");
    }

    private void capture(SimulatedCapture capture) throws IOException {
        Scenario scenario = capture.scenario();
        json.writeStartObject();
        json.writeStringField("schema", SCHEMA);
        json.writeStringField("note", "simulated, not recorded");
        json.writeStringField("scenario", scenario.name());
        json.writeNumberField("seed", capture.seed());
        number("durationS", capture.seconds());
        number("meanRpm", capture.meanRpm());
        double mains = scenario.mains().frequencyHz();
        json.writeArrayFieldStart("lines");
        for (int multiple = 1; multiple <= 2; multiple++) {
            json.writeStartObject();
            number("frequencyHz", multiple * mains);
            number("amplitudePercent", capture.mainsPercent(multiple, 0, capture.seconds()));
            json.writeEndObject();
        }
        json.writeEndArray();
        orders(capture);
        events(capture);
        changes(scenario);
        faults(scenario);
        json.writeArrayFieldStart("setPoints");
        for (Scenario.Step step : scenario.setPointSteps()) {
            json.writeStartObject();
            number("timeS", step.timeSeconds());
            number("rpm", step.rpm());
            json.writeEndObject();
        }
        json.writeEndArray();
        track(capture);
        json.writeFieldName("parameters");
        value(scenario.parameters());
        json.writeEndObject();
    }

    private void events(SimulatedCapture capture) throws IOException {
        json.writeArrayFieldStart("disturbances");
        for (SimulatedCapture.Event event : capture.events()) {
            json.writeStartObject();
            json.writeStringField("kind", event.kind().word());
            number("timeS", event.timeSeconds());
            number("peakTimeS", event.peakSeconds());
            number("peakPercent", event.peakPercent());
            json.writeEndObject();
        }
        json.writeEndArray();
    }

    /** What swings with the shaft; only where something does. */
    private void orders(SimulatedCapture capture) throws IOException {
        List<Scenario.Order> orders = capture.scenario().orders();
        if (orders.isEmpty()) {
            return;
        }
        json.writeArrayFieldStart("orders");
        for (Scenario.Order order : orders) {
            json.writeStartObject();
            json.writeStringField("cause", order.cause());
            number("perTurn", order.perTurn());
            number("amplitudePercent", capture.orderPercent(order.perTurn(), 0, capture.seconds()));
            json.writeEndObject();
        }
        json.writeEndArray();
    }

    /** Only where there are any. */
    private void changes(Scenario scenario) throws IOException {
        if (scenario.changes().isEmpty()) {
            return;
        }
        json.writeArrayFieldStart("changes");
        for (Scenario.Change change : scenario.changes()) {
            json.writeStartObject();
            json.writeStringField("kind", change.kind());
            number("timeS", change.timeSeconds());
            number("size", change.size());
            json.writeEndObject();
        }
        json.writeEndArray();
    }

    /** Only where there are any: times count before samples were lost or doubled. */
    private void faults(Scenario scenario) throws IOException {
        if (scenario.faults().isEmpty()) {
            return;
        }
        json.writeArrayFieldStart("recorderFaults");
        for (RecorderFaults.Fault fault : scenario.faults()) {
            json.writeStartObject();
            json.writeStringField("kind", fault.kind().word());
            number("timeS", fault.atSeconds());
            number("lengthS", fault.lengthSeconds());
            number("size", fault.size());
            json.writeEndObject();
        }
        json.writeEndArray();
    }

    private void track(SimulatedCapture capture) throws IOException {
        json.writeArrayFieldStart("track");
        int points = (int) Math.floor(capture.seconds() / TRACK_STEP_SECONDS);
        for (int i = 0; i <= points; i++) {
            json.writeStartArray();
            json.writeNumber(text(i * TRACK_STEP_SECONDS));
            json.writeNumber(text(capture.shaft().rpm(i * TRACK_STEP_SECONDS)));
            json.writeEndArray();
        }
        json.writeEndArray();
    }

    private void value(Object value) throws IOException {
        if (value instanceof Map<?, ?> map) {
            json.writeStartObject();
            for (Map.Entry<?, ?> entry : map.entrySet()) {
                json.writeFieldName(entry.getKey().toString());
                value(entry.getValue());
            }
            json.writeEndObject();
        } else if (value instanceof List<?> list) {
            json.writeStartArray();
            for (Object entry : list) {
                value(entry);
            }
            json.writeEndArray();
        } else if (value instanceof Number number) {
            json.writeNumber(text(number.doubleValue()));
        } else if (value instanceof Boolean flag) {
            json.writeBoolean(flag);
        } else {
            json.writeString(value.toString());
        }
    }

    private void number(String field, double value) throws IOException {
        json.writeFieldName(field);
        json.writeNumber(text(value));
    }

    private static String text(double value) {
        return value == 0
                ? "0"
                : new BigDecimal(value).round(DIGITS).stripTrailingZeros().toPlainString();
    }
}
