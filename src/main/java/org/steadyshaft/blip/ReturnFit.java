package org.steadyshaft.blip;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.DoubleStream;
import org.steadyshaft.numeric.OrthogonalFit;

/**
 * Looks at kinks over seconds where the waveform saw a tenth of one: how they return, whether they do at all, and whether one slow
 * change says as much as they do. What does not come back is a step, what begins slowly a load: neither is a blip. Overlapping tails are
 * fitted one beside the other: each in what the others leave.
 */
final class ReturnFit {
    /** A kink below this share of a neighbour so near is the rest of that neighbour's own shape. */
    private static final double LEAST_SHARE = 0.25;

    /** The same for one that goes back: a return that is faster at first than an exponential takes up to half of its blip off early. */
    private static final double LEAST_SHARE_BACK = 0.5;

    private static final double NEIGHBOUR_SECONDS = 0.15;
    private static final double BEFORE_SECONDS = 0.3;
    private static final double LEAST_AFTER_SECONDS = 0.35;
    private static final double MOST_AFTER_SECONDS = 2.4;
    private static final double NEXT_SECONDS = 0.02;
    private static final double SHORTEST_RETURN = 0.02;
    private static final double LONGEST_RETURN = 16;
    private static final double RETURN_STEP = 1.25;
    private static final double[] RETURNS = DoubleStream.iterate(
                    SHORTEST_RETURN, r -> r < LONGEST_RETURN, r -> r * RETURN_STEP)
            .toArray();

    /**
     * One return for all may leave so much of what separate ones leave: the drive's wander bends each of them by that. A return of half or twice
     * the right one leaves ten times as much and more.
     */
    private static final double HARDLY_MORE = 3;

    /** A shaft with inertia takes 20 ms and more; what ends at the fit's lower bound is none. */
    private static final double TOO_SHORT_RETURN = 0.0165;

    /** A firing too many or too few lasts up to four half-cycles of the mains; what ends near the fit's upper bound began slowly. */
    private static final double TOO_LONG_RISE = 0.048;

    /** What takes so long to come back, the bound of the fit in the waveform, is no blip by definition. */
    private static final double LONGEST_BLIP_RETURN = 3;

    /** A firing too many throws a wheel by less than this [%] (simulated and measured: up to a quarter without a flywheel), within so long. */
    private static final double MOST_OF_ONE_FIRING = 30;

    private static final double ONE_FIRING_SECONDS = 0.03;

    /** A return near the longest that is tried is none. */
    private static final double NO_RETURN = 0.85;

    /** Returns shorter than this the waveform tells better. */
    private static final double LONG_RETURN = 0.12;

    /** So much of a kink must have come back over the time it was watched, if that was long enough to tell. */
    private static final double LEAST_RETURNED = 0.4;

    private static final double WATCHED_SECONDS = 1;

    /** A ringing that the waveform's window gives is tried scaled over the seconds behind. */
    private static final double[] RINGING_SCALES =
            DoubleStream.iterate(0.7, s -> s < 1.42, s -> s * 1.03).toArray();

    /** It rings if that leaves less than this share of what an exponential return leaves over the seconds behind: a wander bends both. */
    private static final double RINGS = 0.4;

    /**
     * It began slowly if the best slow onset leaves less than this share of what the best sudden one leaves. Over the simulated and made blips, grips,
     * sags, steps and run-ups that were looked at the ratio was 0.97 and more for blips down to 0.5 %, 0.59 and less for the others: the middle between.
     */
    private static final double SLOW_SHARE = 0.76;

    /** More sudden kinks than this in one row must explain more than one slow change does. */
    private static final int FEW = 2;

    /** More kinks in one row are no blips but a speed that went elsewhere. */
    private static final int MOST_IN_A_ROW = 4;

    /**
     * A size fitted over seconds must agree with the waveform's own so far, else the level moved meanwhile. It only confirms the return: a
     * slow swing bends it, and the size stays that of the waveform's tenth of a second.
     */
    private static final double AGREES = 0.2;

    /** An onset is compared over this time before and somewhat more after it, or so many cells. */
    private static final double ONSET_SECONDS = 0.22;

    private static final double ONSET_CELLS = 6;

    private static final double[] FAST_RISES = {0.005, 0.01, 0.018, 0.028, 0.042};
    private static final double[] SLOW_RISES = {0.08, 0.12, 0.18, 0.27, 0.4, 0.6, 0.9};
    private static final double[] SLOW_RETURNS = {0.05, 0.12, 0.3, 1, 1e6};

    private final AngleGrid grid;
    private final double[] angle;
    private final double percentAngle;
    private final double cellSeconds;
    private final Set<Kink> surelySudden;

