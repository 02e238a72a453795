package org.steadyshaft.voltage;

import java.util.ArrayList;
import java.util.List;
import java.util.function.DoubleFunction;
import org.hipparchus.complex.Complex;
import org.hipparchus.optim.MaxEval;
import org.hipparchus.optim.nonlinear.scalar.GoalType;
import org.hipparchus.optim.univariate.BrentOptimizer;
import org.hipparchus.optim.univariate.SearchInterval;
import org.hipparchus.optim.univariate.UnivariateObjectiveFunction;
import org.hipparchus.optim.univariate.UnivariatePointValuePair;

/**
 * Tells from the lines of the mains how lines come through to the recording. Angle and level must show the same swing; where they do not, by
 * more than the noise, either something holds the level back or the input is coupled by a capacitor: whichever leaves less.
 */
final class ResponseFinder {
    /** Angle and level of a true recording agree so well; the rest of the model bends them by less. Measured over drawn captures. */
    private static final double MODEL_SHARE = 0.02;

    /** Mean square above the noise, in units of it, from which a line says anything. */
    private static final double LEAST_SHOWN = 25;

    /** A line whose variance something beside it makes larger is not asked. */
    private static final double MOST_INFLATION = 1.5;

    /** A line whose beat with a harmonic of the tacho the smooth angle follows by more than this share is not asked either. */
    private static final double MOST_FOLLOWED = 0.01;

    /** What one unknown explains by chance beyond this, in units of the noise's variance, is one in seventy. */
    private static final double CLEARLY = 6;

    /** What is left of a line in a piece where the right response is found, in units of the noise's variance: 2 on the mean. */
    private static final double MOST_LEFT = 8;

    /**
     * A wave bent by a tanh loses so much of its level's swing for what its peak over root mean square lacks of a sine's: half of it, as one
     * standard deviation, since a tacho may be flat by itself.
     */
    private static final double HELD_BY_CREST = 1.4;

    /** Far above the noise the right response still leaves what is bent over the wave, by this share. Our own figure. */
    private static final double MOST_LEFT_SHARE = 0.05;

    /** Share of the speed's swing that the level may show; inputs' corners [Hz]. */
    private static final double LEAST_SHARE = 0.1;

    private static final double MOST_SHARE = 1.5;
    private static final double HIGHEST_CORNER_HZ = 60;

    /** The search begins with so many places. */
    private static final int PLACES = 24;

    private static final double NOISE_WIDTHS = 2.5;

    private final VoltageFit fit;
    private final Orders orders;
    private final SmoothAngle smooth;
    private final RestSpectrum rest;

    ResponseFinder(VoltageFit fit, Orders orders, SmoothAngle smooth, RestSpectrum rest) {
        this.smooth = smooth;
        this.fit = fit;
        this.orders = orders;
        this.rest = rest;
    }

    /** A line in a piece, with the variances of either component of its parts. */
    private record Reading(double hz, Complex angle, Complex level, double angleVariance, double levelVariance) {

        /** How badly one swing explains both parts, in units of the variance. */
        double misfit(LineResponse response) {
            Complex ofAngle = response.angle(hz);
            Complex ofLevel = response.level(hz);
            Complex apart = angle.multiply(ofLevel).subtract(level.multiply(ofAngle));
            double model = MODEL_SHARE * MODEL_SHARE * square(angle) * square(ofLevel);
            double variance = angleVariance * square(ofLevel) + levelVariance * square(ofAngle) + 0.5 * model;
            return square(apart) / variance;
        }

        boolean isShown() {
            return square(angle) / angleVariance + square(level) / levelVariance > LEAST_SHOWN;
        }
    }

    private static double square(Complex value) {
        return value.getRealPart() * value.getRealPart() + value.getImaginaryPart() * value.getImaginaryPart();
    }

