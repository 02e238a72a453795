package org.steadyshaft.blip;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.steadyshaft.numeric.ColumnFit;
import org.steadyshaft.numeric.OrthogonalFit;

/**
 * Explains a window by the speed itself: one or two kinks whose size, place, rise and return are found by damped Gauss-Newton steps (Levenberg and
 * Marquardt) in the waveform, from a start that the angle series gives.
 */
final class SpeedExplanation {
    /** Looks at the waveform in a descent, and the gain below which it ends: what is left is not told to a hundredth. */
    private static final int MOST_LOOKS = 24;

    private static final double ENOUGH = 0.99;

    /** Damping of the shapes' steps: so much at first, that much less after a good step and more after a bad one. */
    private static final double FIRST_DAMPING = 1e-2;

    private static final double DAMPING_STEP = 8;
    private static final double LEAST_DAMPING = 1e-6;
    private static final double MOST_DAMPING = 1e3;

    /** Damping that holds a shape where it is. */
    private static final double HELD = 1e9;

    private static final double[] START_RISES = {0.006, 0.015, 0.03};
    private static final double[] START_RETURNS = {0.03, 0.1, 0.3, 2};
    private static final double ONE_STEP_SECONDS = 0.004;

    /** Pairs are sought with one rise and a short and a long return; the descent finds their own. */
    private static final double TWO_STEP_SECONDS = 0.006;

    private static final double PAIR_RISE = 0.012;
    private static final double[] PAIR_RETURNS = {0.08, 0.8};

    /** Two columns that share all but so much of their squares cannot be told from one. */
    private static final double LEAST_APART = 1e-3;

    private static final double LEAST_RISE = 0.003;
    private static final double MOST_RISE = 0.05;
    private static final double LEAST_RETURN = 0.015;
    private static final double MOST_RETURN = 3;
    private static final double MOST_SHIFT = 0.004;

    /** A ringing return swings so fast, with these starts [Hz]: slower it is none within the window, faster a swing that lasts hides it. */
    private static final double LEAST_RINGING = 2 * Math.PI * 0.6;

    private static final double MOST_RINGING = 2 * Math.PI * 8;
    private static final double[] START_RINGING = {2 * Math.PI * 1.5, 2 * Math.PI * 4};
    private static final double START_RINGING_RETURN = 0.3;
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

