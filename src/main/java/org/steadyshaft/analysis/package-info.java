/**
 * The one place that knows the order of the stages. Start at {@link org.steadyshaft.analysis.CaptureAnalyser}: it leads a
 * recording through condition, speed and stability and gives an {@link org.steadyshaft.analysis.Outcome}. Uses signal and
 * the stages.
 */
package org.steadyshaft.analysis;
