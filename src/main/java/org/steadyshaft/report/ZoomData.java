package org.steadyshaft.report;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import org.steadyshaft.analysis.Outcome;
import org.steadyshaft.analysis.Rotation;
import org.steadyshaft.blip.Blip;
import org.steadyshaft.blip.Blips;
import org.steadyshaft.response.LoadEvent;
import org.steadyshaft.response.Step;
import org.steadyshaft.signal.Finding;
import org.steadyshaft.signal.Stretch;
import org.steadyshaft.stability.Alarm;

/** What the page's script draws the speed from: lowest and highest speed by columns of time, and everything that is marked in it. */
final class ZoomData {
    private static final JsonFactory FACTORY = new JsonFactory();

    /** Four times as many as a wide screen shows: so far a reader can look closer. */
    private static final int COLUMNS = 3000;

    /** Shown speeds are told to about this share of the mean. */
    private static final double SHARE = 2e-5;

    private ZoomData() {}

    /** JSON that may stand between the tags of a page. */
    static String of(Outcome.Analysed outcome, Rotation rotation) {
        StringWriter out = new StringWriter();
        try (JsonGenerator json = FACTORY.createGenerator(out)) {
            new Writing(json, rotation).write(outcome.findings());
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return out.toString().replace("<", "\\u003c");
    }

    private record Writing(JsonGenerator json, Rotation rotation) {
        void write(List<Finding> findings) throws IOException {
            Columns columns = Columns.of(rotation.track(), COLUMNS);
            double mean = rotation.speed().meanRpm();
            int decimals = (int) Math.max(0, Math.min(4, Math.ceil(-Math.log10(SHARE * mean))));
            json.writeStartObject();
            number("mean", mean, 4);
            number("start", columns.timeSeconds(0), 5);
            number("step", columns.stepSeconds(), 9);
            json.writeArrayFieldStart("low");
            for (int c = 0; c < columns.count(); c++) {
                speed(columns.filled(c), columns.low(c), decimals);
            }
            json.writeEndArray();
            json.writeArrayFieldStart("high");
            for (int c = 0; c < columns.count(); c++) {
                speed(columns.filled(c), columns.high(c), decimals);
            }
            json.writeEndArray();
            json.writeArrayFieldStart("gaps");
            for (int c = 1; c < columns.count(); c++) {
                if (columns.filled(c) && columns.afterGap(c)) {
                    json.writeNumber(c);
                }
            }
            json.writeEndArray();
            marks();
            bands(findings);
            json.writeEndObject();
        }

        private void speed(boolean filled, double rpm, int decimals) throws IOException {
            if (filled) {
                json.writeNumber(Numbers.fixed(rpm, decimals));
            } else {
                json.writeNull();
            }
        }

        private void number(String field, double value, int decimals) throws IOException {
            json.writeFieldName(field);
            json.writeNumber(Numbers.fixed(value, decimals));
        }

        private record Mark(double seconds, boolean up, String words, String brief) {}

        private void marks() throws IOException {
            List<Mark> marks = new ArrayList<>();
            for (Blip blip : rotation.blips().map(Blips::events).orElse(List.of())) {
                String size = String.format(Locale.ROOT, "%+.1f %%", blip.peakPercent());
                marks.add(new Mark(
                        blip.peakSeconds(),
                        blip.peakPercent() > 0,
                        "blip " + size + ", " + blip.cause().word(),
                        size));
            }
            for (Step step : rotation.steps()) {
                String words = "step to " + MotorVerdict.rpm(step.toRpm());
                marks.add(new Mark(step.timeSeconds(), step.changeRpm() > 0, words, words));
            }
            for (LoadEvent event : rotation.loadEvents()) {
                String words = event.dipPercent() > 0 ? "load put on" : "load let go";
                marks.add(new Mark(event.timeSeconds(), event.dipPercent() < 0, words, words));
            }
            marks.sort(Comparator.comparingDouble(Mark::seconds));
            json.writeArrayFieldStart("marks");
            for (Mark mark : marks) {
                json.writeStartObject();
                number("time", mark.seconds(), 3);
                json.writeBooleanField("up", mark.up());
                json.writeStringField("name", mark.words());
                json.writeStringField("short", mark.brief());
                json.writeEndObject();
            }
            json.writeEndArray();
        }

        private void bands(List<Finding> findings) throws IOException {
            json.writeArrayFieldStart("bands");
            for (Stretch stretch : rotation.steady()) {
                band(stretch, "steady", "");
            }
            for (Finding finding : findings) {
                if (finding.where().isPresent()) {
                    band(finding.where().get(), "finding", CheckWords.fault(finding.code()));
                }
            }
            for (Alarm alarm : rotation.alarms()) {
                band(alarm.where(), "alarm", CheckWords.alarm(alarm.code()));
            }
            json.writeEndArray();
        }

        private void band(Stretch where, String kind, String name) throws IOException {
            json.writeStartObject();
            number("from", where.fromSeconds(), 3);
            number("to", where.toSeconds(), 3);
            json.writeStringField("kind", kind);
            json.writeStringField("name", name);
            json.writeEndObject();
        }
    }
}
