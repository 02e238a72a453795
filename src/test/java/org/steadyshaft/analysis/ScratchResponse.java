package org.steadyshaft.analysis;

import java.nio.file.Path;
import java.util.*;
import org.steadyshaft.response.*;
import org.steadyshaft.signal.Stretch;

public final class ScratchResponse {
    public static void main(String[] a) throws Exception {
        for (String f : a) {
            try {
                var r = Analysed.rotation(org.steadyshaft.capture.Recordings.open(
                        Path.of(f), f, org.steadyshaft.capture.ReadOptions.NONE));
                List<Stretch> blips = r.blips()
                        .map(b -> b.events().stream()
                                .map(e -> new Stretch(e.fromSeconds(), e.toSeconds()))
                                .toList())
                        .orElse(List.of());
                System.out.println(f + "\n  " + new StepFinder().find(r.track(), r.steady()) + "\n  "
                        + new LoadEventFinder().find(r.track(), r.steady(), blips) + "\n  without blips "
                        + new LoadEventFinder().find(r.track(), r.steady()));
            } catch (Throwable t) {
                System.out.println(f + " " + t);
                if (!(t instanceof AssertionError)) t.printStackTrace(System.out);
            }
        }
    }
}
