package org.steadyshaft.analysis;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;
import org.steadyshaft.signal.PlainText;

/**
 * What the user says about a capture, made plain; empty words where nothing was said.
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
        circuit = plain(circuit);
        setting = plain(setting);
        load = plain(load);
        note = plain(note);
        Map<String, String> all = new LinkedHashMap<>();
        others.forEach((column, cell) -> all.put(plain(column), plain(cell)));
        others = Collections.unmodifiableMap(all);
    }

    /** Words of one line that do no harm on a terminal, in a page or in a table. */
    private static String plain(String words) {
        return PlainText.of(words.replace('\n', ' ').replace('\r', ' ').replace('\t', ' '));
    }
}
