package org.steadyshaft.blip;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import org.steadyshaft.numeric.ColumnFit;
import org.steadyshaft.numeric.OrthogonalFit;
import org.steadyshaft.voltage.TurnVoltage;
import org.steadyshaft.voltage.VoltagePiece;

/**
 * Asks the waveform around a candidate what happened: the speed jumped and came back, or the level stepped, the offset, the hum, or the
 * phase alone. It is the speed only if that leaves clearly the least.
 */
final class EventJudge {
    /** It is the speed if what it leaves is at most this share of what any other cause leaves, and of what none leaves (our own). */
    private static final double BEST = 0.6;

    private static final double EXPLAINS = 0.4;

    /** And if what it leaves is the noise, within this factor, or next to nothing of the rest: a large blip's shape is not quite ours. */
    private static final double NOISY = 9;

    /** Two kinks have shapes enough to come near to anything: they must come nearer to the noise. */
    private static final double NOISY_PAIR = 4;

    private static final double NEXT_TO_NOTHING = 0.03;

    /** A second kink is tried where one leaves more than so many times the noise and this share of the whole; kept if it leaves clearly less. */
    private static final double SECOND_NOISE = 1.5;

    private static final double SECOND_SHARE = 0.002;
    private static final double SECOND_BETTER = 0.65;

    /**
     * What rises so fast and leaves so little of the rest is sudden, whatever swings beside it. Over made grips, sags, steps and ramps the least was
     * 0.026 (the corner of a straight ramp); blips on hunting leave less than a hundredth.
     */
    private static final double SUDDEN_SHARE = 0.012;

    /** A return that rings has a shape more to come near with: it leaves less, or the noise. The corner of a run-up left 0.011. Our own figure. */
    private static final double SHARE_IF_RINGING = 0.003;

    private static final double SUDDEN_RISE_SECONDS = 0.03;

    /** A kink that is over so fast is nearly a jump of the phase: it must be clearly better still. */
    private static final double SHORT_RETURN_SECONDS = 0.03;

    private static final double BEST_IF_SHORT = 0.3;
    private static final double OFFSET_RETURN_SECONDS = 0.02;

    /** So near to the window's end the size of a kink cannot be told. */
    private static final double END_SECONDS = 0.03;

    private static final double END_CELLS = 2;

    /**
     * Samples lost or doubled leave nothing but noise, within this factor: a small jump of the phase beside anything else is a trace of that.
     * From this size on [rad of the tacho's cycle] a jump is no trace.
     */
    private static final double SPLICE_NOISY = 3;

    static final double CLEAR_JUMP = 0.1;

    /** Places of a hum step need stand no closer: a fifth of a period of the mains. */
    private static final double HUM_PLACES_SECONDS = 0.004;

    /** A jump's place is tried so many times a cell, then between the neighbours of the best by so many parts of that. */
    private static final int COARSE = 4;

    private static final int FINE = 3;

    private final VoltagePiece piece;
    private final TurnVoltage turn;
    private final double mainsHz;
    private final Known known;
    private final double[] levels;
    private final double[] variance;
    private final double noise;
    private final double percentAngle;
    private final double beforeSeconds;
    private final double afterSeconds;
    private final double cell;

    EventJudge(
            VoltagePiece piece,
            TurnVoltage turn,
            double mainsHz,
            Known known,
            double[] levels,
            double[] variance,
            double percentAngle,
            double beforeSeconds,
            double afterSeconds) {
        this.piece = piece;
        this.turn = turn;
        this.mainsHz = mainsHz;
        this.known = known;
        this.levels = levels;
        this.variance = variance;
        this.noise = piece.noisePower();
        this.percentAngle = percentAngle;
        this.beforeSeconds = beforeSeconds;
        this.afterSeconds = afterSeconds;
        this.cell = piece.cellSeconds();
    }

    /** Judges the place; looks again with the kink in the middle if it stands off it. */
    Judgement judge(double seconds) {
        return judge(seconds, Look.FIRST);
    }

