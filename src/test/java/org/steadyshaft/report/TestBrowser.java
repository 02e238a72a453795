package org.steadyshaft.report;

import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.File;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.logging.Level;
import org.openqa.selenium.chrome.ChromeDriver;
import org.openqa.selenium.chrome.ChromeDriverService;
import org.openqa.selenium.chrome.ChromeOptions;
import org.openqa.selenium.logging.LogType;
import org.openqa.selenium.logging.LoggingPreferences;

/** Debian's Chromium for the browser tests. */
final class TestBrowser {
    private TestBrowser() {}

    /** Skips the tests where there is no browser, unless they are compulsory. */
    static void assumeThere() {
        boolean there = Files.isExecutable(Path.of("/usr/bin/chromium"))
                && Files.isExecutable(Path.of("/usr/bin/chromedriver"));
        if (!"required".equals(System.getenv("STEADYSHAFT_BROWSER_TESTS"))) {
            assumeTrue(there, "no /usr/bin/chromium and /usr/bin/chromedriver: install them to run the browser tests");
        }
    }

    /** Starts it, without a network, with console and requests logged. */
    static ChromeDriver start() throws IOException {
        ChromeOptions options = new ChromeOptions();
        options.setBinary("/usr/bin/chromium");
        options.addArguments(
                "--headless",
                "--no-sandbox",
                "--disable-gpu",
                "--no-first-run",
                "--disable-background-networking",
                "--disable-component-update",
                "--disable-sync",
                "--user-data-dir=" + Files.createTempDirectory("steadyshaft-browser"));
        LoggingPreferences logs = new LoggingPreferences();
        logs.enable(LogType.BROWSER, Level.ALL);
        logs.enable(LogType.PERFORMANCE, Level.ALL);
        options.setCapability("goog:loggingPrefs", logs);
        ChromeDriverService service = new ChromeDriverService.Builder()
                .usingDriverExecutable(new File("/usr/bin/chromedriver"))
                .build();
        return new ChromeDriver(service, options);
    }
}
