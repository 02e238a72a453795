package org.steadyshaft.analysis;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.IntStream;

/**
 * Draws recordings of a hard bench from seeds, analyses them and holds what is said against what was drawn, by kind: right, false (a number
 * outside its interval, an invented event or finding, a false alarm) or missed (an honest silence where something could be told). Run by hand;
 * arguments: first seed, cases, kinds (all if none are named). A short form is part of the tests.
 */
final class HardBench {
    private HardBench() {}

    /** What is said of a case. */
    enum Verdict {
        RIGHT,
        FALSE,
        MISSED
    }

    /** A case's verdict with the reason where it is not right. */
    record Result(HardCase.Kind kind, long seed, Verdict verdict, String reason) {}

    public static void main(String[] arguments) {
        long first = arguments.length > 0 ? Long.parseLong(arguments[0]) : 1;
        int cases = arguments.length > 1 ? Integer.parseInt(arguments[1]) : 100;
        List<HardCase.Kind> kinds = new ArrayList<>();
        for (int i = 2; i < arguments.length; i++) {
            kinds.add(HardCase.Kind.valueOf(arguments[i].toUpperCase(Locale.ROOT)));
        }
        List<HardCase.Kind> wanted = kinds.isEmpty() ? List.of(HardCase.Kind.values()) : kinds;
        List<Result> results = IntStream.range(0, cases)
                .mapToObj(i -> result(wanted.get(i % wanted.size()), first + i))
                .toList();
        System.out.print(table(results));
    }

    /** Draws, analyses and judges one case. */
    static Result result(HardCase.Kind kind, long seed) {
        HardCase drawn = HardCase.draw(kind, seed);
        List<String> wrong = new ArrayList<>();
        List<String> missed = new ArrayList<>();
        drawn.judge(Analysed.with(drawn.source(), drawn.polePairs(), drawn.loop()), wrong, missed);
        Verdict verdict = !wrong.isEmpty() ? Verdict.FALSE : missed.isEmpty() ? Verdict.RIGHT : Verdict.MISSED;
        String said = String.join("; ", wrong.isEmpty() ? missed : wrong);
        return new Result(kind, seed, verdict, said.isEmpty() ? "" : said + " [" + drawn.note() + "]");
    }

    /** What is not right line by line, then the counts by kind. */
    static String table(List<Result> results) {
        StringBuilder text = new StringBuilder();
        Map<HardCase.Kind, int[]> counts = new EnumMap<>(HardCase.Kind.class);
        for (Result r : results) {
            counts.computeIfAbsent(r.kind, k -> new int[Verdict.values().length])[r.verdict.ordinal()]++;
            if (r.verdict != Verdict.RIGHT) {
                text.append(String.format(Locale.ROOT, "%-6s %-9s seed %d: %s%n", r.verdict, r.kind, r.seed, r.reason));
            }
        }
        text.append(String.format(Locale.ROOT, "%-9s %5s %5s %6s%n", "kind", "right", "false", "missed"));
        int[] all = new int[Verdict.values().length];
        counts.forEach((kind, n) -> {
            text.append(String.format(Locale.ROOT, "%-9s %5d %5d %6d%n", kind, n[0], n[1], n[2]));
            for (int i = 0; i < all.length; i++) {
                all[i] += n[i];
            }
        });
        text.append(String.format(Locale.ROOT, "%-9s %5d %5d %6d%n", "all", all[0], all[1], all[2]));
        return text.toString();
    }
}
