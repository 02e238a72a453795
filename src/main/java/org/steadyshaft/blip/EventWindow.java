package org.steadyshaft.blip;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Consumer;
import org.steadyshaft.numeric.ColumnFit;
import org.steadyshaft.numeric.OrthogonalFit;
import org.steadyshaft.voltage.LocalSeries;
import org.steadyshaft.voltage.TurnVoltage;
import org.steadyshaft.voltage.VoltagePiece;

/**
 * A tenth of a second or two of the waveform around a candidate, with what every explanation shares: angle and level that follow as
 * cubics, an offset on a straight line, steady hum; the measured level is a factor, so that a tacho that swings hides no blip.
 */
final class EventWindow {
    /** Samples left out at either end, where the angle's slope is one-sided. */
    private static final int TRIM = 3;

    private static final double BESIDE_TACHO_HZ = 8;
    private static final double TURN = 2 * Math.PI;

    final double centreSeconds;
    final double afterSeconds;
    final int samples;
    final double[] time;
    final double[] place;
    final double[] volts;
    private final double[] level;
    private final double[] known;
    private final double[] jumps;
    final double[][] hum;
    final int places;
    final double[] placeTime;
    final double[] placeAngle;
    final double[] placeWeight;
    private final TurnVoltage turn;
    private final double stepSeconds;

    EventWindow(
            VoltagePiece piece,
            TurnVoltage turn,
            double mainsHz,
            Known knowns,
            double[] levels,
            double[] variance,
            double centreSeconds,
            double beforeSeconds,
            double afterSeconds) {
        this.turn = turn;
        this.centreSeconds = centreSeconds;
        this.afterSeconds = afterSeconds;
        this.stepSeconds = piece.stepSeconds();
        double from = centreSeconds - beforeSeconds;
        double to = centreSeconds + afterSeconds;
        int first = (int) Math.max(0, Math.ceil((from - piece.firstSeconds()) / stepSeconds));
        int end = (int) Math.min(piece.samples(), Math.ceil((to - piece.firstSeconds()) / stepSeconds));
        this.samples = Math.max(0, end - first);
        LocalSeries series = piece.series();
        int a = firstPlace(series, from);
        int b = firstPlace(series, to);
        this.places = b - a;
        this.time = new double[samples];
        this.place = new double[samples];
        this.volts = new double[samples];
        this.level = new double[samples];
        this.known = new double[samples];
        this.jumps = new double[samples];
        this.placeTime = new double[places];
        this.placeAngle = new double[places];
        this.placeWeight = new double[places];
        double start = places > 0 ? series.angle(a) - knowns.onPlaces[a] : 0;
        for (int k = 0; k < places; k++) {
            placeTime[k] = series.timeSeconds(a + k);
            placeAngle[k] = series.angle(a + k) - knowns.onPlaces[a + k] - start;
            placeWeight[k] = 1 / Math.sqrt(variance[a + k]);
        }
        for (int i = 0; i < samples; i++) {
            time[i] = piece.timeSeconds(first + i);
            place[i] = (time[i] - centreSeconds) / afterSeconds;
            volts[i] = piece.volts(first + i);
            known[i] = knowns.onSamples[first + i] + start;
            jumps[i] = knowns.jumpOnSamples[first + i];
            level[i] = levels[first + i];
        }
        this.hum = isUsable() ? hums(piece, first, mainsHz) : new double[0][];
    }

    private static int firstPlace(LocalSeries series, double seconds) {
        int low = 0;
        int high = series.size();
        while (low < high) {
            int middle = (low + high) >>> 1;
            if (series.timeSeconds(middle) < seconds) {
                low = middle + 1;
            } else {
                high = middle;
            }
        }
        return low;
    }

    boolean isUsable() {
        return places >= 12 && samples >= 40;
    }

    double fromSeconds() {
        return time[0];
    }

    double toSeconds() {
        return time[samples - 1];
    }

    private double[][] hums(VoltagePiece piece, int first, double mainsHz) {
        double fc = (piece.angle(first + samples - 1) - piece.angle(first))
                * piece.polePairs()
                / (TURN * (samples - 1) * stepSeconds);
        List<double[]> found = new ArrayList<>();
        for (int m = 1; m <= 3; m++) {
            double f = m * mainsHz;
            if (Math.abs(f - fc) > BESIDE_TACHO_HZ && f * stepSeconds < 0.4) {
                double[] c = new double[samples];
                double[] s = new double[samples];
                for (int i = 0; i < samples; i++) {
                    c[i] = Math.cos(TURN * f * time[i]);
                    s[i] = Math.sin(TURN * f * time[i]);
                }
                found.add(c);
                found.add(s);
            }
        }
        return found.toArray(new double[0][]);
    }

    /** The model at an angle: what level, angle and a faster angle add. */
    final class Look {
        final double[] ofLevel;
        final double[] ofAngle;
        final double[] ofSpeed;

        /** @param phase angle without what is known, at every sample */
        Look(double[] phase) {
            this(phase, jumps);
        }

