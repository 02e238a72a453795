package org.steadyshaft.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.io.IOException;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
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

/** What is kept of a capture comes back equal, to the last bit of every number; what is not that is refused. */
class StoredCaptureTest {
    private static CaptureLabel label() {
        Map<String, String> others = new LinkedHashMap<>();
        others.put("variant", "after \"soldering\"\n");
        others.put("another, column", "");
        return new CaptureLabel("rc \u00b5", "mid", "2 kg clay", "simulated </script>", others);
    }

    private static StoredCapture full() {
        CaptureSummary summary = new CaptureSummary(
                "wheel1",
                "wheel 1.wav",
                label(),
                Grade.DOUBTFUL,
                Optional.of(new CaptureSummary.Figures(
                        1500.1 / 3,
                        Double.MIN_VALUE,
                        Optional.of(0.1 + 0.2),
                        Optional.empty(),
                        Optional.of(3),
                        Optional.of(1e-7))),
                List.of(
                        Finding.caution(FindingCode.GAP, "a gap", new Stretch(1.0 / 3, 2.0 / 3)),
                        Finding.note(FindingCode.HUM, "hum")),
                SpeedHeld.RUNAWAY,
                "RAN AWAY: \"quoted\"",
                List.of(Alarm.Code.RUNAWAY),
                "M0 1L0 2");
        Run run = new Run(
                "wheel1",
                label(),
                new Run.Trust(
                        Grade.DOUBTFUL, List.of(FindingCode.GAP, FindingCode.CLIPPED), List.of(Alarm.Code.RUNAWAY)),
                Math.nextUp(1500),
                0.07,
                List.of(new Run.Block(-1e-5, 1.0 / 7, 0.3, 1), new Run.Block(0, 0, 0, 1.0000000000000002)),
                Optional.of(new Run.RippleLines(
                        0.02,
                        325,
                        1.0 / 3,
                        1e-7,
                        Run.MainsLine.untold(Untold.Why.SHAFT_ORDER),
                        Run.MainsLine.of(0.1, 0.2))),
                List.of(new Run.Line(99.99, 0.2, 0.01, RippleCause.TWICE_MAINS)),
                new Run.Jumps(List.of(new Run.Jump(-2.5, BlipCause.MISSED_FIRING)), 29.99, 0.4),
                Optional.of(new Run.Hunts(1.5, 2, 0.1, Hunting.Trend.GROWING)),
                Optional.of(true),
                List.of(0.25, Double.POSITIVE_INFINITY),
                List.of(new Run.Point(0, 1500), new Run.Point(0.1, 1e22)),
                List.of());
        return new StoredCapture("a key", Map.of("result.json", "12", "report.html", "34"), summary, Optional.of(run));
    }

    private static StoredCapture bare() {
        CaptureSummary summary = new CaptureSummary(
                "x",
                "x.wav",
                CaptureLabel.NONE,
                Grade.UNUSABLE,
                Optional.empty(),
                List.of(),
                SpeedHeld.CANNOT_TELL,
                "",
                List.of(),
                "");
        return new StoredCapture("", Map.of(), summary, Optional.empty());
    }

    @Test
    void comesBackEqual() throws IOException {
        for (StoredCapture stored : List.of(full(), bare())) {
            String text = StoredCaptureWriter.write(stored);
            assertEquals(stored, StoredCaptureReader.read(text));
            assertEquals(text, StoredCaptureWriter.write(StoredCaptureReader.read(text)));
        }
    }

    /** Every cut, and every field that is called otherwise. */
    @Test
    void nothingElseIsRead() throws IOException {
        String text = StoredCaptureWriter.write(full());
        for (int end = 0; end < text.length(); end++) {
            String cut = text.substring(0, end);
            assertThrows(IOException.class, () -> StoredCaptureReader.read(cut), cut);
        }
        for (String field : text.replaceAll("[^a-zA-Z\":]+", " ").split(" ")) {
            if (field.matches("\"[a-zA-Z]+\":") && !field.equals("\"variant\":")) {
                String other = text.replaceFirst(field, "\"lost\":");
                assertThrows(IOException.class, () -> StoredCaptureReader.read(other), field);
            }
        }
        assertThrows(IOException.class, () -> StoredCaptureReader.read(text + "{}"));
    }

    @ParameterizedTest
    @ValueSource(
            strings = {"", "null", "[]", "5", "{}", "{\"key\":5}", "{\"key\":null}", "{\"key\":\"a\",\"summary\":null}"
            })
    void otherJson(String text) {
        assertThrows(IOException.class, () -> StoredCaptureReader.read(text));
    }

    @Test
    void aRecordRefusesNonsense() throws IOException {
        String text = StoredCaptureWriter.write(full());
        String grade = text.replace("DOUBTFUL", "SPLENDID");
        assertThrows(IOException.class, () -> StoredCaptureReader.read(grade));
        String minutes = text.replace("29.99", "-29.99");
        assertThrows(IOException.class, () -> StoredCaptureReader.read(minutes));
    }
}
