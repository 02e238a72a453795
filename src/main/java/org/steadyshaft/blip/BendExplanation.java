package org.steadyshaft.blip;

import java.util.function.DoubleUnaryOperator;
import org.steadyshaft.numeric.ColumnFit;
import org.steadyshaft.numeric.OrthogonalFit;
import org.steadyshaft.voltage.VoltagePiece;

/**
 * The drive begins or ends to change the speed: the speed runs on without a jump, but from a time on it has another slope. To a search for
 * jumps the corner looks like one, the sharper the change is; only here both sides are smooth.
 */
final class BendExplanation {
    /** The speed must change by so much within the window for the drive to be asked; blips on usual ramps stay what they are. Our own figure. */
    private static final double LEAST_CHANGE = 0.05;

    /** From one half of the time before the middle to the other; no blip begins so early in its window. Our own figure. */
    private static final double MOST_BEFORE = 0.05;

    /** Places are tried so many cells to either side, so many a cell. */
    private static final int REACH_CELLS = 4;

    private static final int A_CELL = 4;
    private static final int DESCENTS = 4;

    /** The speed at the window's ends is a mean over this share of it; beside it over twice as much. */
    private static final double BESIDE_SHARE = 0.25;

    /** It goes on by this share of the change at least. Our own figure. */
    private static final double GOES_ON = 0.3;

    private final VoltagePiece piece;
    private final EventWindow window;
    private final double cell;

    BendExplanation(VoltagePiece piece, EventWindow window, double cell) {
        this.piece = piece;
        this.window = window;
        this.cell = cell;
    }

    /**
     * Whether the speed changes so much within the window, and goes on to beside it, that the drive may have done it: a blip has a level before
     * and comes back behind.
     */
    boolean isAsked() {
        double from = window.fromSeconds();
        double to = window.toSeconds();
        double part = BESIDE_SHARE * (to - from);
        double begin = speed(from, from + part);
        double end = speed(to - part, to);
        double change = end - begin;
        double goesOn =
                Math.max((begin - speed(from - 2 * part, from)) / change, (speed(to, to + 2 * part) - end) / change);
        return Math.abs(change) > LEAST_CHANGE * speed(from, to) && goesOn > GOES_ON;
    }

    /** Mean speed between two times, as far as the piece reaches [rad/s]. */
    private double speed(double fromSeconds, double toSeconds) {
        int last = piece.samples() - 1;
        int from = (int) Math.max(
                0, Math.min(last - 1, Math.round((fromSeconds - piece.firstSeconds()) / piece.stepSeconds())));
        int to = (int) Math.max(
                from + 1, Math.min(last, Math.round((toSeconds - piece.firstSeconds()) / piece.stepSeconds())));
        return (piece.angle(to) - piece.angle(from)) / ((to - from) * piece.stepSeconds());
    }

    /** Whether the speed changes so steeply before the middle of the window that nothing can be told there: no shape of ours follows. */
    boolean isTooSteep() {
        double from = window.fromSeconds();
        double middle = 0.5 * (from + window.centreSeconds);
        double early = speed(from, middle);
        double late = speed(middle, window.centreSeconds);
        return Math.abs(late - early) > MOST_BEFORE * speed(from, window.toSeconds()) && isAsked();
    }

    /** Mean square that the best bend near a time leaves. */
    double left(double seconds) {
        OrthogonalFit series = window.seriesFit();
        double at = seconds;
        double most = -1;
        for (int j = -REACH_CELLS * A_CELL; j <= REACH_CELLS * A_CELL; j++) {
            double x = seconds + j * cell / A_CELL;
            double gain = gain(x);
            if (gain > most) {
                most = gain;
                at = x;
            }
        }
        addTo(series, at);
        double[] c = series.coefficients();
        double best = Double.POSITIVE_INFINITY;
        for (int look = 0; look < DESCENTS; look++) {
            double place = at;
            double square = c[4];
            double cube = c[5];
            double[] phase = window.cubic(c);
            for (int i = 0; i < phase.length; i++) {
                double since = Math.max(0, window.time[i] - place);
                double u = window.place[i];
                phase[i] += (square + cube * since) * since * since + (c[6] + c[7] * u) * u * u * u * u;
            }
            EventWindow.Look model = window.new Look(phase);
            ColumnFit fit = model.descent();
            fit.add(column(model, since -> since * since, place));
            fit.add(column(model, since -> since * since * since, place));
            fit.add(power(model, 4));
            fit.add(power(model, 5));
            fit.add(column(model, since -> -(2 * square + 3 * cube * since) * since, place));
            model.addRest(fit::add);
            double left = EventWindow.left(fit.energy(), window.rows(), fit.columns());
            double[] step = fit.coefficients();
            if (left > best) {
                break;
            }
            best = left;
            for (int i = 0; i < 8; i++) {
                c[i] += step[i];
            }
            at += Math.max(-cell, Math.min(cell, step[8]));
        }
        return best;
    }

    private double gain(double at) {
        OrthogonalFit series = window.seriesFit();
        double before = series.energy();
        addTo(series, at);
        return before - series.energy();
    }

    /** The bend, and what a smooth but strong change has beyond a cubic. */
    private void addTo(OrthogonalFit series, double at) {
        series.add(onPlaces(at, 2));
        series.add(onPlaces(at, 3));
        for (int power = 4; power <= 5; power++) {
            double[] column = new double[window.places];
            for (int k = 0; k < column.length; k++) {
                double u = (window.placeTime[k] - window.centreSeconds) / window.afterSeconds;
                column[k] = window.placeWeight[k] * Math.pow(u, power);
            }
            series.add(column);
        }
    }

    private double[] power(EventWindow.Look look, int power) {
        double[] angle = new double[window.samples];
        for (int i = 0; i < angle.length; i++) {
            angle[i] = Math.pow(window.place[i], power);
        }
        return EventWindow.trim(look.ofAdded(angle));
    }

    private double[] onPlaces(double at, int power) {
        double[] column = new double[window.places];
        for (int k = 0; k < column.length; k++) {
            double since = Math.max(0, window.placeTime[k] - at);
            column[k] = window.placeWeight[k] * since * since * (power == 3 ? since : 1);
        }
        return column;
    }

    private double[] column(EventWindow.Look look, DoubleUnaryOperator bend, double at) {
        double[] angle = new double[window.samples];
        for (int i = 0; i < angle.length; i++) {
            angle[i] = bend.applyAsDouble(Math.max(0, window.time[i] - at));
        }
        return EventWindow.trim(look.ofAdded(angle));
    }
}
