package org.steadyshaft.compare;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.function.ToDoubleFunction;

/** Pairs things of two circuits by speed: the nearest first, each at most once, none further apart than a ratio. */
final class NearestPairs {
    /** Speeds further apart than this are not compared: in per cent the same jump or pulse is larger the slower the shaft turns. */
    static final double MOST_RATIO = 1.15;

    /** One of each circuit. */
    record Pair<T>(T first, T second) {}

    private record Candidate(int first, int second, double ratio) {}

    private NearestPairs() {}

    static <T> List<Pair<T>> of(List<T> firsts, List<T> seconds, ToDoubleFunction<T> rpm) {
        List<Candidate> candidates = new ArrayList<>();
        for (int i = 0; i < firsts.size(); i++) {
            for (int j = 0; j < seconds.size(); j++) {
                double a = rpm.applyAsDouble(firsts.get(i));
                double b = rpm.applyAsDouble(seconds.get(j));
                double ratio = Math.max(a, b) / Math.min(a, b);
                if (ratio <= MOST_RATIO) {
                    candidates.add(new Candidate(i, j, ratio));
                }
            }
        }
        candidates.sort(Comparator.comparingDouble(Candidate::ratio));
        Set<Integer> firstTaken = new HashSet<>();
        Set<Integer> secondTaken = new HashSet<>();
        List<Pair<T>> pairs = new ArrayList<>();
        for (Candidate candidate : candidates) {
            if (!firstTaken.contains(candidate.first) && !secondTaken.contains(candidate.second)) {
                firstTaken.add(candidate.first);
                secondTaken.add(candidate.second);
                pairs.add(new Pair<>(firsts.get(candidate.first), seconds.get(candidate.second)));
            }
        }
        pairs.sort(Comparator.comparingDouble(p -> rpm.applyAsDouble(p.first)));
        return pairs;
    }
}