    /**
     * @param angle the grid's angle, steady lines and jumps of the phase taken out
     * @param surelySudden kinks that are not asked whether a slow change says as much: a swing beside them bends the answer
     */
    ReturnFit(AngleGrid grid, double[] angle, double percentAngle, double cellSeconds, Set<Kink> surelySudden) {
        this.surelySudden = Set.copyOf(surelySudden);
        this.grid = grid;
        this.angle = angle;
        this.percentAngle = percentAngle;
        this.cellSeconds = cellSeconds;
    }

    /** The kinks that are blips, their returns and sizes fitted again; in per cent of the piece's mean speed. */
    List<Kink> blips(List<Kink> found) {
        List<Kink> kinks = new ArrayList<>(withoutSatellites(found));
        kinks.sort(Comparator.comparingDouble(Kink::startSeconds));
        kinks = sudden(kinks);
        for (int sweep = 0; sweep < 2; sweep++) {
            refit(kinks);
        }
        List<Kink> blips = new ArrayList<>();
        for (int i = 0; i < kinks.size(); i++) {
            Kink k = kinks.get(i);
            double watched = after(kinks, i, MOST_AFTER_SECONDS);
            if (k.returnSeconds() < TOO_SHORT_RETURN
                    || k.riseSeconds() > TOO_LONG_RISE
                    || isRestOfNeighbour(kinks, i)) {
                continue;
            }
            boolean returns = watched < WATCHED_SECONDS || -Math.expm1(-watched / k.returnSeconds()) >= LEAST_RETURNED;
            if (returns || isOfOneFiring(k)) {
                blips.add(k);
            }
        }
        return blips;
    }

    /**
     * Whether it comes within a half-cycle or two of the mains and begins to return: no knob, no load and no loop throws a wheel with its inertia so
     * fast. Without a loop it may take ten seconds and more to come back, since such a drive hardly pulls it.
     */
    private static boolean isOfOneFiring(Kink kink) {
        return kink.riseSeconds() < ONE_FIRING_SECONDS
                && Math.abs(kink.percent()) < MOST_OF_ONE_FIRING
                && kink.returnSeconds() < NO_RETURN * LONGEST_RETURN;
    }

    /** Whether it only bends the return of a larger opposite kink just before: it does not come back by itself. */
    private static boolean isRestOfNeighbour(List<Kink> kinks, int i) {
        Kink k = kinks.get(i);
        if (i == 0 || k.returnSeconds() < LONGEST_BLIP_RETURN) {
            return false;
        }
        Kink before = kinks.get(i - 1);
        return k.startSeconds() - before.startSeconds() < NEIGHBOUR_SECONDS
                && k.percent() * before.percent() < 0
                && Math.abs(k.percent()) < Math.abs(before.percent());
    }

    private static List<Kink> withoutSatellites(List<Kink> found) {
        return found.stream()
                .filter(k -> found.stream()
                        .noneMatch(o -> Math.abs(o.startSeconds() - k.startSeconds()) < NEIGHBOUR_SECONDS
                                && Math.abs(k.percent()) < share(k, o) * Math.abs(o.percent())))
                .toList();
    }

    private static double share(Kink k, Kink other) {
        boolean turnsBack = k.percent() * other.percent() < 0 && k.startSeconds() > other.startSeconds();
        return turnsBack ? LEAST_SHARE_BACK : LEAST_SHARE;
    }

    /** How long a kink can be watched before the next one, or the end [s]. */
    private double after(List<Kink> kinks, int i, double most) {
        double start = kinks.get(i).startSeconds();
        double end = grid.timeSeconds(grid.size() - 1);
        double next = i + 1 < kinks.size() ? kinks.get(i + 1).startSeconds() - NEXT_SECONDS : end;
        return Math.max(0.01, Math.min(most, Math.min(next, end) - start));
    }

    /** What each return time leaves of a group of kinks, and the share of their size it asks for; beside a level that follows as a parabola. */
    private static final class Returns {
        private final double[] left = new double[RETURNS.length];
        private final double[] size = new double[RETURNS.length];

        int best() {
            int best = 0;
            for (int i = 1; i < left.length; i++) {
                best = left[i] < left[best] ? i : best;
            }
            return best;
        }
    }

    /** Kinks so near to each other that only the last can be watched: they return alike. */
    private record Group(int first, int end) {}

    private static List<Group> groups(List<Kink> kinks) {
        List<Group> groups = new ArrayList<>();
        int first = 0;
        for (int i = 1; i <= kinks.size(); i++) {
            boolean alone = i == kinks.size()
                    || kinks.get(i).startSeconds() - kinks.get(i - 1).startSeconds() > LONG_RETURN + NEXT_SECONDS;
            if (alone) {
                groups.add(new Group(first, i));
                first = i;
            }
        }
        return groups;
    }

