package org.steadyshaft.report;

/**
 * What stands beside a chart.
 *
 * @param heading what it is
 * @param here what it shows of this very run, in a few words that follow the heading
 * @param description the same for those who do not see it, a sentence or more
 * @param caption how to read it
 */
public record ChartWords(String heading, String here, String description, String caption) {}
