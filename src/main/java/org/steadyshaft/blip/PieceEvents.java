package org.steadyshaft.blip;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.DoubleStream;
import org.apache.commons.statistics.distribution.NormalDistribution;
import org.steadyshaft.numeric.Robust;
import org.steadyshaft.voltage.HumTrack;
import org.steadyshaft.voltage.LocalModel;
import org.steadyshaft.voltage.LocalSeries;
import org.steadyshaft.voltage.SeriesCubic;
import org.steadyshaft.voltage.Smoothing;
import org.steadyshaft.voltage.VoltagePiece;

/**
 * The events of one piece: candidates from the angle series, judged in the waveform; what is explained is taken out and the search
 * repeated; then all once more with the hum fitted beside what was found.
 */
final class PieceEvents {
    /** A false candidate by normal noise in so many hours; the drive's own wander is allowed for by the spread of the ratio. */
    private static final double HOURS_A_FALSE_CANDIDATE = 1000;

    /** Independent looks a second: every rise, three shapes that differ. */
    private static final double LOOKS_A_SECOND = 3 / 0.008;

    /** Nothing smaller is looked for: well below what a hand on the wheel can feel (our own). */
    static final double LEAST_PERCENT = 0.25;

    static final double SIGMAS = NormalDistribution.of(0, 1)
            .inverseSurvivalProbability(0.5 / (HOURS_A_FALSE_CANDIDATE * 3600 * LOOKS_A_SECOND));

    private static final int MOST_ROUNDS = 8;
    private static final double APART_SECONDS = 0.3;
    private static final double SHUT_SECONDS = 0.06;
    private static final double SLOW_SECONDS = 0.3;
    private static final double LEVEL_BASE_SECONDS = 0.4;

    /** A kink within so short a time of a level below this share of the usual, or above its inverse, is made by the contact. */
    private static final double CONTACT_SECONDS = 0.12;

    private static final double CONTACT_LEVEL = 0.88;

    /** Beside a small kink less speaks for the contact: the speed itself moves the level by two per cent at most. */
    private static final double SMALL_CONTACT_LEVEL = 0.95;

    /** A smaller kink beside a residual of so many times the usual is part of what made that: a click, a contact. */
    private static final double SMALL_PERCENT = 1;

    /** One that rises so slowly has the shape of anything that bends the angle. */
    private static final double SMALL_SLOW_PERCENT = 2;

    private static final double SLOW_RISE_SECONDS = 0.03;

    private static final double CLICK = 6;

    /** A block of hum and the angle beside it reach so far to either side of its middle. */
    private static final double HUM_BLOCK_SECONDS = 0.7;

    /** A step of the pick-up by this share of the tacho bends the angle by a per cent and more (our own figure). */
    static final double LARGE_HUM = 0.08;

    /** A kink of less than this share of another within the same window is the rest of the other's shape. Our own figures. */
    private static final double TRACE_SHARE = 0.08;

    /** So is a small jump of the phase beside a kink of this size. */
    private static final double LARGE_PERCENT = 3;

    /** Less than this share of the smallest blip that would have been found is none. */
    private static final double OF_SMALLEST = 0.7;

    /** A jump of the phase so near to a kink is the rest of the kink's own shape. */
    private static final double BESIDE_KINK_SECONDS = 0.05;

    /** So much of the tacho's cycle may be cut off a corner [rad]: what a pick-up of a quarter sways is less. Our own figure. */
    private static final double CORNER_RAD = 0.3;

    private static final int MOST_CANDIDATES_A_ROUND = 400;

    /** The window before a change, and the one behind it, need so much of the piece at least. */
    private static final double BEGIN_SECONDS = 0.05;

    /** The angle begins as the crossings have it: in the first cells it is not followed well enough to tell a jump from a ramp. */
    private static final double BEGIN_CELLS = 5;

    private static final double END_SECONDS = 0.12;

    private final LocalModel model;
    private final VoltagePiece piece;
    private double percentAngle;
    private double beforeSeconds;
    private double afterSeconds;
    private AngleGrid grid;
    private SpeedLines lines;
    private Known known;

