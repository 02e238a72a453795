package org.steadyshaft.cli;

import java.nio.file.Path;
import java.util.Optional;
import org.steadyshaft.analysis.AnalysisSettings;
import org.steadyshaft.analysis.CaptureLabel;
import org.steadyshaft.signal.PlainText;

/**
 * One capture to be analysed.
 *
 * @param file where it is
 * @param name what the user calls it, made plain
 * @param label what the user says of it
 * @param settings how to analyse it
 * @param problem why it cannot even be tried, such as a wrong cell in the run sheet, made plain; absent if it can
 */
record CaptureJob(Path file, String name, CaptureLabel label, AnalysisSettings settings, Optional<String> problem) {
    CaptureJob {
        name = PlainText.of(name);
        problem = problem.map(PlainText::of);
    }
}