    /** What was found: {@link FoundResponse#TRUE} where nothing speaks against it. */
    FoundResponse find() {
        List<Reading> readings = readings();
        if (readings.isEmpty()) {
            double flat = Math.max(0, Math.sqrt(2) - fit.turn().crest(orders.polePairs()));
            return FoundResponse.unasked(HELD_BY_CREST * flat);
        }
        double[] power = power();
        double cycleHz = orders.polePairs() * orders.shaftHz();
        FoundResponse held = best(readings, LineResponse.Held::new, LEAST_SHARE, MOST_SHARE);
        FoundResponse coupled =
                best(readings, corner -> new LineResponse.Coupled(corner, cycleHz, power), 0, HIGHEST_CORNER_HZ);
        double heldLeaves = misfit(readings, held.response());
        double coupledLeaves = misfit(readings, coupled.response());
        double left = Math.min(heldLeaves, coupledLeaves);
        double before = misfit(readings, LineResponse.TRUE);
        if (before - left < CLEARLY || left > Math.max(MOST_LEFT * readings.size(), MOST_LEFT_SHARE * before)) {
            return FoundResponse.TRUE;
        }
        return heldLeaves < coupledLeaves ? held : coupled;
    }

    /** Whether a line sways the tacho's harmonics so slowly that the smooth angle follows. */
    private boolean isFollowed(double hz) {
        double cycleHz = orders.polePairs() * orders.shaftHz();
        double harmonic = cycleHz * Math.max(1, Math.rint(hz / cycleHz));
        return Math.abs(smooth.gain(Math.abs(hz - harmonic))) > MOST_FOLLOWED;
    }

    /** Indices of the lines that are asked: those at the mains and twice the mains, which drives make. */
    static List<Integer> asked(Columns columns) {
        List<Integer> asked = new ArrayList<>();
        for (int line = 0; line < columns.lineHz().size(); line++) {
            int multiple = columns.lineHz().multiple(line);
            if (multiple == 1 || multiple == 2) {
                asked.add(line);
            }
        }
        return asked;
    }

    private List<Reading> readings() {
        List<Reading> readings = new ArrayList<>();
        double widthHz = NOISE_WIDTHS * rest.widthHz();
        for (int line : asked(fit.columns())) {
            double hz = fit.columns().lineHz().get(line);
            if (isFollowed(hz)
                    || orders.inflation(hz) > MOST_INFLATION
                    || fit.inflation(0, fit.columns().line(line)) > MOST_INFLATION) {
                continue;
            }
            double noise = rest.speedNoise(hz, f -> LineSearch.taken(f, fit.columns(), widthHz) || orders.near(f));
            List<Reading> own = LineParts.of(fit, line).stream()
                    .map(p ->
                            new Reading(hz, p.angle(), p.level(), noise * p.angleVariance(), noise * p.levelVariance()))
                    .toList();
            if (own.stream().allMatch(Reading::isShown)) {
                readings.addAll(own);
            }
        }
        return readings;
    }

    /** Square of the amplitude of each harmonic of the tacho. */
    private double[] power() {
        TurnVoltage turn = fit.turn();
        double[] power = new double[turn.orders() / orders.polePairs()];
        for (int k = 1; k <= power.length; k++) {
            double amplitude = turn.amplitude(k * orders.polePairs());
            power[k - 1] = amplitude * amplitude;
        }
        return power;
    }

    private static double misfit(List<Reading> readings, LineResponse response) {
        return readings.stream().mapToDouble(r -> r.misfit(response)).sum();
    }

    private static FoundResponse best(
            List<Reading> readings, DoubleFunction<LineResponse> responses, double from, double to) {
        double step = (to - from) / PLACES;
        double start = from;
        double least = Double.POSITIVE_INFINITY;
        for (int i = 0; i <= PLACES; i++) {
            double misfit = misfit(readings, responses.apply(from + i * step));
            if (misfit < least) {
                least = misfit;
                start = from + i * step;
            }
        }
        UnivariatePointValuePair best = new BrentOptimizer(1e-4, 1e-6)
                .optimize(
                        new MaxEval(100),
                        new UnivariateObjectiveFunction(x -> misfit(readings, responses.apply(x))),
                        GoalType.MINIMIZE,
                        new SearchInterval(Math.max(from, start - step), Math.min(to, start + step), start));
        double at = best.getPoint();
        // where the misfit has grown by 1, one standard deviation off: by its bend at the least
        double look = 0.1 * step;
        double bend = (misfit(readings, responses.apply(at + look))
                        + misfit(readings, responses.apply(Math.max(0, at - look)))
                        - 2 * best.getValue())
                / (look * look);
        double deviation = bend > 0 ? Math.min(step, Math.sqrt(2 / bend)) : step;
        return new FoundResponse(responses.apply(at), responses.apply(at + deviation), 0);
    }
}