    /** Mean square of the residual at every place, the less of both looks: what either explains is no noise. */
    private double[] power = new double[0];

    private double smallestPercent = LEAST_PERCENT;
    private final List<Kink> found = new ArrayList<>();
    private final Set<Kink> surelySudden = new HashSet<>();
    private final List<Jump> jumps = new ArrayList<>();
    private final TreeSet<Double> openSeconds = new TreeSet<>();

    /** A jump of the phase alone. */
    record Jump(double atSeconds, double angle) {}

    PieceEvents(LocalModel model, VoltagePiece piece) {
        this.model = model;
        this.piece = piece;
    }

    /** Finds what there is; kinks in per cent of the speed just before them. */
    List<Kink> find() {
        search();
        power = piece.series().powers();
        double[] open = openEnds();
        if (!found.isEmpty() || !jumps.isEmpty() || open.length > 0) {
            noteOpen();
            List<Jump> firstJumps = List.copyOf(jumps);
            lookAgain();
            search();
            for (Jump jump : firstJumps) {
                if (jumps.stream().noneMatch(j -> Math.abs(j.atSeconds - jump.atSeconds) < 0.05)) {
                    jumps.add(jump);
                }
            }
        }
        double[] second = piece.series().powers();
        for (int k = 0; k < power.length; k++) {
            power[k] = Math.min(power[k], second[k]);
        }
        noteOpen();
        double[] base = found.isEmpty()
                ? new double[0]
                : Robust.runningMedian(piece.series().levels(), piece.halfWidth(LEVEL_BASE_SECONDS));
        found.removeIf(k -> isBesideOpen(k.startSeconds())
                || isBesideContact(k.startSeconds(), base, isSmall(k) ? SMALL_CONTACT_LEVEL : CONTACT_LEVEL));
        found.removeIf(k -> isBesideHumStep(k.startSeconds()));
        double usual = Robust.median(power);
        found.removeIf(k -> isSmall(k) && isBesideClick(k.startSeconds(), usual));
        double beside = Math.max(BESIDE_KINK_SECONDS, piece.cellSeconds());
        jumps.removeIf(j -> found.stream().anyMatch(k -> isTrace(j, k, beside)));
        List<Kink> blips =
                new ReturnFit(grid, angleOfEvents(), percentAngle, piece.cellSeconds(), surelySudden).blips(found);
        double least = Math.max(LEAST_PERCENT, OF_SMALLEST * smallestPercent);
        return blips.stream()
                .filter(k -> blips.stream().noneMatch(large -> isTrace(k, large)))
                .map(this::ofSpeedBefore)
                .filter(k -> Math.abs(k.percent()) > least)
                .sorted(Comparator.comparingDouble(Kink::startSeconds))
                .toList();
    }

    /** Whether a jump of the phase is what the shape of a kink leaves: right beside it, or a small one within its window. */
    private boolean isTrace(Jump jump, Kink kink, double besideSeconds) {
        double away = Math.abs(kink.startSeconds() - jump.atSeconds);
        boolean isSmall = Math.abs(jump.angle) * piece.polePairs() < EventJudge.CLEAR_JUMP
                && Math.abs(kink.percent()) > LARGE_PERCENT;
        return away < (isSmall ? beforeSeconds + afterSeconds : besideSeconds);
    }

    /** Whether a kink is what the shape of a far larger one leaves within its window: no blip is quite of our shape. */
    private boolean isTrace(Kink kink, Kink large) {
        return Math.abs(kink.percent()) < TRACE_SHARE * Math.abs(large.percent())
                && Math.abs(kink.startSeconds() - large.startSeconds()) < beforeSeconds + afterSeconds;
    }

    List<Jump> jumps() {
        return List.copyOf(jumps);
    }

    /** What the recording did. */
    List<RecorderFault> faults() {
        return new FaultFinder(piece, power, found, tachoSize(), model.mainsHz()).find(jumps);
    }

    /** Peak of a sine as large as the tacho at the piece's mean speed, in the unit of the samples. */
    private double tachoSize() {
        return Math.sqrt(2) * model.turn().rms() * piece.meanAngularSpeed();
    }