    /** The return that the seconds after a group show; empty where they do not tell it or speak of another size than the waveform. */
    private Optional<Returns> told(List<Kink> kinks, Group group) {
        Kink first = kinks.get(group.first);
        Kink last = kinks.get(group.end - 1);
        double wanted = Math.max(LEAST_AFTER_SECONDS, 3 * last.returnSeconds());
        double after = after(kinks, group.end - 1, Math.min(MOST_AFTER_SECONDS, wanted));
        if (after < LONG_RETURN) {
            scaleRinging(kinks, group, 0);
            return Optional.empty();
        }
        double[] rest = without(kinks, group.first, group.end);
        int from = grid.nearest(first.startSeconds() - BEFORE_SECONDS);
        int to = grid.nearest(last.startSeconds() + after);
        OrthogonalFit level = level(rest, from, to, 2);
        List<Kink> members = List.copyOf(kinks.subList(group.first, group.end));
        Returns told = returns(members, 0, level, from, to);
        double scale = 0;
        if (first.ringing() > 0) {
            double least = RINGS * told.left[told.best()];
            for (double other : RINGING_SCALES) {
                Returns next = returns(members, other, level, from, to);
                if (next.left[next.best()] < least) {
                    least = next.left[next.best()];
                    told = next;
                    scale = other;
                }
            }
        }
        scaleRinging(kinks, group, scale);
        int best = told.best();
        if (scale == 0 && first.ringing() > 0) {
            // the return that went with a ringing that is none says nothing
            set(kinks, group, RETURNS[best]);
        }
        boolean agrees = Math.abs(told.size[best] - 1) < AGREES;
        return RETURNS[best] > LONG_RETURN && agrees ? Optional.of(told) : Optional.empty();
    }

    private static void scaleRinging(List<Kink> kinks, Group group, double scale) {
        for (int i = group.first; i < group.end; i++) {
            Kink k = kinks.get(i);
            kinks.set(i, k.returning(k.returnSeconds(), scale * k.ringing()));
        }
    }

    /** What each return time leaves, the ringing scaled by a factor. */
    private Returns returns(List<Kink> group, double scale, OrthogonalFit level, int from, int to) {
        Returns returns = new Returns();
        for (int r = 0; r < RETURNS.length; r++) {
            double[] column = new double[to - from + 1];
            for (Kink k : group) {
                double[] unit = bend(from, to, k.returning(RETURNS[r], scale * k.ringing()));
                for (int i = 0; i < column.length; i++) {
                    column[i] += k.percent() * unit[i];
                }
            }
            level.clear(column);
            returns.left[r] = level.energy() - level.gain(column);
            returns.size[r] = level.share(column) / OrthogonalFit.dot(column, column);
        }
        return returns;
    }

    /** Sets the returns that are told one by one, then one for all where that leaves hardly more: it is one shaft with one load. */
    private void refit(List<Kink> kinks) {
        List<Returns> all = new ArrayList<>();
        List<Group> of = new ArrayList<>();
        for (Group group : groups(kinks)) {
            Optional<Returns> returns = told(kinks, group);
            if (returns.isPresent()) {
                set(kinks, group, RETURNS[returns.get().best()]);
                all.add(returns.get());
                of.add(group);
            }
        }
        if (all.size() < 2) {
            return;
        }
        double separate = 0;
        Returns sum = new Returns();
        for (Returns returns : all) {
            separate += returns.left[returns.best()];
            for (int r = 0; r < RETURNS.length; r++) {
                sum.left[r] += returns.left[r];
            }
        }
        int common = sum.best();
        if (sum.left[common] < HARDLY_MORE * separate) {
            of.forEach(group -> set(kinks, group, between(sum.left, common)));
        }
    }

    private static void set(List<Kink> kinks, Group group, double returnSeconds) {
        for (int i = group.first; i < group.end; i++) {
            Kink k = kinks.get(i);
            kinks.set(i, k.returning(returnSeconds, k.ringing()));
        }
    }

    /** The return at the vertex of the parabola through three neighbours, in its logarithm. */
    private static double between(double[] left, int best) {
        if (best == 0 || best == left.length - 1) {
            return RETURNS[best];
        }
        double bend = left[best - 1] - 2 * left[best] + left[best + 1];
        double shift = bend > 0 ? 0.5 * (left[best - 1] - left[best + 1]) / bend : 0;
        return RETURNS[best] * Math.pow(RETURN_STEP, shift);
    }

    /** The angle without all kinks but those from one to before another. */
    private double[] without(List<Kink> kinks, int first, int end) {
        double[] rest = angle.clone();
        for (int j = 0; j < kinks.size(); j++) {
            if (j < first || j >= end) {
                Kink k = kinks.get(j);
                for (int i = 0; i < rest.length; i++) {
                    rest[i] -= percentAngle * k.percent() * k.bendAt(grid.timeSeconds(i));
                }
            }
        }
        return rest;
    }

