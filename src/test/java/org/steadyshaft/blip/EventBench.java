package org.steadyshaft.blip;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.PrintStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.steadyshaft.analysis.KeptCycles;
import org.steadyshaft.capture.ReadOptions;
import org.steadyshaft.capture.Recordings;
import org.steadyshaft.signal.Tachometer;
import org.steadyshaft.voltage.LocalModel;
import org.steadyshaft.voltage.RoughAngle;

/**
 * Prints what events are found in recordings, and scores them where a truth file stands beside: run by hand. Arguments: pole pairs, mains
 * frequency, files.
 */
final class EventBench {
    private static final double MATCH_SECONDS = 0.06;
    private static final PrintStream OUT = System.out;

    private EventBench() {}

    public static void main(String[] arguments) throws IOException {
        int want = 0;
        int hits = 0;
        int invented = 0;
        for (int i = 2; i < arguments.length; i++) {
            int[] scored =
                    score(Path.of(arguments[i]), Integer.parseInt(arguments[0]), Double.parseDouble(arguments[1]));
            want += scored[0];
            hits += scored[1];
            invented += scored[2];
        }
        OUT.printf("found %d of %d, invented %d%n", hits, want, invented);
    }

    private static int[] score(Path file, int polePairs, double mainsHz) throws IOException {
        Optional<KeptCycles> kept =
                KeptCycles.of(Recordings.open(file, file.getFileName().toString(), ReadOptions.NONE), mainsHz);
        if (kept.isEmpty()) {
            OUT.println(file.getFileName() + ": nothing turns");
            return new int[3];
        }
        for (int warm = 0; warm < Integer.getInteger("repeat", 0); warm++) {
            RoughAngle angle = RoughAngle.of(kept.get().cycles(), new Tachometer(polePairs));
            new EventFinder(LocalModel.learn(kept.get().waveform(), angle, mainsHz)
                            .orElseThrow())
                    .find();
        }
        long start = System.nanoTime();
        RoughAngle rough = RoughAngle.of(kept.get().cycles(), new Tachometer(polePairs));
        Optional<LocalModel> model = LocalModel.learn(kept.get().waveform(), rough, mainsHz);
        if (model.isEmpty()) {
            OUT.println(file.getFileName() + ": no model");
            return new int[3];
        }
        long learnt = System.nanoTime();
        ShaftEvents events = new EventFinder(model.get()).find();
        long done = System.nanoTime();
        OUT.printf(
                Locale.ROOT,
                "%s: %.1f s, tacho %.1f Hz (%.0f a period, clean to %.1f), from %.2f %% on; learn %.0f ms, events %.0f ms; %d blips, %d faults%n",
                file.getFileName(),
                kept.get().waveform().durationSeconds(),
                kept.get().cycleHz(),
                kept.get().waveform().rateHz() / kept.get().cycleHz(),
                kept.get().waveform().cleanHz() / kept.get().cycleHz(),
                events.smallestPercent(),
                (learnt - start) / 1e6,
                (done - learnt) / 1e6,
                events.kinks().size(),
                events.faults().size());
        return against(file, events);
    }

    private static int[] against(Path file, ShaftEvents events) throws IOException {
        List<double[]> truth = truth(file);
        List<Kink> rest = new ArrayList<>(events.kinks());
        int hits = 0;
        for (double[] one : truth) {
            Kink best = null;
            for (Kink k : rest) {
                boolean near = Math.abs(k.startSeconds() - one[0]) < MATCH_SECONDS;
                if (near
                        && (best == null
                                || Math.abs(k.startSeconds() - one[0]) < Math.abs(best.startSeconds() - one[0]))) {
                    best = k;
                }
            }
            if (best == null) {
                OUT.printf(Locale.ROOT, "   lost  %9.3f s %+6.2f %%%n", one[0], one[1]);
            } else {
                hits++;
                rest.remove(best);
                if (Math.abs(best.percent() / one[1] - 1) > 0.1) {
                    OUT.printf(
                            Locale.ROOT,
                            "   size  %9.3f s %+6.2f %% for %+6.2f %% (%s)%n",
                            one[0],
                            best.percent(),
                            one[1],
                            best);
                }
            }
        }
        rest.forEach(k -> OUT.printf(
                Locale.ROOT,
                "   extra %9.3f s %+6.2f %% rise %.0f ms return %.2f s%n",
                k.startSeconds(),
                k.percent(),
                1e3 * k.riseSeconds(),
                k.returnSeconds()));
        events.faults()
                .forEach(f -> OUT.printf(
                        Locale.ROOT,
                        "   fault %9.3f..%.3f s %s %.3f%n",
                        f.where().fromSeconds(),
                        f.where().toSeconds(),
                        f.kind(),
                        f.amount()));
        return new int[] {truth.size(), hits, rest.size()};
    }

    /** Start and size of true blips of half a per cent and more, from the simulator's truth file. */
    private static List<double[]> truth(Path file) throws IOException {
        Path beside = file.resolveSibling(file.getFileName().toString().replaceAll("\\.[a-z]+$", ".truth.json"));
        List<double[]> all = new ArrayList<>();
        if (Files.exists(beside)) {
            JsonNode tree = new ObjectMapper().readTree(beside.toFile());
            for (JsonNode d : tree.get("disturbances")) {
                String kind = d.path("kind").asText();
                double percent = d.path("peakPercent").asDouble(0);
                if ((kind.equals("extra conduction") || kind.equals("missed firing")) && Math.abs(percent) >= 0.5) {
                    all.add(new double[] {d.get("timeS").asDouble(), percent});
                }
            }
        }
        return all;
    }
}
