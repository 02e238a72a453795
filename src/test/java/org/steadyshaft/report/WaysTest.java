package org.steadyshaft.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;

/** Where a capture's page leads. */
class WaysTest {
    private static final String PAGE = "<p>before</p>\n<nav aria-label=\"Batch\">old</nav>\n<main>after</main>";

    @Test
    void neighboursStandInTheOrderOfTheBatch() {
        assertEquals(
                List.of(new Ways("", "b", true), new Ways("a", "c", true), new Ways("b", "", true)),
                Ways.of(List.of("a", "b", "c"), true));
        assertEquals(List.of(new Ways("", "", false)), Ways.of(List.of("alone"), false));
    }

    @Test
    void onlyTheWaysOfAPageAreReplaced() {
        String renewed = new Ways("a", "c d", true).in(PAGE);
        assertTrue(renewed.startsWith("<p>before</p>\n<nav aria-label=\"Batch\">"), renewed);
        assertTrue(renewed.endsWith("</nav>\n<main>after</main>"), renewed);
        assertTrue(renewed.contains("<a rel=\"prev\" href=\"../a/report.html\">"), renewed);
        assertTrue(renewed.contains("<a rel=\"next\" href=\"../c%20d/report.html\">"), renewed);
        assertTrue(renewed.contains("../comparison.html"), renewed);
        assertFalse(renewed.contains("old"), renewed);
        assertEquals(renewed, new Ways("a", "c d", true).in(renewed), "done twice");
    }

    @Test
    void withoutNeighboursAndComparisonOnlyTheIndexIsLeft() {
        String renewed = new Ways("", "", false).in(PAGE);
        assertTrue(renewed.contains("../index.html"), renewed);
        assertFalse(renewed.contains("comparison.html") || renewed.contains("rel="), renewed);
    }

    @Test
    void aPageWithoutWaysStaysAsItIs() {
        assertEquals("<main>x</main>", new Ways("a", "b", true).in("<main>x</main>"));
    }

    @Test
    void namesAreEscaped() {
        String renewed = new Ways("<b>", "", false).in(PAGE);
        assertTrue(renewed.contains("&lt;b>") || renewed.contains("&lt;b&gt;"), renewed);
        assertFalse(renewed.contains("<b>"), renewed);
    }
}
