package org.steadyshaft.blip;

import java.util.ArrayList;
import java.util.List;
import org.steadyshaft.numeric.OrthogonalFit;

/**
 * Explains a window by the speed itself: one or two kinks whose size, place, rise and return are found by Gauss-Newton steps in the
 * waveform, from a start that the angle series gives.
 */
final class SpeedExplanation {
    private static final int MOST_STEPS = 9;
    private static final double ENOUGH = 0.98;
    private static final double[] START_RISES = {0.006, 0.015, 0.03};
    private static final double[] START_RETURNS = {0.03, 0.1, 0.3, 2};
    private static final double LEAST_RISE = 0.003;
    private static final double MOST_RISE = 0.05;
    private static final double LEAST_RETURN = 0.015;
    private static final double MOST_RETURN = 3;
    private static final double MOST_SHIFT = 0.004;
    private static final double APART_SECONDS = 0.025;

    private final EventWindow window;
    private final double percentAngle;
    private final double cellSeconds;

    /** What was found, and the mean square it leaves. */
    record Found(double left, List<Kink> kinks) {}

    /** Place, rise and return of a start. */
    record Start(double seconds, double rise, double back) {}

    SpeedExplanation(EventWindow window, double percentAngle, double cellSeconds) {
        this.window = window;
        this.percentAngle = percentAngle;
        this.cellSeconds = cellSeconds;
    }

    /** The start that explains most of the series beside those already there; the list with it, or empty. */
    List<Start> place(List<Start> have) {
        OrthogonalFit fit = window.seriesFit();
        have.forEach(h -> fit.add(window.bendOnPlaces(h.seconds, h.rise, h.back)));
        double reach = Math.max(0.03, 4 * cellSeconds);
        double from = have.isEmpty() ? window.centreSeconds - reach : window.placeTime[3];
        double to = have.isEmpty() ? window.centreSeconds + reach : window.placeTime[window.places - 4];
        double step = have.isEmpty() ? 0.004 : 0.006;
        double most = 0;
        Start best = null;
        for (double at = from; at <= to; at += step) {
            double here = at;
            if (have.stream().anyMatch(h -> Math.abs(here - h.seconds) < APART_SECONDS)) {
                continue;
            }
            for (double rise : START_RISES) {
                for (double back : START_RETURNS) {
                    double[] column = window.bendOnPlaces(at, rise, back);
                    fit.clear(column);
                    double gain = fit.gain(column);
                    if (gain > most) {
                        most = gain;
                        best = new Start(at, rise, back);
                    }
                }
            }
        }
        if (best == null) {
            return List.of();
        }
        List<Start> all = new ArrayList<>(have);
        all.add(best);
        return all;
    }

    /** From the given start, and where that does not reach the noise, from a second one too. */
    Found best(List<Start> starts, double noise) {
        Found own = from(starts);
        if (own.left < 4 * noise) {
            return own;
        }
        Found other =
                from(starts.stream().map(s -> new Start(s.seconds, 0.012, 0.25)).toList());
        return other.left < own.left ? other : own;
    }

    private Found from(List<Start> starts) {
        OrthogonalFit series = window.seriesFit();
        starts.forEach(s -> {
            double[] column = window.bendOnPlaces(s.seconds, s.rise, s.back);
            for (int k = 0; k < column.length; k++) {
                column[k] *= percentAngle;
            }
            series.add(column);
        });
        double[] c = series.coefficients();
        double[] cubic = {c[0], c[1], c[2], c[3]};
        List<Kink> kinks = new ArrayList<>();
        for (int j = 0; j < starts.size(); j++) {
            Start s = starts.get(j);
            kinks.add(new Kink(s.seconds, c[4 + j], s.rise, s.back));
        }
        return descend(cubic, kinks);
    }