    double smallestPercent() {
        return smallestPercent;
    }

    VoltagePiece piece() {
        return piece;
    }

    /** Whether the tacho's level, which the speed hardly changes within so short a time, breaks down or jumps up beside a place. */
    private boolean isBesideContact(double seconds, double[] base, double least) {
        LocalSeries series = piece.series();
        for (int k = 0; k < base.length; k++) {
            double away = series.level(k) / base[k];
            if (Math.abs(series.timeSeconds(k) - seconds) < CONTACT_SECONDS && (away < least || away > 1 / least)) {
                return true;
            }
        }
        return false;
    }

    /**
     * Whether the pick-up is another for good behind a place than before it, by so much that its beat with the tacho bends the angle like a blip
     * until the fitted hum has followed. Compared from blocks that the place itself is not in.
     */
    private boolean isBesideHumStep(double seconds) {
        HumTrack hum = piece.humTrack();
        int before = -1;
        int behind = -1;
        for (int i = 0; i < hum.size(); i++) {
            before = hum.timeSeconds(i) < seconds - HUM_BLOCK_SECONDS ? i : before;
            behind = behind < 0 && hum.timeSeconds(i) > seconds + HUM_BLOCK_SECONDS ? i : behind;
        }
        return before >= 0 && behind > before && hum.change(before, behind) > LARGE_HUM * tachoSize();
    }

    private static boolean isSmall(Kink kink) {
        return Math.abs(kink.percent()) < (kink.riseSeconds() > SLOW_RISE_SECONDS ? SMALL_SLOW_PERCENT : SMALL_PERCENT);
    }

    /** Whether something beside a place is left unexplained that is much more than the usual noise. */
    private boolean isBesideClick(double seconds, double usual) {
        for (int k = 0; k < power.length; k++) {
            if (Math.abs(piece.series().timeSeconds(k) - seconds) < CONTACT_SECONDS && power[k] > CLICK * usual) {
                return true;
            }
        }
        return false;
    }

    /** Remembers where the lead is open by the present fit. */
    private void noteOpen() {
        LocalSeries series = piece.series();
        for (int k = 0; k < series.size(); k++) {
            if (series.level(k) < VoltagePiece.OPEN_LEVEL) {
                openSeconds.add(series.timeSeconds(k));
            }
        }
    }

    private boolean isBesideOpen(double seconds) {
        Double next = openSeconds.ceiling(seconds - SHUT_SECONDS);
        return next != null && next < seconds + SHUT_SECONDS;
    }

    /** Where the lead is closed again after it was open [s]: the turn may stand anywhere then. */
    private double[] openEnds() {
        LocalSeries series = piece.series();
        DoubleStream.Builder ends = DoubleStream.builder();
        for (int k = 1; k < series.size(); k++) {
            if (series.level(k - 1) < VoltagePiece.OPEN_LEVEL && series.level(k) >= VoltagePiece.OPEN_LEVEL) {
                ends.add(series.timeSeconds(k));
            }
        }
        return ends.build().toArray();
    }

    /**
     * The hum once more, with a slow angle and what is known of the speed beside it. Smoothed on the evenly spaced samples: the places of the
     * series stand a little unevenly, which an angle that runs on would turn into a jitter.
     */
    private void lookAgain() {
        double[] rest = piece.followedAngle();
        for (int i = 0; i < rest.length; i++) {
            rest[i] -= known.onSamples[i] + known.jumpOnSamples[i];
        }
        int half = (int) Math.max(1, Math.round(0.5 * model.slowSeconds(piece, SLOW_SECONDS) / piece.stepSeconds()));
        double[] angle = smoothed(rest, half);
        for (int i = 0; i < angle.length; i++) {
            angle[i] += known.onSamples[i] + known.jumpOnSamples[i];
        }
        double[] cuts = DoubleStream.concat(jumps.stream().mapToDouble(Jump::atSeconds), DoubleStream.of(openEnds()))
                .sorted()
                .toArray();
        model.again(piece, angle, cuts);
    }

