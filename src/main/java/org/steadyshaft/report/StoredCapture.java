package org.steadyshaft.report;

import java.util.Objects;
import java.util.Optional;
import org.steadyshaft.compare.Run;

/**
 * What the batch needs of a capture that has been analysed: kept beside its results, so that a second run need not analyse it again.
 *
 * @param key what the results were made from and by: content, settings, label, program
 * @param summary figures for the index
 * @param run figures for the comparison; absent where the capture gives no speed
 */
public record StoredCapture(String key, CaptureSummary summary, Optional<Run> run) {
    public StoredCapture {
        Objects.requireNonNull(summary, "summary");
        Objects.requireNonNull(run, "run");
    }
}