    /** The first look, one with the kink in the middle, or one in the middle between two. */
    private enum Look {
        FIRST,
        CENTRED,
        BETWEEN
    }

    private Judgement judge(double seconds, Look look) {
        EventWindow window =
                new EventWindow(piece, turn, mainsHz, known, levels, variance, seconds, beforeSeconds, afterSeconds);
        if (!window.isUsable()) {
            return Judgement.NONE;
        }
        if (new BendExplanation(piece, window, cell).isTooSteep()) {
            return Judgement.of(Judgement.Cause.DRIVE, seconds, 0);
        }
        SpeedExplanation speed = new SpeedExplanation(window, percentAngle, cell);
        List<SpeedExplanation.Start> one = speed.one();
        if (one.isEmpty()) {
            return Judgement.NONE;
        }
        double found = one.get(0).seconds();
        if (look == Look.FIRST && Math.abs(found - seconds) > 1.5 * cell + 0.01) {
            return judge(found, Look.CENTRED);
        }
        double[] flat = window.cubic(window.seriesFit().coefficients());
        EventWindow.Look model = window.new Look(flat);
        OrthogonalFit shared = model.shared();
        double none = EventWindow.left(shared.energy(), window.rows(), shared.columns());
        SpeedExplanation.Found own = speed.best(one, noise);
        if (own.left() > NOISY * noise) {
            SpeedExplanation.Found ringing = speed.ringing(own);
            own = ringing.left() < SECOND_BETTER * own.left() ? ringing : own;
        }
        if (own.left() > Math.max(SECOND_NOISE * noise, SECOND_SHARE * none)) {
            List<SpeedExplanation.Start> two = speed.two();
            if (!two.isEmpty()) {
                SpeedExplanation.Found both = speed.best(two, noise);
                if (both.left() < SECOND_BETTER * own.left() && speed.isPair(both.kinks(), look == Look.BETWEEN)) {
                    if (look != Look.BETWEEN && isAtEnd(window, both.kinks())) {
                        return judge(
                                0.5
                                        * (both.kinks().get(0).startSeconds()
                                                + both.kinks().get(1).startSeconds()),
                                Look.BETWEEN);
                    }
                    own = both;
                }
            }
        }
        return decide(window, model, shared, own, none, seconds);
    }

    private Judgement decide(
            EventWindow window,
            EventWindow.Look look,
            OrthogonalFit shared,
            SpeedExplanation.Found own,
            double none,
            double seconds) {
        double[] places = window.isUsable() ? stepPlaces(window, seconds) : new double[0];
        double[] left = new double[Judgement.Cause.values().length];
        left[Judgement.Cause.LEVEL.ordinal()] = level(window, look, shared, places);
        left[Judgement.Cause.OFFSET.ordinal()] = offset(window, shared, places);
        left[Judgement.Cause.HUM.ordinal()] = hum(window, shared, places);
        Phase phase = phase(window, seconds);
        left[Judgement.Cause.PHASE.ordinal()] = phase.left;
        BendExplanation drive = new BendExplanation(piece, window, cell);
        left[Judgement.Cause.DRIVE.ordinal()] = drive.isAsked() ? drive.left(seconds) : Double.POSITIVE_INFINITY;
        Judgement.Cause cause = Judgement.Cause.LEVEL;
        for (Judgement.Cause other :
                EnumSet.of(Judgement.Cause.OFFSET, Judgement.Cause.HUM, Judgement.Cause.PHASE, Judgement.Cause.DRIVE)) {
            cause = left[other.ordinal()] < left[cause.ordinal()] ? other : cause;
        }
        double least = left[cause.ordinal()];
        boolean isShort = own.kinks().stream().anyMatch(k -> k.returnSeconds() < SHORT_RETURN_SECONDS);
        boolean rings = own.kinks().stream().anyMatch(k -> k.ringing() > 0);
        double rest = Math.min(least, none);
        if (own.left() < (isShort ? BEST_IF_SHORT : BEST) * least
                && own.left() < EXPLAINS * none
                && (own.left() < (rings || own.kinks().size() > 1 ? NOISY_PAIR : NOISY) * noise
                        || own.left() < (rings ? SHARE_IF_RINGING : NEXT_TO_NOTHING) * rest)) {
            List<Kink> told = told(window, own.kinks());
            boolean isSudden = own.left() < (rings ? SHARE_IF_RINGING : SUDDEN_SHARE) * rest
                    && told.stream().allMatch(k -> k.riseSeconds() < SUDDEN_RISE_SECONDS);
            return new Judgement(Judgement.Cause.SPEED, told, told.get(0).startSeconds(), 0, isSudden);
        }
        boolean doubtful = cause == Judgement.Cause.PHASE
                && Math.abs(phase.jump) * piece.polePairs() < CLEAR_JUMP
                && least > SPLICE_NOISY * noise;
        if (least < 0.6 * none && least < 1.2 * own.left() && !doubtful) {
            return Judgement.of(cause, phase.seconds, phase.jump);
        }
        return Judgement.NONE;
    }