    /** Where the speed changes fast the mean over so long a time cuts the corner, and is made to follow. */
    private double[] smoothed(double[] rest, int half) {
        double[] plain = Smoothing.overLine(rest, half);
        double[] curved = Smoothing.overCurve(rest, half);
        double most = 0;
        for (int i = 0; i < plain.length; i++) {
            most = Math.max(most, Math.abs(curved[i] - plain[i]));
        }
        return most * piece.polePairs() > CORNER_RAD ? curved : plain;
    }

    private void search() {
        found.clear();
        surelySudden.clear();
        jumps.clear();
        percentAngle = piece.meanAngularSpeed() / 100;
        beforeSeconds = Math.max(0.1, 5 * piece.cellSeconds());
        afterSeconds = Math.max(0.13, 6 * piece.cellSeconds());
        grid = new AngleGrid(piece);
        lines = new SpeedLines(piece, grid, percentAngle);
        known = new Known(piece, grid, lines, percentAngle);
        double[] variance = AngleGrid.localVariance(piece.series());
        EventJudge judge = new EventJudge(
                piece,
                model.turn(),
                model.mainsHz(),
                known,
                levels(),
                variance,
                percentAngle,
                beforeSeconds,
                afterSeconds);
        KinkSearch search = new KinkSearch(grid, beforeSeconds, afterSeconds, percentAngle);
        if (search.endPlace(grid.size()) - search.firstPlace() < 20) {
            return;
        }
        boolean[] shut = shut();
        List<KinkSearch.Spread> spread = null;
        double[] quiet = new double[grid.size()];
        for (int round = 0; round < MOST_ROUNDS; round++) {
            double[][] sizes = search.sizes(rest());
            if (spread == null) {
                spread = search.spread(sizes);
                smallestPercent = smallest(search, sizes);
            }
            double[] ratio = ratios(search, sizes, spread, shut, quiet);
            List<Double> candidates = candidates(ratio);
            if (candidates.isEmpty()) {
                return;
            }
            for (double at : candidates) {
                take(judge.judge(at), at, quiet);
            }
        }
    }

    private double[] rest() {
        int n = grid.size();
        double[] rest = new double[n];
        double slope = (grid.angle[n - 1] - grid.angle[0]) / (n - 1);
        for (int i = 0; i < n; i++) {
            rest[i] = grid.angle[i] - grid.angle[0] - slope * i - known.onGrid[i];
        }
        return rest;
    }

    private double[] levels() {
        LocalSeries series = piece.series();
        double[] times = new double[series.size()];
        for (int k = 0; k < times.length; k++) {
            times[k] = series.timeSeconds(k);
        }
        double[] smooth = Smoothing.hann(series.levels(), 4);
        for (int k = 0; k < smooth.length; k++) {
            smooth[k] = Math.max(0.05, smooth[k]);
        }
        double[] levels = new double[piece.samples()];
        new SeriesCubic(times, smooth, smooth.length).addTo(levels, piece.firstSeconds(), piece.stepSeconds());
        return levels;
    }

    private boolean[] shut() {
        int reach = (int) Math.max(6, Math.round(SHUT_SECONDS / grid.stepSeconds));
        boolean[] shut = new boolean[grid.size()];
        for (int i = 0; i < shut.length; i++) {
            if (grid.shut[i]) {
                java.util.Arrays.fill(shut, Math.max(0, i - reach), Math.min(shut.length, i + reach + 1), true);
            }
        }
        return shut;
    }

    /** Smallest size of the easiest shape that would usually have become a candidate. */
    private static double smallest(KinkSearch search, double[][] sizes) {
        double least = Double.POSITIVE_INFINITY;
        for (int s = 0; s < search.shapes(); s++) {
            double[] size = sizes[s];
            double[] away = new double[search.endPlace(size.length) - search.firstPlace()];
            for (int i = 0; i < away.length; i++) {
                away[i] = Math.abs(size[search.firstPlace() + i]);
            }
            least = Math.min(least, SIGMAS * Robust.median(away) / 0.6745);
        }
        return Math.max(LEAST_PERCENT, least);
    }

