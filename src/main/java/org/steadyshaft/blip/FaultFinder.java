package org.steadyshaft.blip;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.function.IntToDoubleFunction;
import java.util.stream.IntStream;
import org.steadyshaft.blip.RecorderFault.Kind;
import org.steadyshaft.numeric.Robust;
import org.steadyshaft.signal.Stretch;
import org.steadyshaft.voltage.HumTrack;
import org.steadyshaft.voltage.LocalSeries;
import org.steadyshaft.voltage.VoltagePiece;

/**
 * What the recording of one piece did: jumps of the phase that the judge found, then steps of level, offset and hum, an open lead, a loose
 * contact and bursts of noise from the local series. Each kind in turn takes its places; later ones look beside them.
 */
final class FaultFinder {
    /** A step must stand so many times above its own noise, and above the usual change of the piece. */
    private static final double CLEAR = 8;

    private static final double LEAST_LEVEL = 0.07;
    /** A level that falls by more of itself is a lead that opened. */
    private static final double GONE = 0.8;

    /** Beside a multiple of the mains, in Hz or as a share of it, pick-up sways the level: a smaller step is a part of that. */
    private static final double BESIDE_HZ = 10;

    private static final double BESIDE_SHARE = 0.07;
    private static final int MAINS_MULTIPLES = 3;
    private static final double LEAST_BESIDE = 0.2;

    private static final double LEAST_OFFSET = 0.05;
    private static final double LEAST_HUM = 0.012;
    private static final double REVERSED_WITHIN = 0.15;
    private static final double CONTACT_LEVEL = 0.6;
    private static final double CONTACT_SECONDS = 0.02;
    private static final double OPEN_SECONDS = 0.02;
    private static final double BASE_SECONDS = 0.2;
    private static final double BURST_SECONDS = 0.012;
    private static final double BURST = 5;
    private static final double OFTEN = 0.8;
    private static final double BURST_OVER_OFTEN = 2.5;

    /** A tacho of less than this share of its level is gone. */
    private static final double SILENT = 0.35;

    private static final int PLACES_A_CELL = 4;

    /** Below this share of the piece's highest speed the shaft crawls. */
    private static final double CRAWLING = 0.25;

    /** Rms of the least burst, as a share of the tacho's peak. */
    private static final double LEAST_BURST = 0.01;

    private static final double LONG_BURST_SECONDS = 0.02;

    /** Steps and bursts are told only where the speed moves less than this in {@link #CALM_SECONDS}. */
    private static final double CALM_SHARE = 0.05;

    private static final double CALM_SECONDS = 0.3;

    /** Where it moves by more than this the angle is not followed well enough to tell a jump, an open lead or a contact. */
    private static final double RAMP_SHARE = 0.5;

    /** A smaller jump needs a calm speed beside it. */
    private static final double SMALL_JUMP_CYCLES = 0.15;

    /** A stretch between two times [s]. */
    private interface Span {
        boolean test(double fromSeconds, double toSeconds);
    }

    private static final double TURN = 2 * Math.PI;

    /** So many places at either end are fitted to less than a whole window: their offset and level are not compared with others. */
    private static final int END_PLACES = 8;

    /** Nor is what a recorder's input does in its first moment a contact. */
    private static final double END_SECONDS = 0.05;

    /** In its first cells a row's angle is as the crossings have it, not followed yet. */
    private static final int BEGIN_CELLS = 5;

    /** What is longer there is an open lead. */
    private static final double OPEN_CELLS = 3;

    /** Beyond the last crossing the angle is drawn on, which is no noise. */
    private static final double END_CELLS = 3;

    /** What a kink leaves beside it is its shape. */
    private static final double BESIDE_KINK_SECONDS = 0.08;

    /** A block of hum, and the slow angle that it is fitted beside, reach so far to either side of its middle. */
    private static final double HALF_BLOCK_SECONDS = 0.5;

    /** Blocks of hum that hold such a kink [%] show it: so far from their middle. */
    private static final double HUM_KINK_PERCENT = 3;

    private static final double HUM_KINK_SECONDS = 0.7;

    private final VoltagePiece piece;
    private final LocalSeries series;
    private final double[] power;
    private final List<Kink> kinks;
    private final double turnSize;
    private final double mainsHz;
    private final double fastest;
    private final List<RecorderFault> faults = new ArrayList<>();

    /**
     * @param power mean square of the residual at every place
     * @param turnSize peak of a sine as large as the tacho at the piece's mean speed, in the unit of the samples
     */
    FaultFinder(VoltagePiece piece, double[] power, List<Kink> kinks, double turnSize, double mainsHz) {
        this.piece = piece;
        this.power = power;
        this.series = piece.series();
        this.kinks = kinks;
        this.turnSize = turnSize;
        this.mainsHz = mainsHz;
        this.fastest = fastest(piece);
    }

