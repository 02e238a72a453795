/**
 * Results and pages. Start at {@link org.steadyshaft.report.ReportWriter}, which writes everything of one capture, and
 * {@link org.steadyshaft.report.BatchWriter} for what belongs to all of them. {@link org.steadyshaft.report.Verdict} puts
 * the measures into words, {@link org.steadyshaft.report.CaptureCharts} into pictures; page templates are in src/main/jte.
 * Reads the records that analysis hands out and calls no stage.
 */
package org.steadyshaft.report;
