package org.steadyshaft.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.deque.html.axecore.results.Results;
import com.deque.html.axecore.results.Rule;
import com.deque.html.axecore.selenium.AxeBuilder;
import java.io.IOException;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Base64;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Pattern;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.openqa.selenium.By;
import org.openqa.selenium.Keys;
import org.openqa.selenium.WebElement;
import org.openqa.selenium.chrome.ChromeDriver;
import org.openqa.selenium.interactions.Actions;
import org.openqa.selenium.interactions.WheelInput;
import org.openqa.selenium.logging.LogEntry;
import org.openqa.selenium.logging.LogType;
import org.openqa.selenium.print.PrintOptions;
import org.steadyshaft.analysis.Analysed;
import org.steadyshaft.analysis.CaptureLabel;
import org.steadyshaft.analysis.Outcome;
import org.steadyshaft.simulate.DrawnSpeed;
import org.steadyshaft.simulate.DrawnTacho;
import org.steadyshaft.simulate.DrawnTacho.Settings;

/**
 * The pages in a real browser: they load without errors and without the network, charts have words for those who cannot see
 * them, nothing a user wrote becomes markup, and axe-core finds nothing serious.
 */
class PagesBrowserTest {
    private static final String EVIL = "<script>document.title='broken'</script><b>note</b>";

    @TempDir
    static Path out;

    private static ChromeDriver browser;

    @BeforeAll
    static void writePagesAndOpenTheBrowser() throws IOException {
        TestBrowser.assumeThere();
        writePages();
        browser = TestBrowser.start();
    }

    private static void writePages() throws IOException {
        CaptureNames names = new CaptureNames();
        ReportWriter writer = new ReportWriter(out);
        Settings settings = Settings.clean(16000, 10).withShape(0.5, 0.03, 0.03).withNoise(0.003, 3);
        DrawnSpeed speed =
                DrawnSpeed.level(900).line(100, 0.5, 0.1).line(1.2, 0.5, 0).blip(4, 0.02, 5, 0.2);
        Outcome.Analysed good = Analysed.of(new DrawnTacho("good.wav", speed, settings));
        Outcome.Analysed evil = new Outcome.Analysed(
                Analysed.of(new DrawnTacho("<script>x.wav", speed, settings)).source(),
                new CaptureLabel(EVIL, EVIL, EVIL, EVIL, Map.of("<i>column</i>", EVIL)),
                good.settings(),
                good.findings(),
                good.rotation(),
                good.extract());
        Outcome.Rejected bad =
                new Outcome.Rejected("bad.wav", CaptureLabel.NONE, "bad.wav: is empty; expected a recording");
        List<CaptureSummary> summaries = new ArrayList<>();
        for (Outcome outcome : List.of(good, evil, bad)) {
            String name = names.nameFor(outcome.file());
            MotorVerdict verdict = MotorVerdictTest.verdict(outcome);
            writer.write(name, outcome, verdict, new Ways("", "", false));
            summaries.add(CaptureSummary.of(name, outcome, verdict));
        }
        new BatchWriter(out).write(summaries, Optional.empty());
        new SharePage(out, summaries, false).write();
    }

    @AfterAll
    static void closeTheBrowser() {
        if (browser != null) {
            browser.quit();
        }
    }

    private static void open(String page) {
        browser.get(out.resolve(page).toUri().toString());
    }

    @ParameterizedTest
    @ValueSource(strings = {"index.html", "good/report.html", "_script_x/report.html", "bad/report.html", "share.html"})
    void aPageLoadsWithoutErrorsAndWithoutTheNetwork(String page) {
        browser.manage().logs().get(LogType.PERFORMANCE);
        open(page);
        List<LogEntry> errors = browser.manage().logs().get(LogType.BROWSER).getAll();
        assertTrue(errors.isEmpty(), errors.toString());
        List<String> requests = browser.manage().logs().get(LogType.PERFORMANCE).getAll().stream()
                .map(LogEntry::getMessage)
                .filter(m -> m.contains("Network.requestWillBeSent\"")
                        && !m.contains("\"url\":\"file:")
                        && !m.contains("\"documentURL\":\"chrome:"))
                .toList();
        assertTrue(requests.isEmpty(), requests.toString());
        assertEquals(1, browser.findElements(By.tagName("h1")).size());
    }

    @ParameterizedTest
    @ValueSource(strings = {"index.html", "good/report.html", "bad/report.html", "share.html"})
    void axeFindsNothingSerious(String page) {
        open(page);
        Results results = new AxeBuilder().analyze(browser);
        List<Rule> serious = results.getViolations().stream()
                .filter(r -> List.of("serious", "critical").contains(r.getImpact()))
                .toList();
        assertTrue(serious.isEmpty(), serious.toString());
        assertFalse(results.getPasses().isEmpty(), "axe checked nothing");
    }