        /** @param jump angle that is added but is no speed */
        Look(double[] phase, double[] jump) {
            double[] smooth = new double[samples];
            double[] angle = new double[samples];
            for (int i = 0; i < samples; i++) {
                smooth[i] = phase[i] + known[i];
                angle[i] = smooth[i] + jump[i];
            }
            ofLevel = new double[samples];
            ofAngle = new double[samples];
            ofSpeed = new double[samples];
            turn.fill(angle, ofSpeed, ofAngle, samples);
            for (int i = 0; i < samples; i++) {
                int a = Math.max(0, i - 1);
                int b = Math.min(samples - 1, i + 1);
                double speed = (smooth[b] - smooth[a]) / ((b - a) * stepSeconds) * level[i];
                ofLevel[i] = speed * ofSpeed[i];
                ofAngle[i] *= speed;
                ofSpeed[i] *= level[i];
            }
        }

        /** What an added angle gives, its slope by differences. */
        double[] ofAdded(double[] angle) {
            double[] column = new double[samples];
            for (int i = 0; i < samples; i++) {
                int a = Math.max(0, i - 1);
                int b = Math.min(samples - 1, i + 1);
                column[i] = ofAngle[i] * angle[i] + ofSpeed[i] * (angle[b] - angle[a]) / ((b - a) * stepSeconds);
            }
            return column;
        }

        /** The fit with what all explanations share, angle first, then the rest. */
        OrthogonalFit shared() {
            OrthogonalFit fit = new OrthogonalFit(trim(volts));
            addAngle(fit::add);
            addRest(fit::add);
            return fit;
        }

        /** The same for a descent, the angle only: its four coefficients are those of the angle's cubic, highest power first. */
        ColumnFit descent() {
            ColumnFit fit = new ColumnFit(trim(volts));
            addAngle(fit::add);
            return fit;
        }

        private void addAngle(Consumer<double[]> columns) {
            for (int power = 3; power >= 0; power--) {
                double[] column = new double[rows()];
                for (int i = 0; i < column.length; i++) {
                    double u = place[i + TRIM];
                    double lower = power == 0 ? 0 : power == 1 ? 1 : power == 2 ? u : u * u;
                    column[i] = ofAngle[i + TRIM] * (power == 0 ? 1 : u * lower)
                            + ofSpeed[i + TRIM] * power * lower / afterSeconds;
                }
                columns.accept(column);
            }
        }

        /** Adds the level's cubic, the offset's line and the hum. */
        void addRest(Consumer<double[]> columns) {
            for (int power = 0; power <= 3; power++) {
                double[] column = new double[rows()];
                for (int i = 0; i < column.length; i++) {
                    column[i] = ofLevel[i + TRIM] * power(place[i + TRIM], power);
                }
                columns.accept(column);
            }
            for (int power = 0; power <= 1; power++) {
                double[] column = new double[rows()];
                for (int i = 0; i < column.length; i++) {
                    column[i] = power(place[i + TRIM], power);
                }
                columns.accept(column);
            }
            for (double[] wave : hum) {
                columns.accept(trim(wave));
            }
        }
    }

    /** The known jumps with another one. */
    double[] jumpsWith(double atSeconds, double angle) {
        double[] all = jumps.clone();
        for (int i = 0; i < samples; i++) {
            all[i] += time[i] > atSeconds ? angle : 0;
        }
        return all;
    }

    static double power(double u, int power) {
        return power == 0 ? 1 : power == 1 ? u : power == 2 ? u * u : u * u * u;
    }

    static double[] trim(double[] values) {
        return java.util.Arrays.copyOfRange(values, TRIM, values.length - TRIM);
    }

    /** Mean square that a fit leaves, its columns counted. */
    static double left(double energy, int rows, int columns) {
        return energy / Math.max(4, rows - columns);
    }

    int rows() {
        return samples - 2 * TRIM;
    }

    double[] cubic(double[] coefficients) {
        double[] values = new double[samples];
        for (int i = 0; i < samples; i++) {
            double u = place[i];
            values[i] = ((coefficients[0] * u + coefficients[1]) * u + coefficients[2]) * u + coefficients[3];
        }
        return values;
    }

    /** A weighted fit of the series with the angle's cubic first; further columns are added by the caller. */
    OrthogonalFit seriesFit() {
        double[] target = new double[places];
        for (int k = 0; k < places; k++) {
            target[k] = placeAngle[k] * placeWeight[k];
        }
        OrthogonalFit fit = new OrthogonalFit(target);
        for (int power = 3; power >= 0; power--) {
            double[] column = new double[places];
            for (int k = 0; k < places; k++) {
                column[k] = placeWeight[k] * power((placeTime[k] - centreSeconds) / afterSeconds, power);
            }
            fit.add(column);
        }
        return fit;
    }

    double[] bendOnPlaces(double start, double rise, double back) {
        return bendOnPlaces(start, rise, back, 0);
    }

    double[] bendOnPlaces(double start, double rise, double back, double ringing) {
        double[] column = new double[places];
        for (int k = 0; k < places; k++) {
            column[k] = placeWeight[k] * Kink.bend(placeTime[k] - start, rise, back, ringing);
        }
        return column;
    }
}