    List<RecorderFault> find(List<PieceEvents.Jump> jumps) {
        jumps.stream()
                .filter(j -> moves(j.atSeconds(), j.atSeconds()) < (isSmall(j) ? CALM_SHARE : RAMP_SHARE))
                .forEach(this::addJump);
        double cell = piece.cellSeconds();
        double[] level = series.levels();
        double usual = Robust.median(level);
        double[] base = Robust.runningMedian(level, Math.max(2, (int) (0.5 * BASE_SECONDS / piece.quarterSeconds())));
        add(
                Kind.LEAD_OPEN,
                0.04,
                OPEN_SECONDS,
                60,
                0.04,
                k -> level[k] < VoltagePiece.OPEN_LEVEL && isTurning(k) && isSilent(k) ? 1 : 0,
                (a, b) -> moves(a, b) < RAMP_SHARE
                        && (b - a > OPEN_CELLS * cell || a > series.timeSeconds(0) + BEGIN_CELLS * cell));
        add(
                Kind.CONTACT,
                1.5 * cell,
                0,
                Math.max(CONTACT_SECONDS, 3 * cell),
                0.04,
                k -> isInside(k) && level[k] < CONTACT_LEVEL * base[k] && base[k] > 0.4 * usual ? 1 : 0,
                (a, b) -> moves(a, b) < RAMP_SHARE);
        int reach = (int) Math.max(4, Math.round(2.5 * cell / piece.quarterSeconds()));
        double[] byLevel = edges(k -> level[k] / usual, reach, LEAST_LEVEL);
        addSteps(Kind.LEVEL_STEP, byLevel, 0.04);
        int mainsReach = (int) Math.max(reach, Math.round(1 / mainsHz / piece.quarterSeconds()));
        addSteps(Kind.OFFSET_STEP, edges(k -> series.offset(k) / turnSize, mainsReach, LEAST_OFFSET), 0.02);
        hum();
        bursts();
        faults.sort(Comparator.comparingDouble(f -> f.where().fromSeconds()));
        return List.copyOf(faults);
    }

    /**
     * Whether the tacho is gone at a place, at any phase: where the angle is not followed the level is small and the tacho is there. Its speed
     * is as the reference says, or so.
     */
    private boolean isSilent(int place) {
        int from = sample(series.timeSeconds(Math.max(0, place - PLACES_A_CELL)));
        int to = sample(series.timeSeconds(Math.min(series.size() - 1, place + PLACES_A_CELL)));
        double inPhase = 0;
        double across = 0;
        double inSquare = 0;
        double acrossSquare = 0;
        for (int i = from; i <= to; i++) {
            double a = piece.levelBasis(i);
            double b = piece.angleBasis(i);
            inPhase += piece.volts(i) * a;
            across += piece.volts(i) * b;
            inSquare += a * a;
            acrossSquare += b * b;
        }
        double energy = inPhase * inPhase / Math.max(inSquare, Double.MIN_NORMAL)
                + across * across / Math.max(acrossSquare, Double.MIN_NORMAL);
        return energy < SILENT * SILENT * inSquare;
    }

    /** Highest mean speed of the reference over twentieths of the piece [rad a sample]. */
    private static double fastest(VoltagePiece piece) {
        int parts = 20;
        double most = 0;
        for (int i = 0; i < parts; i++) {
            int a = (int) ((long) i * (piece.samples() - 1) / parts);
            int b = (int) ((long) (i + 1) * (piece.samples() - 1) / parts);
            most = Math.max(most, (piece.angle(b) - piece.angle(a)) / Math.max(1, b - a));
        }
        return most;
    }

    /** Whether the shaft does not crawl at a place: a tacho that fades as its shaft stops has no open lead. */
    private boolean isTurning(int place) {
        int from = sample(series.timeSeconds(place) - CALM_SECONDS);
        int to = sample(series.timeSeconds(place));
        return piece.angle(to) - piece.angle(from) > CRAWLING * fastest * Math.max(1, to - from);
    }

    private boolean isInside(int place) {
        double seconds = series.timeSeconds(place);
        return place >= BEGIN_CELLS * PLACES_A_CELL
                && place < series.size() - END_PLACES
                && seconds > series.timeSeconds(0) + END_SECONDS
                && seconds < series.timeSeconds(series.size() - 1) - END_SECONDS;
    }

    /** Whether a jump is no larger than what the corner of a fast change leaves. */
    private boolean isSmall(PieceEvents.Jump jump) {
        double cycles = jump.angle() * piece.polePairs() / TURN;
        return Math.abs(cycles - Math.rint(cycles)) < SMALL_JUMP_CYCLES;
    }

