package org.steadyshaft.report;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.util.DefaultIndenter;
import com.fasterxml.jackson.core.util.DefaultPrettyPrinter;
import java.io.IOException;
import java.io.Writer;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import org.steadyshaft.analysis.AnalysisSettings;
import org.steadyshaft.analysis.Outcome;
import org.steadyshaft.analysis.Rotation;
import org.steadyshaft.analysis.SourceFacts;
import org.steadyshaft.blip.Blip;
import org.steadyshaft.blip.Blips;
import org.steadyshaft.ripple.Hunting;
import org.steadyshaft.ripple.MainsRipple;
import org.steadyshaft.ripple.Ripple;
import org.steadyshaft.ripple.RippleLine;
import org.steadyshaft.signal.Finding;
import org.steadyshaft.signal.Stretch;
import org.steadyshaft.speed.MeanSpeed;
import org.steadyshaft.speed.Uncertainty;

/** Writes result.json, schema steadyshaft-result-2: what is absent could not be measured. */
final class ResultJson {
    static final String SCHEMA = "steadyshaft-result-2";
    private static final JsonFactory FACTORY = new JsonFactory();

    private final JsonGenerator json;
    private final JsonNumbers numbers;

    private ResultJson(JsonGenerator json) {
        this.json = json;
        this.numbers = new JsonNumbers(json);
    }

    static void write(Outcome outcome, MotorVerdict verdict, Writer out) throws IOException {
        JsonGenerator generator = FACTORY.createGenerator(out);
        generator.disable(JsonGenerator.Feature.AUTO_CLOSE_TARGET);
        DefaultIndenter indenter = new DefaultIndenter("  ", "\n");
        generator.setPrettyPrinter(new DefaultPrettyPrinter().withObjectIndenter(indenter));
        new ResultJson(generator).outcome(outcome, verdict);
        generator.close();
        out.write("\n");
    }

    private void outcome(Outcome outcome, MotorVerdict verdict) throws IOException {
        json.writeStartObject();
        json.writeStringField("schema", SCHEMA);
        json.writeObjectFieldStart("verdict");
        json.writeStringField("holdsSpeed", verdict.held().word());
        json.writeStringField("text", verdict.words());
        json.writeEndObject();
        if (outcome instanceof Outcome.Analysed analysed) {
            source(analysed.source());
            settings(analysed);
        } else {
            json.writeObjectFieldStart("source");
            json.writeStringField("file", outcome.file());
            json.writeEndObject();
        }
        condition(outcome);
        if (outcome instanceof Outcome.Analysed analysed && analysed.rotation().isPresent()) {
            rotation(analysed.rotation().get());
        }
        json.writeEndObject();
    }

    private void source(SourceFacts source) throws IOException {
        json.writeObjectFieldStart("source");
        json.writeStringField("file", source.file());
        json.writeStringField("sha256", source.sha256());
        json.writeStringField("container", source.format().container());
        json.writeStringField("encoding", source.format().encoding());
        numbers.write("sampleRateHz", source.sampleRateHz());
        json.writeStringField("channel", source.channel());
        json.writeNumberField("samples", source.samples());
        numbers.write("durationS", source.durationSeconds());
        json.writeEndObject();
    }

    private void settings(Outcome.Analysed analysed) throws IOException {
        AnalysisSettings settings = analysed.settings();
        json.writeObjectFieldStart("settings");
        json.writeNumberField("polePairs", settings.polePairs());
        json.writeStringField("polePairsFrom", settings.polePairsFrom().word());
        numbers.write("mainsHz", settings.mainsHz());
        text("circuit", analysed.label().circuit());
        text("setting", analysed.label().setting());
        text("load", analysed.label().load());
        json.writeEndObject();
    }

    private void condition(Outcome outcome) throws IOException {
        json.writeObjectFieldStart("condition");
        json.writeStringField("grade", outcome.grade().name().toLowerCase(Locale.ROOT));
        json.writeArrayFieldStart("findings");
        for (Finding finding : outcome.findings()) {
            json.writeStartObject();
            json.writeStringField("code", finding.code().name());
            json.writeStringField("severity", finding.severity().name().toLowerCase(Locale.ROOT));
            json.writeStringField("text", finding.text());
            if (finding.where().isPresent()) {
                numbers.write("fromS", finding.where().get().fromSeconds());
                numbers.write("toS", finding.where().get().toSeconds());
            }
            json.writeEndObject();
        }
        json.writeEndArray();
        json.writeEndObject();
    }

    private void rotation(Rotation rotation) throws IOException {
        speed(rotation.speed());
        if (rotation.pattern().isPresent()) {
            json.writeObjectFieldStart("polePattern");
            json.writeArrayFieldStart("pitchDeviationPercent");
            for (double deviation :
                    rotation.pattern().get().pitchDeviationPercent().toArray()) {
                json.writeNumber(Numbers.machine(deviation));
            }
            json.writeEndArray();
            json.writeEndObject();
        }
        json.writeArrayFieldStart("steady");
        for (Stretch stretch : rotation.steady()) {
            json.writeStartObject();
            numbers.write("fromS", stretch.fromSeconds());
            numbers.write("toS", stretch.toSeconds());
            numbers.write("meanRpm", rotation.track().meanRpm(stretch));
            json.writeEndObject();
        }
        json.writeEndArray();
        if (rotation.ripple().isPresent()) {
            ripple(rotation.ripple().get(), rotation);
        }
        if (rotation.ripple().isPresent()) {
            hunting(rotation.hunting());
        }
        if (rotation.blips().isPresent()) {
            blips(rotation.blips().get());
        }
        new DisturbanceJson(json).write(rotation);
    }

