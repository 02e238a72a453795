package org.steadyshaft.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.deque.html.axecore.results.Results;
import com.deque.html.axecore.results.Rule;
import com.deque.html.axecore.selenium.AxeBuilder;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Base64;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.openqa.selenium.By;
import org.openqa.selenium.Keys;
import org.openqa.selenium.WebElement;
import org.openqa.selenium.chrome.ChromeDriver;
import org.openqa.selenium.logging.LogEntry;
import org.openqa.selenium.logging.LogType;
import org.openqa.selenium.print.PrintOptions;

/** The comparison page in a real browser: light, dark, narrow and printed; sorted by mouse and keyboard. */
class ComparisonBrowserTest {
    @TempDir
    static Path out;

    private static ChromeDriver browser;

    @BeforeAll
    static void writeThePageAndOpenTheBrowser() throws IOException {
        TestBrowser.assumeThere();
        new BatchWriter(out).write(List.of(), Optional.of(MadeComparison.threeCircuits()));
        browser = TestBrowser.start();
    }

    @AfterAll
    static void closeTheBrowser() {
        if (browser != null) {
            browser.quit();
        }
    }

    @BeforeEach
    void plain() {
        show(1280, "light", "screen");
    }

    private static void show(int width, String scheme, String medium) {
        browser.executeCdpCommand(
                "Emulation.setDeviceMetricsOverride",
                Map.of("width", width, "height", 800, "deviceScaleFactor", 1, "mobile", width < 500));
        browser.executeCdpCommand(
                "Emulation.setEmulatedMedia",
                Map.of("media", medium, "features", List.of(Map.of("name", "prefers-color-scheme", "value", scheme))));
        browser.get(out.resolve("comparison.html").toUri().toString());
    }

    @Test
    void loadsWithoutErrorsAndWithoutTheNetwork() {
        browser.manage().logs().get(LogType.BROWSER);
        browser.manage().logs().get(LogType.PERFORMANCE);
        show(1280, "light", "screen");
        List<LogEntry> errors = browser.manage().logs().get(LogType.BROWSER).getAll();
        assertTrue(errors.isEmpty(), errors.toString());
        List<String> requests = browser.manage().logs().get(LogType.PERFORMANCE).getAll().stream()
                .map(LogEntry::getMessage)
                .filter(m -> m.contains("Network.requestWillBeSent\""))
                .toList();
        assertFalse(requests.isEmpty(), "the page itself must be seen");
        List<String> outside = requests.stream()
                .filter(m -> !m.contains("\"url\":\"file:") && !m.contains("\"documentURL\":\"chrome:"))
                .toList();
        assertTrue(outside.isEmpty(), outside.toString());
        assertEquals(1, browser.findElements(By.tagName("h1")).size());
    }

    @ParameterizedTest
    @CsvSource({
        "1280, light, screen",
        "1280, dark, screen",
        "390, light, screen",
        "390, dark, screen",
        "800, light, print"
    })
    void axeFindsNothingSerious(int width, String scheme, String medium) {
        show(width, scheme, medium);
        Results results = new AxeBuilder().analyze(browser);
        List<Rule> serious = results.getViolations().stream()
                .filter(r -> List.of("serious", "critical").contains(r.getImpact()))
                .toList();
        assertTrue(serious.isEmpty(), serious.toString());
        assertFalse(results.getPasses().isEmpty(), "axe checked nothing");
    }

    @ParameterizedTest
    @CsvSource({"360", "390", "1280"})
    void theBodyIsNoWiderThanItsWindow(int width) {
        show(width, "light", "screen");
        Object wide = browser.executeScript("return document.documentElement.scrollWidth;");
        assertTrue((Long) wide <= width, "the page is " + wide + " wide in a window of " + width);
    }

    private static List<String> column(WebElement table, int column) {
        return table.findElements(By.cssSelector("tbody tr")).stream()
                .map(row -> row.findElements(By.cssSelector("th, td")).get(column))
                .map(cell -> Optional.ofNullable(cell.getDomAttribute("data-order"))
                        .orElse(cell.getDomProperty("textContent")))
                .toList();
    }

    /** Unfolds what is folded away, as a reader does. */
    private static void unfold() {
        browser.findElements(By.cssSelector("details > summary")).forEach(WebElement::click);
    }