    /** The single start near the window's centre that explains most of the series; empty if none does. */
    List<Start> one() {
        OrthogonalFit fit = window.seriesFit();
        double most = 0;
        Start best = null;
        double to = window.centreSeconds + reach();
        for (double at = window.centreSeconds - reach(); at <= to; at += ONE_STEP_SECONDS) {
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
        return best == null ? List.of() : List.of(best);
    }

    /** The two starts anywhere in the window that explain most of the series together; empty if it is too short for two. */
    List<Start> two() {
        OrthogonalFit fit = window.seriesFit();
        List<Start> starts = new ArrayList<>();
        List<double[]> columns = new ArrayList<>();
        double to = window.placeTime[window.places - 4];
        for (double at = window.placeTime[3]; at <= to; at += TWO_STEP_SECONDS) {
            for (double back : PAIR_RETURNS) {
                double[] column = window.bendOnPlaces(at, PAIR_RISE, back);
                fit.clear(column);
                double norm = Math.sqrt(OrthogonalFit.dot(column, column));
                if (norm > 0) {
                    for (int k = 0; k < column.length; k++) {
                        column[k] /= norm;
                    }
                    starts.add(new Start(at, PAIR_RISE, back));
                    columns.add(column);
                }
            }
        }
        return bestPair(
                starts, columns, columns.stream().mapToDouble(fit::share).toArray());
    }

    /**
     * Whether two kinks stand apart, and one of them where this window looks: at one place opposite ones are a jump of the phase, and like ones
     * are a single kink.
     *
     * @param anywhere whether the window was set between two kinks already
     */
    boolean isPair(List<Kink> kinks, boolean anywhere) {
        double apart = Math.abs(kinks.get(1).startSeconds() - kinks.get(0).startSeconds());
        double away = kinks.stream()
                .mapToDouble(k -> Math.abs(k.startSeconds() - window.centreSeconds))
                .min()
                .orElseThrow();
        return apart >= APART_SECONDS && (anywhere || away <= reach());
    }

    private double reach() {
        return Math.max(0.03, 4 * cellSeconds);
    }

    /** @param share what each column of length 1 has of the series */
    private static List<Start> bestPair(List<Start> starts, List<double[]> columns, double[] share) {
        double most = 0;
        List<Start> best = List.of();
        for (int a = 0; a < share.length; a++) {
            for (int b = a + 1; b < share.length; b++) {
                if (starts.get(b).seconds - starts.get(a).seconds < APART_SECONDS) {
                    continue;
                }
                double alike = OrthogonalFit.dot(columns.get(a), columns.get(b));
                double apart = 1 - alike * alike;
                double rest = share[b] - alike * share[a];
                double gain = apart > LEAST_APART ? share[a] * share[a] + rest * rest / apart : 0;
                if (gain > most) {
                    most = gain;
                    best = List.of(starts.get(a), starts.get(b));
                }
            }
        }
        return best;
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

    /** One kink that returns ringing, from the place, size and rise of one that does not. */
    Found ringing(Found plain) {
        Kink kink = plain.kinks.get(0);
        Found best = plain;
        for (double ringing : START_RINGING) {
            Found own =
                    from(List.of(new Start(kink.startSeconds(), kink.riseSeconds(), START_RINGING_RETURN)), ringing);
            best = own.left < best.left ? own : best;
        }
        return best;
    }

    private Found from(List<Start> starts) {
        return from(starts, 0);
    }

    private Found from(List<Start> starts, double ringing) {
        OrthogonalFit series = window.seriesFit();
        starts.forEach(s -> {
            double[] column = window.bendOnPlaces(s.seconds, s.rise, s.back, ringing);
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
            kinks.add(new Kink(s.seconds, c[4 + j], s.rise, s.back, ringing));
        }
        return descend(cubic, kinks);
    }

    /** Angle and kinks as they stand, and the waveform's linear fit there. */
    private final class Place {
        private final double[] cubic;
        private final List<Kink> kinks;
        private final EventWindow.Look look;
        private final ColumnFit fit;
        private final Found found;
        private final int shapes;
        private boolean hasShapes;

        Place(double[] cubic, List<Kink> kinks) {
            this.cubic = cubic;
            this.kinks = kinks;
            double[] phase = window.cubic(cubic);
            for (Kink kink : kinks) {
                for (int i = 0; i < phase.length; i++) {
                    phase[i] += percentAngle * kink.percent() * kink.bendAt(window.time[i]);
                }
            }
            this.look = window.new Look(phase);
            this.fit = look.descent();
            kinks.forEach(k -> fit.add(EventWindow.trim(unit(look, k))));
            look.addRest(fit::add);
            this.shapes = fit.columns();
            double left = EventWindow.left(fit.energy(), window.rows(), shapes);
            this.found = new Found(left, sized(kinks, fit.coefficients()));
        }

        /** The place a damped step further. A shape at its bound stays there if it would go beyond. */
        Place next(double damping) {
            if (!hasShapes) {
                kinks.forEach(k -> addShape(fit, look, k));
                hasShapes = true;
            }
            double[] damp = new double[fit.columns()];
            Arrays.fill(damp, shapes, damp.length, damping);
            double[] c = fit.damped(damp);
            if (hold(c, damp)) {
                c = fit.damped(damp);
            }
            double[] moved = new double[4];
            for (int i = 0; i < 4; i++) {
                moved[i] = cubic[i] + c[i];
            }
            return new Place(moved, stepped(kinks, c, shapes));
        }

        private boolean hold(double[] c, double[] damp) {
            boolean held = false;
            int at = shapes;
            for (Kink k : kinks) {
                if (isBeyond(k.riseSeconds(), c[at + 1], LEAST_RISE, MOST_RISE)) {
                    damp[at + 1] = HELD;
                    held = true;
                }
                if (isBeyond(k.returnSeconds(), c[at + 2], LEAST_RETURN, MOST_RETURN)) {
                    damp[at + 2] = HELD;
                    held = true;
                }
                if (k.ringing() > 0 && isBeyond(k.ringing(), c[at + 3], LEAST_RINGING, MOST_RINGING)) {
                    damp[at + 3] = HELD;
                    held = true;
                }
                at += shapes(k);
            }
            return held;
        }
    }

    private static boolean isBeyond(double value, double step, double least, double most) {
        return value <= least && step < 0 || value >= most && step > 0;
    }

    private Found descend(double[] startCubic, List<Kink> startKinks) {
        Place place = new Place(startCubic, startKinks);
        double damping = FIRST_DAMPING;
        for (int look = 1; look < MOST_LOOKS && damping < MOST_DAMPING; look++) {
            Place next = place.next(damping);
            if (next.found.left < place.found.left) {
                boolean enough = next.found.left > ENOUGH * place.found.left;
                place = next;
                damping = Math.max(LEAST_DAMPING, damping / DAMPING_STEP);
                if (enough) {
                    break;
                }
            } else {
                damping *= DAMPING_STEP;
            }
        }
        return place.found;
    }

    private static List<Kink> sized(List<Kink> kinks, double[] c) {
        List<Kink> sized = new ArrayList<>();
        for (int j = 0; j < kinks.size(); j++) {
            Kink k = kinks.get(j);
            sized.add(k.withPercent(k.percent() + c[4 + j]));
        }
        return sized;
    }

    private double[] bends(double start, double rise, double back, double ringing) {
        double[] angle = new double[window.samples];
        for (int i = 0; i < angle.length; i++) {
            angle[i] = percentAngle * Kink.bend(window.time[i] - start, rise, back, ringing);
        }
        return angle;
    }

    private double[] unit(EventWindow.Look look, Kink k) {
        return look.ofAdded(bends(k.startSeconds(), k.riseSeconds(), k.returnSeconds(), k.ringing()));
    }

    /** How many columns {@link #addShape} adds. */
    private static int shapes(Kink kink) {
        return kink.ringing() > 0 ? 4 : 3;
    }

    /** Columns for place, logarithm of rise and of return, and of the ringing if there is one. */
    private void addShape(ColumnFit fit, EventWindow.Look look, Kink k) {
        double s = k.startSeconds();
        double r = k.riseSeconds();
        double b = k.returnSeconds();
        double w = k.ringing();
        double fifth = k.percent() / 0.2;
        fit.add(EventWindow.trim(
                difference(look, k.percent() / 0.002, bends(s + 0.001, r, b, w), bends(s - 0.001, r, b, w))));
        fit.add(EventWindow.trim(difference(look, fifth, bends(s, 1.1 * r, b, w), bends(s, 0.9 * r, b, w))));
        fit.add(EventWindow.trim(difference(look, fifth, bends(s, r, 1.1 * b, w), bends(s, r, 0.9 * b, w))));
        if (w > 0) {
            fit.add(EventWindow.trim(difference(look, fifth, bends(s, r, b, 1.1 * w), bends(s, r, b, 0.9 * w))));
        }
    }

    private static double[] difference(EventWindow.Look look, double times, double[] plus, double[] minus) {
        for (int i = 0; i < plus.length; i++) {
            plus[i] = times * (plus[i] - minus[i]);
        }
        return look.ofAdded(plus);
    }

    /** @param shapes index of the first coefficient of a shape; the sizes stand behind the angle's cubic */
    private static List<Kink> stepped(List<Kink> kinks, double[] c, int shapes) {
        List<Kink> next = new ArrayList<>();
        int at = shapes;
        for (int j = 0; j < kinks.size(); j++) {
            Kink k = kinks.get(j);
            next.add(new Kink(
                    k.startSeconds() + clip(c[at], MOST_SHIFT),
                    k.percent() + c[4 + j],
                    within(k.riseSeconds() * Math.exp(clip(c[at + 1], 0.5)), LEAST_RISE, MOST_RISE),
                    within(k.returnSeconds() * Math.exp(clip(c[at + 2], 0.7)), LEAST_RETURN, MOST_RETURN),
                    k.ringing() > 0
                            ? within(k.ringing() * Math.exp(clip(c[at + 3], 0.5)), LEAST_RINGING, MOST_RINGING)
                            : 0));
            at += shapes(k);
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
