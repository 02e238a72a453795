package org.steadyshaft.report;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.io.StringWriter;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.steadyshaft.analysis.CaptureLabel;
import org.steadyshaft.compare.Run;
import org.steadyshaft.signal.Finding;
import org.steadyshaft.signal.Stretch;

/**
 * Writes what is kept of a capture as JSON: record by record in the order of their components, numbers so that they come back as the same
 * numbers. {@link StoredCaptureReader} expects exactly that; whoever adds a component adds it in both.
 */
final class StoredCaptureWriter {
    private static final JsonFactory FACTORY = new JsonFactory();

    private final JsonGenerator json;

    private StoredCaptureWriter(JsonGenerator json) {
        this.json = json;
    }

    static String write(StoredCapture stored) throws IOException {
        StringWriter text = new StringWriter();
        try (JsonGenerator json = FACTORY.createGenerator(text)) {
            new StoredCaptureWriter(json).capture(stored);
        }
        return text.toString();
    }

    private void capture(StoredCapture stored) throws IOException {
        json.writeStartObject();
        json.writeStringField("key", stored.key());
        json.writeFieldName("files");
        words(stored.files());
        json.writeFieldName("summary");
        summary(stored.summary());
        json.writeFieldName("run");
        if (stored.run().isPresent()) {
            run(stored.run().get());
        } else {
            json.writeNull();
        }
        json.writeEndObject();
    }

    private void summary(CaptureSummary summary) throws IOException {
        json.writeStartObject();
        json.writeStringField("folder", summary.folder());
        json.writeStringField("file", summary.file());
        json.writeFieldName("label");
        label(summary.label());
        json.writeStringField("grade", summary.grade().name());
        json.writeFieldName("figures");
        if (summary.figures().isPresent()) {
            figures(summary.figures().get());
        } else {
            json.writeNull();
        }
        json.writeArrayFieldStart("findings");
        for (Finding finding : summary.findings()) {
            finding(finding);
        }
        json.writeEndArray();
        json.writeStringField("held", summary.held().name());
        json.writeStringField("verdict", summary.verdict());
        names("alarms", summary.alarms());
        json.writeStringField("tracePath", summary.tracePath());
        json.writeEndObject();
    }

    private void label(CaptureLabel label) throws IOException {
        json.writeStartObject();
        json.writeStringField("circuit", label.circuit());
        json.writeStringField("setting", label.setting());
        json.writeStringField("load", label.load());
        json.writeStringField("note", label.note());
        json.writeFieldName("others");
        words(label.others());
        json.writeEndObject();
    }

    private void words(Map<String, String> words) throws IOException {
        json.writeStartObject();
        for (Map.Entry<String, String> word : words.entrySet()) {
            json.writeStringField(word.getKey(), word.getValue());
        }
        json.writeEndObject();
    }

    private void figures(CaptureSummary.Figures figures) throws IOException {
        json.writeStartObject();
        json.writeNumberField("meanRpm", figures.meanRpm());
        json.writeNumberField("expandedRpm", figures.expandedRpm());
        number("rmsPercent", figures.rmsPercent());
        number("peakToPeakPercent", figures.peakToPeakPercent());
        json.writeFieldName("blips");
        if (figures.blips().isPresent()) {
            json.writeNumber(figures.blips().get());
        } else {
            json.writeNull();
        }
        number("blipsPerMinute", figures.blipsPerMinute());
        json.writeEndObject();
    }

    private void finding(Finding finding) throws IOException {
        json.writeStartObject();
        json.writeStringField("code", finding.code().name());
        json.writeStringField("severity", finding.severity().name());
        json.writeStringField("text", finding.text());
        json.writeFieldName("where");
        if (finding.where().isPresent()) {
            Stretch where = finding.where().get();
            json.writeStartObject();
            json.writeNumberField("fromSeconds", where.fromSeconds());
            json.writeNumberField("toSeconds", where.toSeconds());
            json.writeEndObject();
        } else {
            json.writeNull();
        }
        json.writeEndObject();
    }

