package org.steadyshaft.cli;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;

/**
 * Captures of one tacho, by the run sheet's column: what its poles give is the same in all of them, so one may tell what another cannot.
 * Captures that nobody named a tacho for stand alone.
 */
final class TachoGroups {
    private static final String COLUMN = "tacho";

    private final Map<CaptureJob, List<CaptureJob>> members = new IdentityHashMap<>();

    TachoGroups(List<CaptureJob> jobs) {
        Map<String, List<CaptureJob>> byName = new TreeMap<>();
        for (CaptureJob job : jobs) {
            String name = name(job);
            if (!name.isEmpty() && job.problem().isEmpty()) {
                byName.computeIfAbsent(name, n -> new ArrayList<>()).add(job);
            }
        }
        for (List<CaptureJob> group : byName.values()) {
            group.sort(Comparator.comparing(CaptureJob::name));
            if (group.size() > 1) {
                group.forEach(job -> members.put(job, List.copyOf(group)));
            }
        }
    }

    /** The tacho's name, case and outer spaces aside; empty if there is none. */
    private static String name(CaptureJob job) {
        return job.label().others().getOrDefault(COLUMN, "").strip().toLowerCase(Locale.ROOT);
    }

    /** All captures of a capture's tacho, itself among them, by name; empty where it stands alone. */
    List<CaptureJob> of(CaptureJob job) {
        return members.getOrDefault(job, List.of());
    }
}