    private Found descend(double[] startCubic, List<Kink> startKinks) {
        double[] cubic = startCubic;
        List<Kink> kinks = startKinks;
        double[] bestCubic = null;
        List<Kink> bestKinks = null;
        Found best = null;
        for (int step = 0; step < MOST_STEPS; step++) {
            double[] phase = window.cubic(cubic);
            for (Kink kink : kinks) {
                for (int i = 0; i < phase.length; i++) {
                    phase[i] += percentAngle * kink.percent() * kink.bendAt(window.time[i]);
                }
            }
            EventWindow.Look look = window.new Look(phase);
            OrthogonalFit fit = look.shared();
            kinks.forEach(k -> fit.add(EventWindow.trim(unit(look, k))));
            OrthogonalFit full = look.shared();
            kinks.forEach(k -> addDerivatives(full, look, k));
            look.addRest(fit);
            double left = EventWindow.left(fit.energy(), window.rows(), fit.columns());
            if (best != null && left >= best.left) {
                cubic = halfway(cubic, bestCubic);
                kinks = halfway(kinks, bestKinks);
                continue;
            }
            boolean enough = best != null && left > ENOUGH * best.left;
            best = new Found(left, sized(kinks, fit.coefficients()));
            bestCubic = cubic;
            bestKinks = kinks;
            if (enough) {
                break;
            }
            look.addRest(full);
            double[] c = full.coefficients();
            double[] next = new double[4];
            for (int i = 0; i < 4; i++) {
                next[i] = cubic[i] + c[i];
            }
            cubic = next;
            kinks = stepped(kinks, c);
        }
        return best;
    }

    private static List<Kink> sized(List<Kink> kinks, double[] c) {
        List<Kink> sized = new ArrayList<>();
        for (int j = 0; j < kinks.size(); j++) {
            Kink k = kinks.get(j);
            sized.add(new Kink(k.startSeconds(), k.percent() + c[4 + j], k.riseSeconds(), k.returnSeconds()));
        }
        return sized;
    }

    private static double[] halfway(double[] a, double[] b) {
        double[] middle = new double[a.length];
        for (int i = 0; i < a.length; i++) {
            middle[i] = 0.5 * (a[i] + b[i]);
        }
        return middle;
    }

    private static List<Kink> halfway(List<Kink> a, List<Kink> b) {
        List<Kink> middle = new ArrayList<>();
        for (int j = 0; j < a.size(); j++) {
            Kink x = a.get(j);
            Kink y = b.get(j);
            middle.add(new Kink(
                    0.5 * (x.startSeconds() + y.startSeconds()),
                    0.5 * (x.percent() + y.percent()),
                    0.5 * (x.riseSeconds() + y.riseSeconds()),
                    0.5 * (x.returnSeconds() + y.returnSeconds())));
        }
        return middle;
    }

    private double[] bends(double start, double rise, double back) {
        double[] angle = new double[window.samples];
        for (int i = 0; i < angle.length; i++) {
            angle[i] = percentAngle * Kink.bend(window.time[i] - start, rise, back);
        }
        return angle;
    }

    private double[] unit(EventWindow.Look look, Kink k) {
        return look.ofAdded(bends(k.startSeconds(), k.riseSeconds(), k.returnSeconds()));
    }

    /** Columns for size, place, logarithm of rise and of return. */
    private void addDerivatives(OrthogonalFit fit, EventWindow.Look look, Kink k) {
        double s = k.startSeconds();
        double r = k.riseSeconds();
        double b = k.returnSeconds();
        fit.add(EventWindow.trim(unit(look, k)));
        fit.add(EventWindow.trim(
                difference(look, k.percent() / 0.002, bends(s + 0.001, r, b), bends(s - 0.001, r, b))));
        fit.add(EventWindow.trim(difference(look, k.percent() / 0.2, bends(s, 1.1 * r, b), bends(s, 0.9 * r, b))));
        fit.add(EventWindow.trim(difference(look, k.percent() / 0.2, bends(s, r, 1.1 * b), bends(s, r, 0.9 * b))));
    }

    private static double[] difference(EventWindow.Look look, double times, double[] plus, double[] minus) {
        for (int i = 0; i < plus.length; i++) {
            plus[i] = times * (plus[i] - minus[i]);
        }
        return look.ofAdded(plus);
    }

    private static List<Kink> stepped(List<Kink> kinks, double[] c) {
        List<Kink> next = new ArrayList<>();
        for (int j = 0; j < kinks.size(); j++) {
            Kink k = kinks.get(j);
            int at = 4 + 4 * j;
            next.add(new Kink(
                    k.startSeconds() + clip(c[at + 1], MOST_SHIFT),
                    k.percent() + c[at],
                    within(k.riseSeconds() * Math.exp(clip(c[at + 2], 0.5)), LEAST_RISE, MOST_RISE),
                    within(k.returnSeconds() * Math.exp(clip(c[at + 3], 0.7)), LEAST_RETURN, MOST_RETURN)));
        }
        return next;
    }

    private static double clip(double value, double most) {
        return within(value, -most, most);
    }

    private static double within(double value, double least, double most) {
        return Math.max(least, Math.min(most, value));
    }
}
