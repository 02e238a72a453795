package org.steadyshaft.report;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonToken;
import java.io.IOException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.steadyshaft.analysis.CaptureLabel;
import org.steadyshaft.blip.BlipCause;
import org.steadyshaft.compare.Run;
import org.steadyshaft.compare.SpeedHeld;
import org.steadyshaft.ripple.Hunting;
import org.steadyshaft.ripple.RippleCause;
import org.steadyshaft.ripple.Untold;
import org.steadyshaft.signal.Finding;
import org.steadyshaft.signal.FindingCode;
import org.steadyshaft.signal.Grade;
import org.steadyshaft.signal.Stretch;
import org.steadyshaft.stability.Alarm;

/** Reads what {@link StoredCaptureWriter} writes, and nothing else: another field, order or kind of value is a fault. */
final class StoredCaptureReader {
    private static final JsonFactory FACTORY = new JsonFactory();

    /** Reads a value whose first token is the parser's current one. */
    @FunctionalInterface
    private interface Value<T> {
        T read() throws IOException;
    }

    private final JsonParser json;

    private StoredCaptureReader(JsonParser json) {
        this.json = json;
    }

    /** @throws IOException if it is not what the writer writes, or a record refuses what it says */
    static StoredCapture read(String text) throws IOException {
        try (JsonParser json = FACTORY.createParser(text)) {
            StoredCaptureReader reader = new StoredCaptureReader(json);
            json.nextToken();
            StoredCapture stored = reader.capture();
            if (json.nextToken() != null) {
                throw reader.fault("the end");
            }
            return stored;
        } catch (IllegalArgumentException e) {
            throw new IOException("what no record holds", e);
        }
    }

    private StoredCapture capture() throws IOException {
        require(JsonToken.START_OBJECT);
        StoredCapture stored = new StoredCapture(
                text("key"), value("files", this::words), value("summary", this::summary), optional("run", this::run));
        next(JsonToken.END_OBJECT);
        return stored;
    }

    private CaptureSummary summary() throws IOException {
        require(JsonToken.START_OBJECT);
        CaptureSummary summary = new CaptureSummary(
                text("folder"),
                text("file"),
                value("label", this::label),
                Grade.valueOf(text("grade")),
                optional("figures", this::figures),
                list("findings", this::finding),
                SpeedHeld.valueOf(text("held")),
                text("verdict"),
                list("alarms", () -> Alarm.Code.valueOf(word())),
                text("tracePath"));
        next(JsonToken.END_OBJECT);
        return summary;
    }

    private CaptureLabel label() throws IOException {
        require(JsonToken.START_OBJECT);
        CaptureLabel label = new CaptureLabel(
                text("circuit"), text("setting"), text("load"), text("note"), value("others", this::words));
        next(JsonToken.END_OBJECT);
        return label;
    }

    private Map<String, String> words() throws IOException {
        require(JsonToken.START_OBJECT);
        Map<String, String> words = new LinkedHashMap<>();
        while (json.nextToken() == JsonToken.FIELD_NAME) {
            String name = json.currentName();
            next(JsonToken.VALUE_STRING);
            words.put(name, json.getText());
        }
        require(JsonToken.END_OBJECT);
        return words;
    }

    private CaptureSummary.Figures figures() throws IOException {
        require(JsonToken.START_OBJECT);
        CaptureSummary.Figures figures = new CaptureSummary.Figures(
                value("meanRpm", this::number),
                value("expandedRpm", this::number),
                optional("rmsPercent", this::number),
                optional("peakToPeakPercent", this::number),
                optional("blips", this::whole),
                optional("blipsPerMinute", this::number));
        next(JsonToken.END_OBJECT);
        return figures;
    }

    private Finding finding() throws IOException {
        require(JsonToken.START_OBJECT);
        Finding finding = new Finding(
                FindingCode.valueOf(text("code")),
                Finding.Severity.valueOf(text("severity")),
                text("text"),
                optional("where", this::stretch));
        next(JsonToken.END_OBJECT);
        return finding;
    }

    private Stretch stretch() throws IOException {
        require(JsonToken.START_OBJECT);
        Stretch stretch = new Stretch(value("fromSeconds", this::number), value("toSeconds", this::number));
        next(JsonToken.END_OBJECT);
        return stretch;
    }

    private Run run() throws IOException {
        require(JsonToken.START_OBJECT);
        Run run = new Run(
                text("name"),
                value("label", this::label),
                value("trust", this::trust),
                value("meanRpm", this::number),
                value("dataRpm", this::number),
                list("blocks", this::block),
                optional("ripple", this::ripple),
                list("lines", this::line),
                value("jumps", this::jumps),
                optional("hunting", this::hunting),
                optional("loop", this::truth),
                list("settlingSeconds", this::number),
                list("trace", this::point),
                list("spectrum", this::point));
        next(JsonToken.END_OBJECT);
        return run;
    }