    private double[] ratios(
            KinkSearch search, double[][] sizes, List<KinkSearch.Spread> spread, boolean[] shut, double[] quiet) {
        double[] most = new double[grid.size()];
        for (int s = 0; s < search.shapes(); s++) {
            double[] size = sizes[s];
            for (int i = search.firstPlace(); i < search.endPlace(size.length); i++) {
                if (Math.abs(size[i]) > LEAST_PERCENT && !shut[i] && quiet[i] == 0) {
                    most[i] = Math.max(most[i], search.ratio(s, i, size[i], spread.get(s)));
                }
            }
        }
        return most;
    }

    /** Places of the largest ratios, no two of them near each other. */
    private List<Double> candidates(double[] ratio) {
        List<Integer> order = new ArrayList<>();
        for (int i = 1; i + 1 < ratio.length; i++) {
            if (ratio[i] >= SIGMAS && ratio[i] >= ratio[i - 1] && ratio[i] >= ratio[i + 1]) {
                order.add(i);
            }
        }
        order.sort(Comparator.comparingDouble(i -> -ratio[i]));
        List<Double> taken = new ArrayList<>();
        for (int i : order) {
            double t = grid.timeSeconds(i);
            if (taken.size() < MOST_CANDIDATES_A_ROUND
                    && taken.stream().allMatch(o -> Math.abs(o - t) >= APART_SECONDS)) {
                taken.add(t);
            }
        }
        return taken;
    }

    private void take(Judgement judgement, double at, double[] quiet) {
        boolean speed = judgement.cause() == Judgement.Cause.SPEED;
        silence(quiet, at, speed ? 0 : 0.06);
        if (judgement.cause() == Judgement.Cause.DRIVE) {
            // whatever window holds the corner sees it
            silence(quiet, at, Math.max(beforeSeconds, afterSeconds));
        }
        if (judgement.cause() == Judgement.Cause.PHASE
                && !isAtEnd(judgement.atSeconds())
                && judgement.atSeconds() > piece.firstSeconds() + BEGIN_CELLS * piece.cellSeconds()) {
            known.addJump(judgement.atSeconds(), judgement.jump());
            silence(quiet, judgement.atSeconds(), 0.05);
            jumps.add(new Jump(judgement.atSeconds(), judgement.jump()));
        }
        for (Kink kink : judgement.kinks()) {
            double t = kink.startSeconds();
            if (isAtEnd(t)) {
                silence(quiet, t, 0.06);
                continue;
            }
            known.add(kink);
            silence(quiet, t, 0.03);
            found.add(kink);
            if (judgement.isSurelySudden()) {
                surelySudden.add(kink);
            }
        }
    }

    /** So near to the piece's ends nothing can be told. */
    private boolean isAtEnd(double seconds) {
        return seconds < piece.firstSeconds() + BEGIN_SECONDS
                || seconds > piece.timeSeconds(piece.samples() - 1) - END_SECONDS;
    }

    /** The angle on the grid, steady lines and jumps of the phase taken out. */
    private double[] angleOfEvents() {
        double[] angle = new double[grid.size()];
        for (int i = 0; i < angle.length; i++) {
            double t = grid.timeSeconds(i);
            angle[i] = grid.angle[i] - lines.onGrid[i];
            for (Jump jump : jumps) {
                angle[i] -= t > jump.atSeconds ? jump.angle : 0;
            }
        }
        return angle;
    }

    private Kink ofSpeedBefore(Kink kink) {
        double percent = kink.percent() * 100 * percentAngle / speedBefore(kink.startSeconds());
        return kink.withPercent(percent);
    }

    private double speedBefore(double seconds) {
        int to = (int) Math.max(1, Math.round((seconds - 0.01 - piece.firstSeconds()) / piece.stepSeconds()));
        int from = (int) Math.max(0, Math.round((seconds - 0.07 - piece.firstSeconds()) / piece.stepSeconds()));
        return (piece.angle(to) - piece.angle(from)) / (Math.max(1, to - from) * piece.stepSeconds());
    }

    private void silence(double[] quiet, double at, double seconds) {
        int from = grid.nearest(at - seconds);
        int to = grid.nearest(at + seconds);
        for (int i = from; i <= to; i++) {
            quiet[i] = 1;
        }
    }
}