    private void addJump(PieceEvents.Jump jump) {
        double cycles = jump.angle() * piece.polePairs() / TURN;
        double part = cycles - Math.rint(cycles);
        boolean reversed = Math.abs(Math.abs(part) - 0.5) * TURN < REVERSED_WITHIN;
        Kind kind = reversed ? Kind.REVERSED : part > 0 ? Kind.SAMPLES_LOST : Kind.SAMPLES_DOUBLED;
        faults.add(new RecorderFault(kind, new Stretch(jump.atSeconds(), jump.atSeconds()), part));
    }

    private boolean isFree(double from, double to, double beside) {
        return faults.stream()
                .noneMatch(
                        f -> f.where().fromSeconds() < to + beside && f.where().toSeconds() > from - beside);
    }

    private boolean isCalm(double from, double to) {
        return moves(from, to) < CALM_SHARE;
    }

    /** By how much the speed differs around a stretch, as a share of the highest there. */
    private double moves(double from, double to) {
        int a = sample(from - CALM_SECONDS);
        int b = sample(to + CALM_SECONDS);
        int steps = 8;
        double least = Double.POSITIVE_INFINITY;
        double most = 0;
        for (int i = 0; i < steps; i++) {
            int x = a + (int) ((long) i * (b - a) / steps);
            int y = a + (int) ((long) (i + 1) * (b - a) / steps);
            double speed = (piece.angle(y) - piece.angle(x)) / Math.max(1, y - x);
            least = Math.min(least, speed);
            most = Math.max(most, speed);
        }
        return most > 0 ? (most - least) / most : 1;
    }

    private int sample(double seconds) {
        double place = (seconds - piece.firstSeconds()) / piece.stepSeconds();
        return (int) Math.max(0, Math.min(piece.samples() - 1.0, place));
    }

    /** Adds the runs of places where a function is above 0, joined over short pauses, of a length between two bounds. */
    private void add(
            Kind kind,
            double pause,
            double shortest,
            double longest,
            double beside,
            IntToDoubleFunction inside,
            Span isTold) {
        int from = -1;
        int last = -1;
        for (int k = 0; k <= series.size(); k++) {
            boolean in = k < series.size() && inside.applyAsDouble(k) > 0;
            if (in) {
                from = from < 0 ? k : from;
                last = k;
            } else if (from >= 0 && (k == series.size() || series.timeSeconds(k) - series.timeSeconds(last) > pause)) {
                double a = series.timeSeconds(from);
                double b = series.timeSeconds(last);
                if (b - a >= shortest && b - a <= longest && isFree(a, b, beside) && isTold.test(a, b)) {
                    faults.add(new RecorderFault(kind, new Stretch(a, b), 0));
                }
                from = -1;
            }
        }
    }

    /** Mean over the places after less mean over those before, where that stands clear of noise and of what is usual; else 0. */
    private double[] edges(IntToDoubleFunction value, int n, double least) {
        int count = series.size();
        double[] sum = new double[count + 1];
        double[] variance = new double[count];
        for (int k = 0; k < count; k++) {
            sum[k + 1] = sum[k] + value.applyAsDouble(k);
            variance[k] = series.variance(k) * piece.polePairs() * piece.polePairs();
        }
        double[] noise = Robust.runningMedian(variance, n / 2);
        double[] edge = new double[count];
        for (int k = n + 3 + END_PLACES; k < count - n - 4 - END_PLACES; k++) {
            double q = (sum[k + n + 4] - sum[k + 4] - sum[k - 3] + sum[k - n - 3]) / n;
            double sigma = Math.sqrt((noise[k - n / 2 - 4] + noise[k + n / 2 + 4]) * 4 / n);
            edge[k] = Math.abs(q) > CLEAR * sigma ? q : 0;
        }
        double[] sizes = new double[count];
        for (int k = 0; k < count; k++) {
            sizes[k] = Math.abs(edge[k]);
        }
        double usual = 1.4826 * Robust.median(sizes);
        double limit = Math.max(least, CLEAR * usual);
        for (int k = 0; k < count; k++) {
            edge[k] = Math.abs(edge[k]) > limit ? edge[k] : 0;
        }
        return edge;
    }

