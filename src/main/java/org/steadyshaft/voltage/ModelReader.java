package org.steadyshaft.voltage;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.steadyshaft.signal.DoubleSeries;
import org.steadyshaft.signal.Stretch;

/** Reads figures and their uncertainty out of a finished fit. */
final class ModelReader {
    /** A line's variance may be so many times that of a line alone; beyond, what stands beside it decides the figure. */
    private static final double MOST_INFLATION = 5;

    /** A line is proven from so many standard uncertainties on: noise alone reaches that once in 3000 (Rayleigh). */
    private static final double PROVEN = 4;

    /**
     * Share of an amplitude by which the model itself is off, one standard deviation: what the smooth angle and the orders left out do to
     * lines that the noise would tell better. Measured over drawn captures (RippleErrors).
     */
    private static final double MODEL_SHARE = 0.0015;

    /** The same for a line that beats slowly with the tacho. */
    private static final double BESIDE_SHARE = 0.04;

    /** A figure is told if its expanded uncertainty is at most this share of it, or both together matter to no shaft [%]. */
    private static final double VAGUE_SHARE = 0.5;

    private static final double MATTERS_PERCENT = 0.05;

    /** Pick-up of this share of the tacho, within so many hertz of it, spoils what is read at the mains. Our own figures. */
    private static final double SWAMPING_SHARE = 0.01;

    private static final double SLOW_BEAT_HZ = 2;

    /** A clean speed keeps this share of the line's frequency, or twice the turns that are needed, between line and order. */
    private static final double CLEAN_SHARE = 0.01;

    private static final double CLEAN_TURNS = 4;

    /** Noise is not judged so near to a line: widths. */
    private static final double WIDTHS = 2.5;

    /** Points of the spectrum that is handed out at most. */
    private static final int MOST_POINTS = 4000;

    private static final int SLOW_STEPS = 40;

    private final VoltageFit fit;
    private final Orders orders;
    private final FitPlan plan;
    private final boolean mainsSeen;
    private final SmoothAngle smooth;
    private final SlowParts slow;
    private final double fromHz;
    private final double toHz;

    ModelReader(
            VoltageFit fit,
            Orders orders,
            FitPlan plan,
            boolean mainsSeen,
            SmoothAngle smooth,
            double fromHz,
            double toHz) {
        this.fit = fit;
        this.orders = orders;
        this.plan = plan;
        this.mainsSeen = mainsSeen;
        this.smooth = smooth;
        this.slow = new SlowParts(fit, smooth);
        this.fromHz = fromHz;
        this.toHz = toHz;
    }

    /** @param rest spectrum of what the fit leaves */
    WaveformReading read(RestSpectrum rest) {
        double[] turned = new double[fit.pieces().size()];
        List<SpeedLine> all = new ArrayList<>();
        for (int j = 0; j < fit.columns().lineHz().size(); j++) {
            all.add(line(j, rest, turned));
        }
        List<HumLine> hum = hum(rest, turned);
        boolean swamped = isSwamped(hum);
        Map<Integer, MainsReading> mains = new HashMap<>();
        for (int multiple : new int[] {1, 2}) {
            mains.put(multiple, reading(multiple, all, swamped));
        }
        List<SpeedLine> proven = new ArrayList<>(all);
        proven.removeIf(l -> !isProven(l) || (swamped && l.mainsMultiple() > 0));
        boolean[] isProven = new boolean[all.size()];
        boolean[] ofMains = new boolean[all.size()];
        for (int j = 0; j < isProven.length; j++) {
            isProven[j] = proven.contains(all.get(j));
            ofMains[j] = isProven[j] && all.get(j).mainsMultiple() > 0;
        }
        proven.sort(Comparator.comparingDouble(SpeedLine::amplitudePercent).reversed());
        double turns = 0;
        double seconds = 0;
        List<Stretch> covered = new ArrayList<>();
        for (AnglePiece piece : fit.pieces()) {
            turns += piece.meanRadPerSecond * piece.seconds();
            seconds += piece.seconds();
            covered.add(new Stretch(piece.firstSeconds, piece.firstSeconds + piece.seconds()));
        }
        Spectrum spectrum = spectrum(rest, proven);
        return new WaveformReading(
                fit.turn(),
                orders.polePairs(),
                turns / seconds,
                plan.mainsHz(),
                mainsSeen,
                hum,
                proven,
                mains,
                fromHz,
                Math.max(0, toHz),
                Math.sqrt(fit.restVariance()),
                spectrum.hz,
                spectrum.percent,
                seconds,
                orders.pieceSeconds(),
                slowNoise(rest),
                covered,
                motion(isProven),
                motion(ofMains),
                slow.rest(fit.pieces()),
                learnt(mains),
                fit.memory().recordings());
    }