    /** Of two kinks the one whose size the window tells, if the other stands at its very end: that one has a window of its own to come. */
    private List<Kink> told(EventWindow window, List<Kink> kinks) {
        List<Kink> told =
                kinks.stream().filter(k -> k.startSeconds() <= lastTold(window)).toList();
        return told.isEmpty() ? kinks : told;
    }

    private boolean isAtEnd(EventWindow window, List<Kink> kinks) {
        return kinks.stream().anyMatch(k -> k.startSeconds() > lastTold(window));
    }

    private double lastTold(EventWindow window) {
        return window.toSeconds() - Math.max(END_SECONDS, END_CELLS * cell);
    }

    private double[] stepPlaces(EventWindow window, double seconds) {
        List<Double> places = new ArrayList<>();
        for (int j = -8; j <= 8; j++) {
            double at = seconds + 0.5 * j * cell;
            if (at > window.time[8] && at < window.time[window.samples - 9]) {
                places.add(at);
            }
        }
        return places.stream().mapToDouble(Double::doubleValue).toArray();
    }

    /** Values from a time on, 0 before. */
    private static double[] from(EventWindow window, double[] values, double at) {
        double[] column = new double[window.samples];
        for (int i = 0; i < column.length; i++) {
            column[i] = window.time[i] > at ? values[i] : 0;
        }
        return EventWindow.trim(column);
    }

    /** Best single step, or pair of steps, of the level. */
    private double level(EventWindow window, EventWindow.Look look, OrthogonalFit shared, double[] places) {
        double[][] columns = new double[places.length][];
        for (int j = 0; j < places.length; j++) {
            columns[j] = from(window, look.ofLevel, places[j]);
            shared.clear(columns[j]);
        }
        return pairs(window, shared, columns, 1);
    }

    /** Best pair of groups of columns; each group is a step at one place. */
    private double pairs(EventWindow window, OrthogonalFit shared, double[][] columns, int group) {
        double most = 0;
        for (int a = 0; a < columns.length / group; a++) {
            for (int b = a; b < columns.length / group; b++) {
                most = Math.max(most, gain(shared, columns, group, a, b));
            }
        }
        return EventWindow.left(Math.max(0, shared.energy() - most), window.rows(), shared.columns() + 2 * group);
    }

    /** What the columns of the groups a and b take off together, by Gram-Schmidt among themselves through their scalar products. */
    private static double gain(OrthogonalFit shared, double[][] columns, int group, int a, int b) {
        int size = a == b ? group : 2 * group;
        double[][] g = new double[size][size];
        double[] y = new double[size];
        for (int i = 0; i < size; i++) {
            double[] first = columns[(i < group ? a : b) * group + i % group];
            y[i] = shared.share(first);
            for (int j = 0; j <= i; j++) {
                g[i][j] = OrthogonalFit.dot(first, columns[(j < group ? a : b) * group + j % group]);
            }
        }
        double gain = 0;
        for (int i = 0; i < size; i++) {
            double whole = g[i][i];
            for (int j = 0; j < i; j++) {
                for (int m = 0; m < j; m++) {
                    g[i][j] -= g[i][m] * g[j][m];
                }
                g[i][j] = g[j][j] > 0 ? g[i][j] / g[j][j] : 0;
                g[i][i] -= g[i][j] * g[i][j];
                y[i] -= g[i][j] * y[j];
            }
            boolean fresh = g[i][i] > 1e-9 * whole;
            g[i][i] = fresh ? Math.sqrt(g[i][i]) : 0;
            y[i] = fresh ? y[i] / g[i][i] : 0;
            gain += y[i] * y[i];
        }
        return gain;
    }