    @Test
    void chartsHaveTextAndWords() {
        open("good/report.html");
        browser.findElements(By.cssSelector("details > summary")).forEach(WebElement::click);
        List<WebElement> charts = browser.findElements(By.cssSelector("figure:not(.thumbnail) > svg"));
        assertTrue(charts.size() >= 5, "charts: " + charts.size());
        for (WebElement chart : charts) {
            assertEquals("img", chart.getAttribute("role"));
            assertFalse(chart.findElements(By.tagName("text")).isEmpty(), "text must stay text");
            String[] labels = chart.getAttribute("aria-labelledby").split(" ");
            assertEquals(2, labels.length);
            for (String label : labels) {
                List<WebElement> words = browser.findElements(By.id(label));
                assertEquals(1, words.size(), label);
                assertTrue(words.get(0).getDomProperty("textContent").length() > 5, label);
            }
            assertTrue(chart.getRect().getHeight() > 100, "a chart must have a height");
        }
    }

    @ParameterizedTest
    @ValueSource(strings = {"good/report.html", "share.html"})
    void noIdStandsTwiceInAPage(String page) {
        open(page);
        Object twice = browser.executeScript("const ids = [...document.querySelectorAll('[id]')].map(e => e.id);"
                + "return ids.filter((id, i) => ids.indexOf(id) !== i);");
        assertEquals(List.of(), twice);
    }

    @Test
    void theVerdictStandsFirst() {
        open("good/report.html");
        WebElement first = browser.findElement(By.cssSelector("main > h1 + *"));
        assertEquals("Verdict", first.getAttribute("aria-label"));
        assertTrue(browser.findElements(By.className("simulated")).isEmpty(), "only what is simulated is called so");
        assertTrue(first.getText().startsWith("Mostly holds its speed, 90"), first.getText());
        assertTrue(first.getText().contains("1 jump of +5"), first.getText());
        assertTrue(first.getText().contains("Held against what throwing clay needs"), first.getText());
        assertTrue(first.getText().endsWith("Recording: good"), first.getText());
    }

    @ParameterizedTest
    @ValueSource(strings = {"_script_x/report.html", "index.html", "share.html"})
    void whatTheUserWroteIsTextAndNotMarkup(String page) {
        open(page);
        assertFalse(browser.getTitle().equals("broken"));
        boolean onlyOwn = browser.findElements(By.tagName("script")).stream()
                .map(script -> script.getDomProperty("textContent"))
                .allMatch(text -> text.startsWith("\ndocument.querySelectorAll") || text.startsWith("{\"mean\""));
        assertTrue(onlyOwn, "no script but the pages' own");
        assertTrue(browser.findElements(By.cssSelector("main b, main i")).isEmpty());
        assertTrue(browser.findElement(By.tagName("body")).getText().contains("<b>note</b>"));
    }

    @ParameterizedTest
    @ValueSource(ints = {360, 1280})
    void noPageIsWiderThanItsWindow(int width) {
        browser.executeCdpCommand(
                "Emulation.setDeviceMetricsOverride",
                Map.of("width", width, "height", 800, "deviceScaleFactor", 1, "mobile", width < 500));
        for (String page : List.of("index.html", "good/report.html", "bad/report.html")) {
            open(page);
            Object wide = browser.executeScript("return document.documentElement.scrollWidth;");
            assertTrue(((Long) wide) <= width, page + " is " + wide + " wide in a window of " + width);
        }
    }

    @Test
    void everyLinkLeadsToAFile() {
        open("index.html");
        List<String> links = browser.findElements(By.tagName("a")).stream()
                .map(a -> a.getDomProperty("href"))
                .toList();
        assertEquals(3, links.size());
        for (String link : links) {
            assertTrue(Files.exists(Path.of(URI.create(link))), link);
        }
    }

    /** In the one file every link leads within it, and a link into a chart moves the chart of its own capture only. */
    @Test
    void theOneFileLeadsWithinItself() throws IOException {
        open("share.html");
        List<String> links = browser.findElements(By.tagName("a")).stream()
                .map(a -> a.getDomAttribute("href"))
                .toList();
        assertTrue(links.size() >= 6, links.toString());
        for (String link : links) {
            assertTrue(link.startsWith("#"), link);
            assertEquals(1, browser.findElements(By.id(link.substring(1))).size(), link);
        }
        assertTrue(Files.size(out.resolve("share.html")) <= 2_000_000);
        List<WebElement> charts = browser.findElements(By.cssSelector("svg.live"));
        assertEquals(2, charts.size(), "two captures turn");
        String other = charts.get(1).getDomProperty("textContent");
        String first = charts.get(0).getDomProperty("textContent");
        browser.executeScript("document.querySelector('#c1 a[data-at]').click();");
        assertNotEquals(first, charts.get(0).getDomProperty("textContent"));
        assertEquals(other, charts.get(1).getDomProperty("textContent"));
    }

    private static double[] shown() {
        List<String> ticks = browser.findElements(By.cssSelector(".live text")).stream()
                .map(WebElement::getText)
                .filter(t -> t.matches("[0-9.]+ s"))
                .toList();
        return ticks.stream()
                .mapToDouble(t -> Double.parseDouble(t.replace(" s", "")))
                .toArray();
    }

    private static double span() {
        double[] ticks = shown();
        assertTrue(ticks.length >= 2, "ticks on the time axis: " + ticks.length);
        return ticks[ticks.length - 1] - ticks[0];
    }

