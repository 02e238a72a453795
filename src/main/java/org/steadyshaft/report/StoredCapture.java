package org.steadyshaft.report;

import java.util.Collections;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.TreeMap;
import org.steadyshaft.compare.Run;

/**
 * What the batch needs of a capture that has been analysed: kept beside its results, so that a second run need not analyse it again.
 *
 * @param key what the results were made from and by: content, settings, label, program
 * @param files the results that it vouches for: SHA-256 by name
 * @param summary figures for the index
 * @param run figures for the comparison; absent where the capture gives no speed
 */
public record StoredCapture(String key, Map<String, String> files, CaptureSummary summary, Optional<Run> run) {
    public StoredCapture {
        files = Collections.unmodifiableMap(new TreeMap<>(files));
        Objects.requireNonNull(summary, "summary");
        Objects.requireNonNull(run, "run");
    }
}
