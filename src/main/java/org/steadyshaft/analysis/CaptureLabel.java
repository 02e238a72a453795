package org.steadyshaft.analysis;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;

/**
 * What the user says about a capture; empty words where nothing was said.
 *
 * @param circuit the drive circuit
 * @param setting knob or target as written
 * @param load load as written
 * @param note free words
 * @param others further columns of the run sheet, by name, in order
 */
public record CaptureLabel(String circuit, String setting, String load, String note, Map<String, String> others) {
    public static final CaptureLabel NONE = new CaptureLabel("", "", "", "", Map.of());

    /** How the note of a capture begins that was made by a simulation and never recorded. */
    public static final String SIMULATED = "simulated";

    /** Whether the note says that the capture was simulated. */
    public boolean isSimulated() {
        return note.startsWith(SIMULATED);
    }

    public CaptureLabel {
        others = Collections.unmodifiableMap(new LinkedHashMap<>(others));
    }
}