    private void addSteps(Kind kind, double[] edge, double beside) {
        int k = 0;
        while (k < edge.length) {
            if (edge[k] == 0) {
                k++;
                continue;
            }
            int end = k;
            int most = k;
            while (end < edge.length && edge[end] != 0) {
                most = Math.abs(edge[end]) > Math.abs(edge[most]) ? end : most;
                end++;
            }
            double a = series.timeSeconds(k);
            double b = series.timeSeconds(end - 1);
            boolean atKink = kinks.stream().anyMatch(q -> a - 0.05 < q.startSeconds() && q.startSeconds() < b + 0.05);
            boolean gone = kind == Kind.LEVEL_STEP && edge[most] < -GONE;
            boolean isSway = kind == Kind.LEVEL_STEP && Math.abs(edge[most]) < LEAST_BESIDE && isBesideMains(a, b);
            boolean isFollowed = !gone || (isTurning(most) && isSilent(end - 1));
            if (isInside(most) && isFree(a, b, beside) && isCalm(a, b) && !atKink && !isSway && isFollowed) {
                double at = series.timeSeconds(most);
                faults.add(new RecorderFault(gone ? Kind.LEAD_OPEN : kind, new Stretch(at, at), edge[most]));
            }
            k = end;
        }
    }

    private boolean isBesideMains(double from, double to) {
        int a = sample(from - CALM_SECONDS);
        int b = sample(to + CALM_SECONDS);
        double radASecond = (piece.angle(b) - piece.angle(a)) / (Math.max(1, b - a) * piece.stepSeconds());
        double hz = radASecond * piece.polePairs() / TURN;
        return IntStream.rangeClosed(1, MAINS_MULTIPLES)
                .anyMatch(m -> Math.abs(hz - m * mainsHz) < Math.max(BESIDE_HZ, BESIDE_SHARE * hz));
    }

    private void hum() {
        HumTrack track = piece.humTrack();
        int n = track.size() - 3;
        if (n < 4) {
            return;
        }
        double[] change = new double[n];
        for (int i = 0; i < n; i++) {
            change[i] = track.change(i, i + 3) / turnSize;
        }
        double limit = Math.max(LEAST_HUM, CLEAR * Robust.median(change));
        int from = -1;
        for (int i = 0; i <= n; i++) {
            boolean in = i < n && change[i] > limit;
            if (in && from < 0) {
                from = i;
            } else if (!in && from >= 0) {
                double middle = 0.5 * (track.timeSeconds(from) + track.timeSeconds(i - 1 + 3));
                boolean isKink = kinks.stream()
                        .anyMatch(k -> Math.abs(k.percent()) > HUM_KINK_PERCENT
                                && Math.abs(k.startSeconds() - middle) < HUM_KINK_SECONDS);
                if (i - from >= 2
                        && !isKink
                        && isFree(middle - 0.3, middle + 0.3, 0)
                        && isCalm(
                                track.timeSeconds(from) - HALF_BLOCK_SECONDS,
                                track.timeSeconds(i + 2) + HALF_BLOCK_SECONDS)) {
                    faults.add(
                            new RecorderFault(Kind.HUM_STEP, new Stretch(middle - 0.25, middle + 0.25), change[i - 1]));
                }
                from = -1;
            }
        }
    }

    /** Several times what is usual and what a fifth of the places exceed, and no less than would be seen beside the tacho. */
    private double burstLimit() {
        double[] sorted = power.clone();
        Arrays.sort(sorted);
        double often = sorted[(int) (OFTEN * (sorted.length - 1))];
        double seen = LEAST_BURST * turnSize;
        return Math.max(seen * seen, Math.max(BURST * sorted[sorted.length / 2], BURST_OVER_OFTEN * often));
    }

    private void bursts() {
        double limit = burstLimit();
        int half = Math.max(1, (int) (0.5 * BURST_SECONDS / piece.quarterSeconds()));
        double[] sum = new double[series.size() + 1];
        for (int k = 0; k < series.size(); k++) {
            sum[k + 1] = sum[k] + power[k];
        }
        double edge = Math.max(END_SECONDS, END_CELLS * piece.cellSeconds());
        double besideKink = Math.max(BESIDE_KINK_SECONDS, piece.cellSeconds());
        double[] high = new double[series.size()];
        for (int k = 0; k < high.length; k++) {
            int a = Math.max(0, k - half);
            int b = Math.min(high.length, k + half + 1);
            double mean = (sum[b] - sum[a]) / (b - a);
            double t = series.timeSeconds(k);
            boolean isEdge = t < series.timeSeconds(0) + edge || t > series.timeSeconds(high.length - 1) - edge;
            high[k] = !isEdge && mean > limit ? 1 : 0;
        }
        for (Kink kink : kinks) {
            for (int k = 0; k < high.length; k++) {
                if (Math.abs(series.timeSeconds(k) - kink.startSeconds()) < besideKink) {
                    high[k] = 0;
                }
            }
        }
        int before = faults.size();
        add(Kind.NOISE_BURST, 0.08, 0, 60, 0.03, k -> high[k], this::isCalm);
        for (int i = faults.size() - 1; i >= before; i--) {
            Stretch where = faults.get(i).where();
            if (where.durationSeconds() < LONG_BURST_SECONDS) {
                faults.set(i, new RecorderFault(Kind.CONTACT, where, 0));
            }
        }
    }
}