    private LearntTurn learnt(Map<Integer, MainsReading> mains) {
        Set<Integer> told = new HashSet<>();
        mains.forEach((multiple, line) -> {
            if (line instanceof MainsReading.Told) {
                told.add(multiple);
            }
        });
        Set<Integer> fitted = new HashSet<>();
        for (int j = 0; j < plan.mainsHum(); j++) {
            fitted.add(plan.humMultiple(j));
        }
        double unsure = mainsSeen ? 0 : MainsClock.USUAL;
        return LearntTurn.of(fit.turn().alone(), orders, plan.mainsHz(), unsure, told, fitted);
    }

    private boolean taken(double hz, RestSpectrum rest) {
        return LineSearch.taken(hz, fit.columns(), WIDTHS * rest.widthHz()) || orders.near(hz);
    }

    private SpeedLine line(int index, RestSpectrum rest, double[] turned) {
        double hz = fit.columns().lineHz().get(index);
        double around = rest.speedNoise(hz, f -> taken(f, rest));
        // what is known beforehand was weighed against all that is left
        double noise = orders.isKnown(hz) ? Math.max(around, fit.restVariance()) : around;
        PieceLines readings = new PieceLines();
        double inflation = 0;
        double seconds = 0;
        for (int p = 0; p < fit.pieces().size(); p++) {
            double length = fit.pieces().get(p).seconds();
            int column = fit.columns().line(index);
            readings.add(length, cosine(p, index), sine(p, index), noise * fit.variance(p, column));
            inflation += length * fit.inflation(p, column);
            seconds += length;
        }
        double[] amplitude = readings.amplitude(turned);
        double byOrder = orders.inflation(hz);
        double byResponse = plan.response().unsure(hz, rest.angleEnergy(hz), rest.levelEnergy());
        double byModel = Math.hypot(modelShare(hz), byResponse);
        double standard = 100 * Math.hypot(amplitude[1] * Math.sqrt(byOrder), byModel * amplitude[0]);
        return new SpeedLine(
                hz, plan.lineMultiple(index), 100 * amplitude[0], standard, Math.max(byOrder, inflation / seconds), 0);
    }

    /** A line as fast as the tacho, or twice as fast, leaves little but slow swings in its cycles. */
    private double modelShare(double hz) {
        double cycleHz = orders.polePairs() * orders.shaftHz();
        boolean beside = Math.abs(hz - cycleHz * Math.max(1, Math.rint(hz / cycleHz))) < SLOW_BEAT_HZ;
        return beside ? BESIDE_SHARE : MODEL_SHARE;
    }

    private List<HumLine> hum(RestSpectrum rest, double[] turned) {
        List<HumLine> hum = new ArrayList<>();
        for (int j = 0; j < fit.columns().humHz().size(); j++) {
            double hz = fit.columns().humHz().get(j);
            double noise = rest.toneNoise(hz, orders::near);
            PieceLines readings = new PieceLines();
            for (int p = 0; p < fit.pieces().size(); p++) {
                int column = fit.columns().hum(j);
                readings.add(
                        fit.pieces().get(p).seconds(),
                        fit.coefficient(p, column),
                        fit.coefficient(p, column + 1),
                        noise * fit.variance(p, column));
            }
            double[] amplitude = readings.amplitude(turned);
            hum.add(new HumLine(hz, plan.humMultiple(j), amplitude[0], amplitude[1]));
        }
        return hum;
    }

    /** Whether in any piece pick-up of some size beats so slowly with the tacho that the smooth angle cannot be told from it. */
    private boolean isSwamped(List<HumLine> hum) {
        boolean fitted = hum.stream().anyMatch(h -> h.mainsMultiple() == 1);
        double amplitude = fit.turn().amplitude(orders.polePairs());
        for (AnglePiece piece : fit.pieces()) {
            double cycleHz = orders.polePairs() * piece.shaftHz();
            if (!fitted && Math.abs(plan.mainsHz() - cycleHz) < SLOW_BEAT_HZ) {
                return true;
            }
            double least = SWAMPING_SHARE * 2 * Math.PI * piece.shaftHz() * amplitude;
            if (hum.stream().anyMatch(h -> Math.abs(h.hz() - cycleHz) < SLOW_BEAT_HZ && h.volts() > least)) {
                return true;
            }
        }
        return false;
    }