    /** Best single or pair of steps of the offset, each kept or going back as an AC-coupled input lets it. */
    private double offset(EventWindow window, OrthogonalFit shared, double[] places) {
        double[] kept = new double[window.samples];
        double[] goingBack = new double[window.samples];
        for (int i = 0; i < kept.length; i++) {
            kept[i] = 1;
            goingBack[i] = Math.exp((window.centreSeconds - window.time[i]) / OFFSET_RETURN_SECONDS);
        }
        double[][] columns = new double[2 * places.length][];
        for (int j = 0; j < places.length; j++) {
            columns[2 * j] = from(window, kept, places[j]);
            columns[2 * j + 1] = from(window, goingBack, places[j]);
            shared.clear(columns[2 * j]);
            shared.clear(columns[2 * j + 1]);
        }
        return pairs(window, shared, columns, 2);
    }

    private double hum(EventWindow window, OrthogonalFit shared, double[] places) {
        int lines = window.hum.length;
        if (lines == 0) {
            return EventWindow.left(shared.energy(), window.rows(), shared.columns());
        }
        double most = 0;
        double last = Double.NEGATIVE_INFINITY;
        for (double at : places) {
            if (at - last < HUM_PLACES_SECONDS) {
                continue;
            }
            last = at;
            double[][] columns = new double[lines][];
            for (int j = 0; j < lines; j++) {
                columns[j] = from(window, window.hum[j], at);
                shared.clear(columns[j]);
            }
            most = Math.max(most, gain(shared, columns, lines, 0, 0));
        }
        return EventWindow.left(Math.max(0, shared.energy() - most), window.rows(), shared.columns() + lines);
    }

    /** A jump of the phase alone: what it leaves, where, by how much. */
    private record Phase(double left, double seconds, double jump) {}

    private Phase phase(EventWindow window, double seconds) {
        OrthogonalFit series = window.seriesFit();
        double at = seconds;
        double most = -1;
        for (int j = -16; j <= 16; j++) {
            double x = seconds + 0.25 * j * cell;
            double[] column = jumpOnPlaces(window, x);
            series.clear(column);
            double gain = series.gain(column);
            if (gain > most) {
                most = gain;
                at = x;
            }
        }
        series.add(jumpOnPlaces(window, at));
        double[] c = series.coefficients();
        Phase best = new Phase(Double.POSITIVE_INFINITY, at, c[4]);
        for (int j = -COARSE; j <= COARSE; j++) {
            best = better(best, window, c, at + j * cell / COARSE);
        }
        double coarse = best.seconds;
        for (int j = 1; j < FINE; j++) {
            double off = j * cell / (COARSE * FINE);
            best = better(best, window, c, coarse - off);
            best = better(best, window, c, coarse + off);
        }
        return best;
    }

    private static Phase better(Phase best, EventWindow window, double[] series, double seconds) {
        EventWindow.Look look = window.new Look(window.cubic(series), window.jumpsWith(seconds, series[4]));
        ColumnFit fit = look.descent();
        fit.add(from(window, look.ofAngle, seconds));
        look.addRest(fit::add);
        double left = EventWindow.left(fit.energy(), window.rows(), fit.columns());
        return left < best.left ? new Phase(left, seconds, series[4] + fit.coefficients()[4]) : best;
    }

    private static double[] jumpOnPlaces(EventWindow window, double at) {
        double[] column = new double[window.places];
        for (int k = 0; k < column.length; k++) {
            column[k] = window.placeTime[k] > at ? window.placeWeight[k] : 0;
        }
        return column;
    }
}
