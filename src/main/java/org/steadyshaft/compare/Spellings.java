package org.steadyshaft.compare;

import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.steadyshaft.analysis.CaptureLabel;

/** Gives what the user means to be one circuit, variant, setting or load one spelling, the first that came. */
final class Spellings {
    private final Map<String, String> first = new HashMap<>();

    List<Run> unified(List<Run> runs) {
        return runs.stream().map(run -> run.withLabel(unified(run.label()))).toList();
    }

    private CaptureLabel unified(CaptureLabel label) {
        Map<String, String> others = new LinkedHashMap<>(label.others());
        others.computeIfPresent(Run.VARIANT, (column, cell) -> spelling("variant", cell));
        String load = LoadWords.isLight(label.load()) ? LoadWords.NONE : spelling("load", label.load());
        return new CaptureLabel(
                spelling("circuit", label.circuit()), spelling("setting", label.setting()), load, label.note(), others);
    }

    private String spelling(String column, String words) {
        return first.computeIfAbsent(column + ":" + LoadWords.key(words), key -> words);
    }
}