    private MainsReading reading(int multiple, List<SpeedLine> all, boolean swamped) {
        double hz = multiple * plan.mainsHz();
        if (hz > toHz) {
            return none(hz, MainsReading.Why.TOO_FAST, 0, 0);
        }
        if (plan.lineOf(multiple) < 0) {
            return none(hz, MainsReading.Why.SHAFT_ORDER, orders.nearest(hz), 0);
        }
        if (swamped) {
            return none(hz, MainsReading.Why.PICK_UP, 0, 0);
        }
        SpeedLine line = all.get(plan.lineOf(multiple));
        boolean spoilt = orders.isKnown(hz)
                ? fit.inflationByColumns(fit.columns().line(plan.lineOf(multiple))) > MOST_INFLATION
                : line.inflation() > MOST_INFLATION;
        if (spoilt) {
            boolean order = orders.near(hz);
            return none(hz, order ? MainsReading.Why.SHAFT_ORDER : MainsReading.Why.PICK_UP, orders.nearest(hz), 0);
        }
        double expanded = line.expandedPercent();
        boolean vague = expanded > VAGUE_SHARE * line.amplitudePercent()
                && expanded + line.amplitudePercent() > MATTERS_PERCENT;
        return vague
                ? none(hz, MainsReading.Why.NOISE, 0, line.amplitudePercent() + expanded)
                : new MainsReading.Told(line);
    }

    private MainsReading none(double hz, MainsReading.Why why, int order, double hiddenPercent) {
        double slower = 0;
        double faster = 0;
        if (order > 0) {
            double apart =
                    Math.min(0.25 * orders.shaftHz(), Math.max(CLEAN_TURNS / orders.pieceSeconds(), CLEAN_SHARE * hz));
            slower = 60 * (hz - apart) / order;
            faster = 60 * (hz + apart) / order;
        }
        return new MainsReading.NotTellable(hz, why, order, orders.pieceSeconds(), hiddenPercent, slower, faster);
    }

    private record Spectrum(DoubleSeries hz, DoubleSeries percent) {}

    /** The rest's spectrum with the fitted lines put back at their places. */
    private Spectrum spectrum(RestSpectrum rest, List<SpeedLine> lines) {
        int group = Math.max(1, rest.bins() / MOST_POINTS);
        DoubleSeries.Builder hz = new DoubleSeries.Builder();
        DoubleSeries.Builder percent = new DoubleSeries.Builder();
        for (int from = 2; from + group < rest.bins(); from += group) {
            double middle = (from + 0.5 * (group - 1)) * rest.binHz();
            if (middle >= fromHz && middle <= toHz) {
                double largest = 0;
                for (int k = from; k < from + group; k++) {
                    largest = Math.max(largest, rest.amplitudePercent(k));
                }
                for (SpeedLine line : lines) {
                    boolean here = Math.abs(line.hz() - middle) <= 0.5 * group * rest.binHz();
                    largest = here ? Math.max(largest, line.amplitudePercent()) : largest;
                }
                hz.add(middle);
                percent.add(largest);
            }
        }
        return new Spectrum(hz.build(), percent.build());
    }

    private boolean isProven(SpeedLine line) {
        return line.amplitudePercent() >= PROVEN * line.standardUncertaintyPercent()
                && (line.inflation() <= MOST_INFLATION || orders.isKnown(line.hz()));
    }

    private LineMotion motion(boolean[] isProven) {
        LineMotion.Builder motion = new LineMotion.Builder();
        int lines = fit.columns().lineHz().size();
        for (int p = 0; p < fit.pieces().size(); p++) {
            double[] cosine = new double[lines];
            double[] sine = new double[lines];
            for (int j = 0; j < lines; j++) {
                double whole = isProven[j]
                        ? 1 / (1 - smooth.gain(fit.columns().lineHz().get(j)))
                        : 0;
                cosine[j] = whole * fit.line(p, j, 1);
                sine[j] = -whole * fit.line(p, j, 0);
            }
            motion.add(fit.pieces().get(p).span(), fit.columns().lineHz(), cosine, sine);
        }
        return motion.build();
    }

    /** Cosine part of a line's speed in a piece, as a share of the mean: what the fit has, turned from angle to speed, and what is slow. */
    private double cosine(int piece, int line) {
        return fit.line(piece, line, 1) + slow.cosine(piece, line);
    }

    private double sine(int piece, int line) {
        return slow.sine(piece, line) - fit.line(piece, line, 0);
    }

    /**
     * What the noise gives the smooth angle's speed. White noise of variance s^2 at r samples a second has, seen as speed, the density
     * 2 s^2 / (r E(f)), with E the mean square of a line's two columns (own derivation); summed over what the smooth angle passes.
     */
    private double slowNoise(RestSpectrum rest) {
        double rateHz = 1 / fit.pieces().get(0).stepSeconds;
        double sum = 0;
        double step = fromHz / SLOW_STEPS;
        double noise = Math.min(fit.restVariance(), rest.speedNoise(0.5 * toHz, f -> taken(f, rest)));
        for (double hz = 0.5 * step; hz < 2 * fromHz; hz += step) {
            double passes = smooth.gain(hz);
            sum += step * passes * passes * 2 * noise / (rateHz * rest.energy(hz));
        }
        return Math.sqrt(sum);
    }
}