    private void speed(MeanSpeed speed) throws IOException {
        json.writeObjectFieldStart("speed");
        numbers.write("meanRpm", speed.meanRpm());
        numbers.write("expandedUncertaintyRpm", speed.expandedRpm());
        numbers.write("minRpm", speed.slowestRpm());
        numbers.write("maxRpm", speed.fastestRpm());
        json.writeObjectFieldStart("byCrossing");
        numbers.write("meanRpm", speed.crossingRpm());
        json.writeNumberField("cycles", speed.cycles());
        json.writeEndObject();
        OptionalDouble spectralRpm = speed.sineRpm().isPresent() ? speed.sineRpm() : speed.spectralRpm();
        if (spectralRpm.isPresent()) {
            json.writeObjectFieldStart("bySpectrum");
            numbers.write("meanRpm", spectralRpm.getAsDouble());
            json.writeEndObject();
        }
        numbers.write("differencePercent", speed.differencePercent());
        Uncertainty uncertainty = speed.uncertainty();
        json.writeObjectFieldStart("uncertainty");
        numbers.write("statisticalRpm", uncertainty.statisticalRpm());
        numbers.write("quantisationRpm", uncertainty.quantisationRpm());
        numbers.write("interpolationRpm", uncertainty.interpolationRpm());
        numbers.write("clockRpm", uncertainty.clockRpm());
        json.writeEndObject();
        json.writeEndObject();
    }

    private void ripple(Ripple ripple, Rotation rotation) throws IOException {
        json.writeObjectFieldStart("ripple");
        numbers.write("peakToPeakPercent", ripple.peakToPeakPercent());
        numbers.write("rmsPercent", ripple.rmsPercent());
        numbers.write("expandedRmsPercent", ripple.expandedRmsPercent());
        numbers.write("bandFromHz", ripple.bandFromHz());
        numbers.write("bandToHz", ripple.bandToHz());
        numbers.write("noisePercent", ripple.noisePercent());
        mains("twiceMains", ripple.twiceMains());
        mains("mains", ripple.mains());
        json.writeArrayFieldStart("lines");
        for (RippleLine line : rotation.spectrum().lines()) {
            json.writeStartObject();
            numbers.write("frequencyHz", line.frequencyHz());
            numbers.write("amplitudePercent", line.amplitudePercent());
            numbers.write("expandedPercent", line.expandedPercent());
            json.writeStringField("cause", line.cause().word());
            json.writeStringField("certainty", line.certainty().name().toLowerCase(Locale.ROOT));
            json.writeStringField("readFrom", line.readFrom().word());
            numbers.write("perTurn", line.order());
            json.writeEndObject();
        }
        json.writeEndArray();
        json.writeEndObject();
    }

    private void mains(String field, MainsRipple mains) throws IOException {
        json.writeObjectFieldStart(field);
        numbers.write("frequencyHz", mains.frequencyHz());
        if (mains.figure().isPresent()) {
            numbers.write("amplitudePercent", mains.figure().get().amplitudePercent());
            numbers.write("expandedPercent", mains.figure().get().expandedPercent());
            if (mains.figure().get().others() > 0) {
                json.writeNumberField("otherCaptures", mains.figure().get().others());
            }
        } else {
            json.writeStringField(
                    "notTellable",
                    UntoldWords.of(mains.frequencyHz(), mains.untold().orElseThrow()));
        }
        json.writeEndObject();
    }

    private void hunting(Optional<Hunting> hunting) throws IOException {
        json.writeObjectFieldStart("hunting");
        json.writeBooleanField("present", hunting.isPresent());
        if (hunting.isPresent()) {
            numbers.write("frequencyHz", hunting.get().frequencyHz());
            numbers.write("amplitudePercent", hunting.get().amplitudePercent());
            json.writeStringField("trend", hunting.get().trend().word());
        }
        json.writeEndObject();
    }

    private void blips(Blips blips) throws IOException {
        json.writeObjectFieldStart("blips");
        json.writeNumberField("count", blips.events().size());
        numbers.write("perMinute", blips.perMinute());
        numbers.write("perMinuteLow95", blips.perMinuteLow());
        numbers.write("perMinuteHigh95", blips.perMinuteHigh());
        numbers.write("smallestPercent", blips.smallestPercent());
        json.writeArrayFieldStart("events");
        for (Blip blip : blips.events()) {
            json.writeStartObject();
            numbers.write("startS", blip.fromSeconds());
            numbers.write("peakTimeS", blip.peakSeconds());
            numbers.write("endS", blip.toSeconds());
            numbers.write("peakPercent", blip.peakPercent());
            json.writeStringField("likelyCause", blip.cause().word());
            numbers.write("riseS", blip.shape().riseSeconds());
            numbers.write("recoveryS", blip.shape().recoverySeconds());
            numbers.write("turns", blip.shape().turns());
            json.writeEndObject();
        }
        json.writeEndArray();
        json.writeEndObject();
    }

    private void text(String field, String value) throws IOException {
        if (!value.isEmpty()) {
            json.writeStringField(field, value);
        }
    }
}