    private void run(Run run) throws IOException {
        json.writeStartObject();
        json.writeStringField("name", run.name());
        json.writeFieldName("label");
        label(run.label());
        trust(run.trust());
        json.writeNumberField("meanRpm", run.meanRpm());
        json.writeNumberField("dataRpm", run.dataRpm());
        json.writeArrayFieldStart("blocks");
        for (Run.Block block : run.blocks()) {
            json.writeStartObject();
            json.writeNumberField("meanPercent", block.meanPercent());
            json.writeNumberField("meanSquare", block.meanSquare());
            json.writeNumberField("peakToPeakPercent", block.peakToPeakPercent());
            json.writeNumberField("seconds", block.seconds());
            json.writeEndObject();
        }
        json.writeEndArray();
        json.writeFieldName("ripple");
        if (run.ripple().isPresent()) {
            ripple(run.ripple().get());
        } else {
            json.writeNull();
        }
        json.writeArrayFieldStart("lines");
        for (Run.Line line : run.lines()) {
            json.writeStartObject();
            json.writeNumberField("frequencyHz", line.frequencyHz());
            json.writeNumberField("amplitudePercent", line.amplitudePercent());
            json.writeNumberField("expandedPercent", line.expandedPercent());
            json.writeStringField("cause", line.cause().name());
            json.writeEndObject();
        }
        json.writeEndArray();
        jumps(run.jumps());
        json.writeFieldName("hunting");
        if (run.hunting().isPresent()) {
            hunting(run.hunting().get());
        } else {
            json.writeNull();
        }
        json.writeFieldName("loop");
        if (run.loop().isPresent()) {
            json.writeBoolean(run.loop().get());
        } else {
            json.writeNull();
        }
        json.writeArrayFieldStart("settlingSeconds");
        for (double seconds : run.settlingSeconds()) {
            json.writeNumber(seconds);
        }
        json.writeEndArray();
        points("trace", run.trace());
        points("spectrum", run.spectrum());
        json.writeEndObject();
    }

    private void ripple(Run.RippleLines ripple) throws IOException {
        json.writeStartObject();
        json.writeNumberField("bandFromHz", ripple.bandFromHz());
        json.writeNumberField("bandToHz", ripple.bandToHz());
        json.writeNumberField("rmsPercent", ripple.rmsPercent());
        json.writeNumberField("expandedPercent", ripple.expandedPercent());
        mainsLine("twiceMains", ripple.twiceMains());
        mainsLine("mains", ripple.mains());
        json.writeEndObject();
    }

    private void mainsLine(String field, Run.MainsLine line) throws IOException {
        json.writeObjectFieldStart(field);
        number("percent", line.percent());
        json.writeNumberField("expandedPercent", line.expandedPercent());
        json.writeFieldName("untold");
        if (line.untold().isPresent()) {
            json.writeString(line.untold().get().name());
        } else {
            json.writeNull();
        }
        json.writeEndObject();
    }

    private void trust(Run.Trust trust) throws IOException {
        json.writeObjectFieldStart("trust");
        json.writeStringField("grade", trust.grade().name());
        names("faults", trust.faults());
        names("alarms", trust.alarms());
        json.writeEndObject();
    }

    private void names(String field, List<? extends Enum<?>> constants) throws IOException {
        json.writeArrayFieldStart(field);
        for (Enum<?> constant : constants) {
            json.writeString(constant.name());
        }
        json.writeEndArray();
    }

    private void jumps(Run.Jumps jumps) throws IOException {
        json.writeObjectFieldStart("jumps");
        json.writeArrayFieldStart("events");
        for (Run.Jump jump : jumps.events()) {
            json.writeStartObject();
            json.writeNumberField("percent", jump.percent());
            json.writeStringField("cause", jump.cause().name());
            json.writeEndObject();
        }
        json.writeEndArray();
        json.writeNumberField("minutes", jumps.minutes());
        json.writeNumberField("smallestPercent", jumps.smallestPercent());
        json.writeEndObject();
    }

    private void hunting(Run.Hunts hunting) throws IOException {
        json.writeStartObject();
        json.writeNumberField("frequencyHz", hunting.frequencyHz());
        json.writeNumberField("amplitudePercent", hunting.amplitudePercent());
        json.writeNumberField("expandedPercent", hunting.expandedPercent());
        json.writeStringField("trend", hunting.trend().name());
        json.writeEndObject();
    }

    private void points(String field, List<Run.Point> points) throws IOException {
        json.writeArrayFieldStart(field);
        for (Run.Point point : points) {
            json.writeStartObject();
            json.writeNumberField("x", point.x());
            json.writeNumberField("y", point.y());
            json.writeEndObject();
        }
        json.writeEndArray();
    }

    private void number(String field, Optional<Double> value) throws IOException {
        json.writeFieldName(field);
        if (value.isPresent()) {
            json.writeNumber(value.get());
        } else {
            json.writeNull();
        }
    }
}