    private static WebElement measures() {
        unfold();
        return browser.findElement(By.cssSelector("[aria-label^='Measures at'] table"));
    }

    private static void assertSorted(WebElement table, int column, Comparator<String> order, String sort) {
        List<String> cells = column(table, column);
        List<String> sorted = new ArrayList<>(cells);
        sorted.sort(order);
        assertEquals(sorted, cells);
        List<WebElement> heads = table.findElements(By.cssSelector("thead th"));
        for (int i = 0; i < heads.size(); i++) {
            assertEquals(i == column ? sort : null, heads.get(i).getDomAttribute("aria-sort"), "head " + i);
        }
    }

    @Test
    void aClickOnAHeadSorts() {
        WebElement table = measures();
        List<String> before = column(table, 3);
        assertTrue(before.size() >= 4, before.toString());
        WebElement button = table.findElements(By.cssSelector("thead button")).get(3);
        Comparator<String> rising = Comparator.comparingDouble(Double::parseDouble);
        button.click();
        assertSorted(table, 3, rising, "ascending");
        List<String> first = column(table, 0);
        button.click();
        assertSorted(table, 3, rising.reversed(), "descending");
        assertNotEquals(first, column(table, 0), "rows move as a whole");
    }

    @Test
    void theKeyboardSortsToo() {
        WebElement table = measures();
        WebElement speed = table.findElements(By.cssSelector("thead button")).get(1);
        speed.sendKeys(Keys.ENTER);
        assertSorted(table, 1, Comparator.comparingDouble(Double::parseDouble), "ascending");
        WebElement blips = table.findElements(By.cssSelector("thead button")).get(6);
        speed.sendKeys(Keys.TAB);
        assertEquals(
                table.findElements(By.cssSelector("thead button")).get(2),
                browser.switchTo().activeElement());
        blips.sendKeys(Keys.SPACE);
        assertSorted(table, 6, Comparator.comparingDouble(Double::parseDouble), "ascending");
        WebElement focused = browser.switchTo().activeElement();
        assertEquals(blips, focused, "sorting must not move the focus");
    }

    /** Spans of seconds and of minutes stand in one column. */
    @Test
    void timesSortByTheirLength() {
        unfold();
        WebElement table = browser.findElement(By.cssSelector("[aria-label='All comparisons'] table"));
        table.findElements(By.cssSelector("thead button")).get(6).click();
        List<Double> seconds = table.findElements(By.cssSelector("tbody tr td:last-child")).stream()
                .map(cell -> cell.getDomProperty("textContent").strip())
                .filter(text -> !text.isEmpty())
                .map(text -> Double.parseDouble(text.split(" ")[0]) * (text.contains(" min") ? 60 : 1))
                .toList();
        assertTrue(seconds.stream().anyMatch(s -> s < 120) && seconds.stream().anyMatch(s -> s >= 120), "" + seconds);
        assertEquals(seconds.stream().sorted().toList(), seconds);
    }

    @Test
    void whatTheUserWroteIsTextAndNotMarkup() {
        assertEquals("Which circuit is better - steadyshaft", browser.getTitle());
        assertEquals(1, browser.findElements(By.tagName("script")).size());
        assertTrue(browser.findElements(By.cssSelector("main b, main i")).isEmpty());
        String text = browser.findElement(By.tagName("body")).getText();
        assertTrue(text.contains(MadeComparison.EVIL), "the name must be there as written");
        Object inCharts = browser.executeScript(
                "return [...document.querySelectorAll('figure svg')].some(s => s.textContent.includes('<b>'));");
        assertEquals(true, inCharts, "charts name it as well");
    }

