package org.steadyshaft.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.steadyshaft.analysis.CaptureLabel;
import org.steadyshaft.compare.Comparer;
import org.steadyshaft.compare.Comparison;
import org.steadyshaft.compare.LimitsReader;
import org.steadyshaft.compare.MadeRuns;
import org.steadyshaft.compare.Run;

/** A comparison of the pottery's circuits for tests of its page and files. */
final class MadeComparison {
    static final String EVIL = "<script>document.title='broken'</script><b>loop & more</b> \"x\"";

    private MadeComparison() {}

    /** Three circuits, one of them before and after a change, light and loaded at two settings, two runs of each. */
    static Comparison threeCircuits() {
        Random random = MadeRuns.random(11);
        List<Run> runs = new ArrayList<>();
        addRuns(runs, "dc-fed field", "", new MadeRuns(0.3, 0.1, 1, 0.3, 0.05, 0.1), 0.9, random);
        addRuns(runs, "pulses", "before", new MadeRuns(0.5, 0.15, 8, 0.3, 0.05, 0.1), 0.95, random);
        addRuns(runs, "pulses", "after", new MadeRuns(0.45, 0.15, 1, 0.3, 0.05, 0.1), 0.95, random);
        addRuns(runs, EVIL, "", new MadeRuns(1.2, 0.3, 4, 0.3, 0.05, 0.1), 0.99, random);
        return new Comparer(LimitsReader.startingPoints(), false).compare(runs);
    }

    private static void addRuns(
            List<Run> runs, String circuit, String variant, MadeRuns made, double loadedShare, Random random) {
        for (String setting : List.of("slow", "fast")) {
            for (String load : List.of("none", "2 kg clay")) {
                double rpm = (setting.equals("slow") ? 660 : 1700) * (load.equals("none") ? 1 : loadedShare);
                CaptureLabel label = new CaptureLabel(circuit, setting, load, "", Map.of(Run.VARIANT, variant));
                for (int i = 0; i < 2; i++) {
                    runs.add(made.run("capture" + runs.size(), label, rpm, 40 + random.nextInt(40), random));
                }
            }
        }
    }
}