    private Run.Block block() throws IOException {
        require(JsonToken.START_OBJECT);
        Run.Block block = new Run.Block(
                value("meanPercent", this::number),
                value("meanSquare", this::number),
                value("peakToPeakPercent", this::number),
                value("seconds", this::number));
        next(JsonToken.END_OBJECT);
        return block;
    }

    private Run.RippleLines ripple() throws IOException {
        require(JsonToken.START_OBJECT);
        Run.RippleLines ripple = new Run.RippleLines(
                value("bandFromHz", this::number),
                value("bandToHz", this::number),
                value("rmsPercent", this::number),
                value("expandedPercent", this::number),
                value("twiceMains", this::mainsLine),
                value("mains", this::mainsLine));
        next(JsonToken.END_OBJECT);
        return ripple;
    }

    private Run.MainsLine mainsLine() throws IOException {
        require(JsonToken.START_OBJECT);
        Run.MainsLine line = new Run.MainsLine(
                optional("percent", this::number),
                value("expandedPercent", this::number),
                optional("untold", () -> Untold.Why.valueOf(word())));
        next(JsonToken.END_OBJECT);
        return line;
    }

    private Run.Trust trust() throws IOException {
        require(JsonToken.START_OBJECT);
        Run.Trust trust = new Run.Trust(
                Grade.valueOf(text("grade")),
                list("faults", () -> FindingCode.valueOf(word())),
                list("alarms", () -> Alarm.Code.valueOf(word())));
        next(JsonToken.END_OBJECT);
        return trust;
    }

    private Run.Line line() throws IOException {
        require(JsonToken.START_OBJECT);
        Run.Line line = new Run.Line(
                value("frequencyHz", this::number),
                value("amplitudePercent", this::number),
                value("expandedPercent", this::number),
                RippleCause.valueOf(text("cause")));
        next(JsonToken.END_OBJECT);
        return line;
    }

    private Run.Jumps jumps() throws IOException {
        require(JsonToken.START_OBJECT);
        Run.Jumps jumps = new Run.Jumps(
                list("events", this::jump), value("minutes", this::number), value("smallestPercent", this::number));
        next(JsonToken.END_OBJECT);
        return jumps;
    }

    private Run.Jump jump() throws IOException {
        require(JsonToken.START_OBJECT);
        Run.Jump jump = new Run.Jump(value("percent", this::number), BlipCause.valueOf(text("cause")));
        next(JsonToken.END_OBJECT);
        return jump;
    }

    private Run.Hunts hunting() throws IOException {
        require(JsonToken.START_OBJECT);
        Run.Hunts hunting = new Run.Hunts(
                value("frequencyHz", this::number),
                value("amplitudePercent", this::number),
                value("expandedPercent", this::number),
                Hunting.Trend.valueOf(text("trend")));
        next(JsonToken.END_OBJECT);
        return hunting;
    }

    private boolean truth() throws IOException {
        if (json.currentToken() != JsonToken.VALUE_TRUE && json.currentToken() != JsonToken.VALUE_FALSE) {
            throw fault("true or false");
        }
        return json.getBooleanValue();
    }

    private Run.Point point() throws IOException {
        require(JsonToken.START_OBJECT);
        Run.Point point = new Run.Point(value("x", this::number), value("y", this::number));
        next(JsonToken.END_OBJECT);
        return point;
    }

    private String text(String field) throws IOException {
        return value(field, this::word);
    }

    private String word() throws IOException {
        require(JsonToken.VALUE_STRING);
        return json.getText();
    }

    private <T> T value(String field, Value<T> value) throws IOException {
        next(JsonToken.FIELD_NAME);
        if (!json.currentName().equals(field)) {
            throw fault(field);
        }
        json.nextToken();
        return value.read();
    }

    private <T> Optional<T> optional(String field, Value<T> value) throws IOException {
        return value(
                field,
                () -> json.currentToken() == JsonToken.VALUE_NULL ? Optional.empty() : Optional.of(value.read()));
    }

    private <T> List<T> list(String field, Value<T> element) throws IOException {
        return value(field, () -> {
            require(JsonToken.START_ARRAY);
            List<T> list = new ArrayList<>();
            while (json.nextToken() != JsonToken.END_ARRAY) {
                list.add(element.read());
            }
            return list;
        });
    }

    /** A number; what JSON has no number for, such as infinity, was written as text. */
    private double number() throws IOException {
        if (json.currentToken() == JsonToken.VALUE_STRING) {
            return Double.parseDouble(json.getText());
        }
        if (json.currentToken() == null || !json.currentToken().isNumeric()) {
            throw fault("a number");
        }
        return json.getDoubleValue();
    }

    private int whole() throws IOException {
        require(JsonToken.VALUE_NUMBER_INT);
        return json.getIntValue();
    }

    private void next(JsonToken token) throws IOException {
        json.nextToken();
        require(token);
    }

    private void require(JsonToken token) throws IOException {
        if (json.currentToken() != token) {
            throw fault(token.toString());
        }
    }

    private IOException fault(String expected) {
        return new IOException(
                json.currentToken() + " at " + json.currentLocation().getCharOffset() + "; expected " + expected);
    }
}