    /** Markup that got through all the same could neither run a script nor load anything: the page's policy forbids it. */
    @Test
    void thePolicyLetsNothingRunButThePagesOwnScript() {
        Object blocked = browser.executeAsyncScript(
                "const done = arguments[0], seen = [];"
                        + "document.addEventListener('securitypolicyviolation', e => seen.push(e.effectiveDirective));"
                        + "const script = document.createElement('script');"
                        + "script.textContent = 'window.injected = true';"
                        + "document.body.appendChild(script);"
                        + "const box = document.createElement('div');"
                        + "box.innerHTML = '<img src=\"http://127.0.0.1:9/x.png\" onerror=\"window.handled = true\">';"
                        + "document.body.appendChild(box);"
                        + "setTimeout(() => { script.remove(); box.remove();"
                        + "  done([window.injected === undefined, window.handled === undefined, ...new Set(seen)].map(String)); }, 800);");
        List<?> told = (List<?>) blocked;
        assertEquals(List.of("true", "true"), told.subList(0, 2), told.toString());
        assertTrue(told.contains("script-src-elem") && told.contains("img-src"), told.toString());
        assertTrue(told.contains("script-src-attr"), told.toString());
    }

    @Test
    void changesOfACircuitAreTold() {
        String text = browser.findElement(By.tagName("main")).getText();
        assertTrue(text.contains("Before and after a change"), text);
        assertTrue(text.contains("Before and after a change: pulses"), text);
        assertTrue(text.contains("before") && text.contains("after") && text.contains("Proven better: blips"), text);
    }

    /** What is folded away is not there at first, and unfolds by the keyboard. */
    @Test
    void detailsAreFoldedUntilAskedFor() {
        WebElement details = browser.findElement(By.tagName("details"));
        WebElement table = details.findElement(By.tagName("table"));
        assertFalse(table.isDisplayed());
        details.findElement(By.tagName("summary")).sendKeys(Keys.ENTER);
        assertTrue(table.isDisplayed());
    }

    /** The decision is read before anything else, and every field of the matrix leads to its captures. */
    @Test
    void theDecisionStandsFirst() {
        String text = browser.findElement(By.tagName("main")).getText();
        assertTrue(text.indexOf("For throwing clay: ") < 300, text.substring(0, 300));
        assertTrue(text.indexOf("Record next") < text.indexOf("Circuits by speed and load"), text);
        List<WebElement> entries = browser.findElements(By.cssSelector(".matrix .entry"));
        assertTrue(entries.size() >= 16, "entries " + entries.size());
        for (WebElement entry : entries) {
            assertFalse(entry.findElements(By.tagName("a")).isEmpty(), entry.getText());
            assertTrue(
                    entry.getText().matches("(?s)[\u2713\u223c\u2715?].*"),
                    "a sign beside the colour: " + entry.getText());
        }
    }

    /** What is open on the screen is there on paper, nothing is cut off by a scrolling box, and four sheets hold it. */
    @Test
    void printingHidesNothingButWhatIsFolded() {
        String gone = "return [...document.querySelectorAll('main *')].filter(e => {const s = getComputedStyle(e);"
                + "return s.display === 'none' || s.visibility === 'hidden' || s.opacity === '0';})"
                + ".filter(e => !['SCRIPT','STYLE','TITLE','DESC','DEFS','DETAILS'].includes(e.tagName.toUpperCase()))"
                + ".map(e => e.outerHTML.slice(0, 80));";
        String cut = "return [...document.querySelectorAll('main *')].filter(e => e.scrollWidth > e.clientWidth + 1"
                + " && !(e instanceof SVGElement)"
                + " && ['auto', 'hidden', 'scroll'].includes(getComputedStyle(e).overflowX)).map(e => e.className);";
        show(1280, "light", "screen");
        Object texts = browser.executeScript("return document.querySelector('main').textContent.length;");
        assertTrue((Long) texts > 1000);
        show(700, "dark", "print");
        assertEquals(List.of(), browser.executeScript(gone));
        assertEquals(List.of(), browser.executeScript(cut));
        Object wide = browser.executeScript("return document.documentElement.scrollWidth;");
        assertTrue((Long) wide <= 700, "what is wider than the paper is lost: " + wide);
        String ink = (String) browser.executeScript("return getComputedStyle(document.body).color;");
        assertEquals("rgb(0, 0, 0)", ink, "dark ink on paper even where the screen is dark");
        String pdf = new String(
                Base64.getDecoder().decode(browser.print(new PrintOptions()).getContent()),
                StandardCharsets.ISO_8859_1);
        Matcher sheets = Pattern.compile("/Type */Page\\b").matcher(pdf);
        long count = sheets.results().count();
        assertTrue(count >= 1 && count <= 4, "sheets " + count);
    }
}