    private static WebElement live(int width) {
        browser.executeCdpCommand(
                "Emulation.setDeviceMetricsOverride",
                Map.of("width", width, "height", 900, "deviceScaleFactor", 1, "mobile", width < 500));
        open("good/report.html");
        WebElement chart = browser.findElement(By.cssSelector("svg.live"));
        browser.executeScript("arguments[0].scrollIntoView({block: 'center'});", chart);
        assertFalse(browser.findElement(By.className("still")).isDisplayed(), "the script's chart takes its place");
        return chart;
    }

    /** A real drag over a third of the chart shows that third; the button and Escape show all again. */
    @Test
    void aDragLooksCloser() {
        WebElement chart = live(1280);
        double all = span();
        new Actions(browser)
                .moveToElement(chart, -150, 0)
                .clickAndHold()
                .moveByOffset(150, 0)
                .moveByOffset(150, 0)
                .release()
                .perform();
        double closer = span();
        assertTrue(closer < 0.5 * all && closer > 0, closer + " of " + all);
        browser.findElement(By.cssSelector("button[data-zoom='all']")).click();
        assertEquals(all, span(), 1e-9);
    }

    @Test
    void keysZoomMoveAndReset() {
        WebElement chart = live(1280);
        double all = span();
        chart.sendKeys("+");
        chart.sendKeys("+");
        double[] closer = shown();
        assertTrue(span() < 0.5 * all);
        chart.sendKeys(Keys.ARROW_RIGHT);
        assertTrue(shown()[0] > closer[0], "moved to the right");
        chart.sendKeys(Keys.ESCAPE);
        assertEquals(all, span(), 1e-9);
    }

    /** The wheel scrolls the page until the chart was chosen by a click; then it zooms. */
    @Test
    void theWheelZoomsWhereTheChartWasChosen() {
        WebElement chart = live(1280);
        double all = span();
        new Actions(browser).moveToElement(chart).click().perform();
        for (int i = 0; i < 6; i++) {
            new Actions(browser)
                    .scrollFromOrigin(WheelInput.ScrollOrigin.fromElement(chart), 0, -120)
                    .perform();
        }
        assertTrue(span() < 0.5 * all, span() + " of " + all);
    }

    /** The jump at 4 s is read under the pointer, and named. */
    @Test
    void thePointerReadsSpeedAndMarks() {
        WebElement chart = live(1280);
        browser.findElement(By.xpath("//summary[text()='Blips, one by one']")).click();
        browser.findElement(By.cssSelector("a[data-at]")).click();
        String told = browser.findElement(By.className("readout")).getText();
        assertTrue(told.matches("(?s)4\\.0\\d s: .*rpm \\(.*%.*\\).*"), told);
        assertTrue(told.contains("blip +5"), told);
        double[] ticks = shown();
        assertTrue(ticks[0] >= 2.9 && ticks[ticks.length - 1] <= 5.1, "the finding leads to its place");
        assertTrue(chart.isDisplayed());
    }

    /** On a phone the chart is drawn for its width: no text below 11 points. */
    @Test
    void onAPhoneTheChartsWordsKeepTheirSize() {
        WebElement chart = live(390);
        assertTrue(chart.getRect().getWidth() <= 390);
        browser.findElements(By.cssSelector("details > summary")).forEach(WebElement::click);
        Object size = browser.executeScript(
                "return Math.min(...[...document.querySelectorAll('.live text, details figure text')].map(t => parseFloat(getComputedStyle(t).fontSize)"
                        + " * t.ownerSVGElement.clientWidth / t.ownerSVGElement.viewBox.baseVal.width));");
        assertTrue(((Number) size).doubleValue() >= 11, "size " + size);
    }

    @Test
    void aCaptureTakesTwoSheetsOfPaper() {
        open("good/report.html");
        String pdf = new String(
                Base64.getDecoder().decode(browser.print(new PrintOptions()).getContent()),
                StandardCharsets.ISO_8859_1);
        long sheets = Pattern.compile("/Type */Page\\b").matcher(pdf).results().count();
        assertTrue(sheets >= 1 && sheets <= 2, "sheets " + sheets);
    }

    /** Rows that lack one of the words are hidden, and the words may stand in any cell. */
    @Test
    void theIndexShowsOnlyWhatIsAskedFor() {
        open("index.html");
        WebElement filter = browser.findElement(By.cssSelector(".filter input"));
        filter.sendKeys("mostly good");
        List<String> shown = browser.findElements(By.cssSelector("table.index tbody tr")).stream()
                .filter(WebElement::isDisplayed)
                .map(row -> row.findElement(By.tagName("a")).getText())
                .toList();
        assertTrue(shown.contains("good") && !shown.contains("bad"), shown.toString());
        assertTrue(browser.findElement(By.className("filter")).getText().contains(shown.size() + " of 3"));
        filter.sendKeys(Keys.chord(Keys.CONTROL, "a"), Keys.DELETE);
        assertTrue(browser.findElements(By.cssSelector("table.index tbody tr")).stream()
                .allMatch(WebElement::isDisplayed));
    }
}
