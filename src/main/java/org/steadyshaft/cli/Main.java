package org.steadyshaft.cli;

import java.nio.file.*;
import java.util.*;
import org.steadyshaft.capture.*;
import org.steadyshaft.analysis.*;

public final class Main {
    private Main() {}

    public static void main(String[] args) throws Exception {
        for (String a : args) {
            long t0 = System.nanoTime();
            var s = Recordings.open(Path.of(a), a, ReadOptions.NONE);
            var o = new CaptureAnalyser(new AnalysisSettings(8, AnalysisSettings.PolePairsFrom.ASSUMED, 50, Optional.empty())).analyse(s, "", CaptureLabel.NONE);
            System.out.println(a + " " + (System.nanoTime() - t0) / 1000000 + " ms " + o.grade() + " " + o.findings());
            o.rotation().ifPresent(r -> { System.out.println("  " + r.speed()); System.out.println("  " + r.pattern().map(p -> p.pitchDeviationPercent().stream().boxed().toList()) + " steady " + r.steady()); System.out.println("  " + r.ripple()); r.spectrum().lines().forEach(l -> System.out.println("     " + l)); r.blips().ifPresent(b -> { System.out.println("  limit " + b.smallestPercent()); b.events().forEach(e -> System.out.println("     " + e)); }); });
        }
    }
}
