package org.steadyshaft.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Pattern;
import nu.validator.messages.MessageEmitterAdapter;
import nu.validator.messages.TextMessageEmitter;
import nu.validator.servlet.imagereview.ImageCollector;
import nu.validator.source.SourceCode;
import nu.validator.validation.SimpleDocumentValidator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.steadyshaft.analysis.Analysed;
import org.steadyshaft.analysis.CaptureLabel;
import org.steadyshaft.analysis.Outcome;
import org.steadyshaft.simulate.DrawnSpeed;
import org.steadyshaft.simulate.DrawnTacho;
import org.steadyshaft.simulate.DrawnTacho.Settings;
import org.xml.sax.InputSource;

/** The pages are HTML as the standard has it (WHATWG HTML, judged by the Nu HTML checker). */
class PagesHtmlTest {
    static String errors(String html) throws Exception {
        ByteArrayOutputStream messages = new ByteArrayOutputStream();
        SourceCode source = new SourceCode();
        MessageEmitterAdapter handler = new MessageEmitterAdapter(
                null, source, false, new ImageCollector(source), 0, false, new TextMessageEmitter(messages, false));
        handler.setErrorsOnly(true);
        SimpleDocumentValidator validator = new SimpleDocumentValidator();
        validator.setUpMainSchema("http://s.validator.nu/html5-rdfalite.rnc", handler);
        validator.setUpValidatorAndParsers(handler, true, false);
        handler.start(null);
        try (InputStream in = new ByteArrayInputStream(html.getBytes(StandardCharsets.UTF_8))) {
            InputSource input = new InputSource(in);
            input.setEncoding("UTF-8");
            validator.checkHtmlInputSource(input);
        }
        handler.end("", "", "");
        return messages.toString(StandardCharsets.UTF_8).strip();
    }

    private static String page(Outcome outcome) throws IOException {
        StringWriter out = new StringWriter();
        Pages.write(
                "capture.jte",
                Map.of("page", CapturePage.of(outcome, MotorVerdictTest.verdict(outcome), new Ways("", "", false))),
                out);
        return out.toString();
    }

    private static Outcome.Analysed turning() {
        DrawnSpeed speed = DrawnSpeed.level(900).line(100, 0.5, 0.1).blip(4, 0.02, 5, 0.2);
        Settings settings = Settings.clean(16000, 8).withShape(0.5, 0.03, 0.03).withNoise(0.003, 3);
        return Analysed.of(new DrawnTacho("good.wav", speed, settings));
    }

    @Test
    void theCheckerSeesErrors() throws Exception {
        String broken = errors("<!DOCTYPE html><html lang=en><title>x</title><p><table><b></table>");
        assertEquals(false, broken.isBlank(), "the checker must find what is wrong");
    }

    @Test
    void aCapturePageIsValid() throws Exception {
        assertEquals("", errors(page(turning())));
    }

    @Test
    void theOneFileIsValid(@TempDir Path out) throws Exception {
        Outcome.Analysed turning = turning();
        List<CaptureSummary> summaries = new ArrayList<>();
        for (String name : List.of("a", "b")) {
            MotorVerdict verdict = MotorVerdictTest.verdict(turning);
            new ReportWriter(out).write(name, turning, verdict, new Ways("", "", false));
            summaries.add(CaptureSummary.of(name, turning, verdict));
        }
        new BatchWriter(out).write(summaries, Optional.empty());
        assertEquals("", errors(Files.readString(new SharePage(out, summaries, false).write())));
    }

    /** So many captures that not all of their charts fit: it says so, stays small, and has every verdict. */
    @Test
    void theOneFileStaysSmallEnoughToSend(@TempDir Path out) throws Exception {
        Outcome.Analysed turning = turning();
        MotorVerdict verdict = MotorVerdictTest.verdict(turning);
        List<CaptureSummary> summaries = new ArrayList<>();
        for (int i = 0; i < 30; i++) {
            new ReportWriter(out).write("run" + i, turning, verdict, new Ways("", "", false));
            summaries.add(CaptureSummary.of("run" + i, turning, verdict));
        }
        new BatchWriter(out).write(summaries, Optional.empty());
        Path shared = new SharePage(out, summaries, false).write();
        String page = Files.readString(shared);
        assertTrue(Files.size(shared) <= 2_000_000, Files.size(shared) + " bytes");
        assertTrue(page.contains("Left out, so that this file stays small enough to send"));
        assertEquals(30, page.split(Pattern.quote(verdict.headline()), -1).length - 1, "every verdict is there");
        assertEquals("", errors(page));
    }

    @Test
    void thePageOfAnUnreadableFileIsValid() throws Exception {
        assertEquals("", errors(page(new Outcome.Rejected("x.wav", CaptureLabel.NONE, "x.wav: is empty"))));
    }

    @Test
    void theIndexIsValid() throws Exception {
        StringWriter out = new StringWriter();
        CaptureSummary summary = CaptureSummary.of("good", turning(), MotorVerdictTest.verdict(turning()));
        Pages.write("index.jte", Map.of("captures", List.of(summary), "compared", true), out);
        assertEquals("", errors(out.toString()));
    }
}