    private OrthogonalFit level(double[] rest, int from, int to, int degree) {
        double[] target = new double[to - from + 1];
        double line = (rest[to] - rest[from]) / Math.max(1, to - from);
        for (int i = 0; i < target.length; i++) {
            target[i] = rest[from + i] - rest[from] - line * i;
        }
        OrthogonalFit fit = new OrthogonalFit(target);
        for (int power = 0; power <= degree; power++) {
            double[] column = new double[target.length];
            for (int i = 0; i < column.length; i++) {
                column[i] = Math.pow((i - 0.5 * column.length) / column.length, power);
            }
            fit.add(column);
        }
        return fit;
    }

    /** The angle that a kink of one per cent adds. */
    private double[] bend(int from, int to, Kink kink) {
        double[] column = new double[to - from + 1];
        for (int i = 0; i < column.length; i++) {
            column[i] = percentAngle * kink.bendAt(grid.timeSeconds(from + i));
        }
        return column;
    }

    /** Leaves out groups of kinks that one slow change explains as well. */
    private List<Kink> sudden(List<Kink> kinks) {
        List<Kink> kept = new ArrayList<>();
        int i = 0;
        while (i < kinks.size()) {
            int end = i + 1;
            while (end < kinks.size()
                    && kinks.get(end).startSeconds() - kinks.get(end - 1).startSeconds() < NEIGHBOUR_SECONDS) {
                end++;
            }
            boolean isSudden = surelySudden.containsAll(kinks.subList(i, end));
            if (end - i <= MOST_IN_A_ROW && (isSudden || !isSlow(kinks, i, end))) {
                kept.addAll(kinks.subList(i, end));
            }
            i = end;
        }
        return kept;
    }

    private boolean isSlow(List<Kink> kinks, int first, int end) {
        double start = kinks.get(first).startSeconds();
        double last = kinks.get(end - 1).startSeconds();
        double[] rest = without(kinks, first, end);
        double before = Math.max(ONSET_SECONDS, ONSET_CELLS * cellSeconds);
        int from = grid.nearest(start - before);
        int to = grid.nearest(last + Math.min(1.4 * before, Math.max(0.1, after(kinks, end - 1, 1.4 * before))));
        double fastLeft = fast(rest, from, to, kinks.subList(first, end));
        if (end == first + 1) {
            fastLeft = Math.min(fastLeft, least(rest, from, to, FAST_RISES, start - 0.012, start + 0.012));
        }
        double slowLeft = least(rest, from, to, SLOW_RISES, start - SLOW_RISES[0], last + NEIGHBOUR_SECONDS);
        return slowLeft < (end - first > FEW ? 1 : SLOW_SHARE) * fastLeft;
    }

    /**
     * What sudden kinks leave beside the same level, each with the return that suits: the waveform's window may have ended too soon after
     * one to tell how it comes back. Without a ringing: with one, the corner of a run-up would look sudden.
     */
    private double fast(double[] rest, int from, int to, List<Kink> kinks) {
        double[] backs = kinks.stream().mapToDouble(Kink::returnSeconds).toArray();
        double least = left(rest, from, to, kinks, backs);
        for (int j = kinks.size() - 1; j >= 0 && kinks.size() > 1; j--) {
            for (double back : SLOW_RETURNS) {
                double before = backs[j];
                backs[j] = back;
                double left = left(rest, from, to, kinks, backs);
                if (left < least) {
                    least = left;
                } else {
                    backs[j] = before;
                }
            }
        }
        return least;
    }

    private double left(double[] rest, int from, int to, List<Kink> kinks, double[] backs) {
        OrthogonalFit fit = level(rest, from, to, 3);
        for (int j = 0; j < backs.length; j++) {
            Kink k = kinks.get(j);
            fit.add(bend(from, to, k.returning(backs[j], 0)));
        }
        return fit.energy();
    }

    /** What the best kink of the given rises leaves beside a level that follows as a cubic of the angle. */
    private double least(double[] rest, int from, int to, double[] rises, double earliest, double latest) {
        OrthogonalFit fit = level(rest, from, to, 3);
        double most = 0;
        for (double rise : rises) {
            double step = Math.max(0.003, rise / 8);
            for (double at = earliest - Math.max(0, rise - rises[0]); at <= latest; at += step) {
                for (double back : SLOW_RETURNS) {
                    double[] column = bend(from, to, new Kink(at, 1, rise, back));
                    fit.clear(column);
                    most = Math.max(most, fit.gain(column));
                }
            }
        }
        return fit.energy() - most;
    }
}
