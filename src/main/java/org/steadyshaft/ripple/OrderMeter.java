package org.steadyshaft.ripple;

import java.util.List;
import org.steadyshaft.numeric.RealTransform;
import org.steadyshaft.numeric.Window;
import org.steadyshaft.published.CosineWindow;
import org.steadyshaft.signal.DoubleSeries;
import org.steadyshaft.signal.SpeedTrack;
import org.steadyshaft.signal.Stretch;
import org.steadyshaft.signal.Tachometer;

/**
 * The spectrum of the speed over cycles in place of seconds: averaged Hann sections of the cycle values, overlapping by half. A
 * cycle of the tacho is a fixed share of a turn, so what turns with the shaft stays sharp while the speed wanders.
 */
public final class OrderMeter {
    private static final int LONGEST_SECTION = 4096;
    private static final int SHORTEST_SECTION = 32;

    private final Tachometer tachometer;

    public OrderMeter(Tachometer tachometer) {
        this.tachometer = tachometer;
    }

    /** @return {@link OrderSpectrum#NONE} without a steady stretch of 32 cycles */
    public OrderSpectrum measure(SpeedTrack track, List<Stretch> steady, List<Stretch> leftOut) {
        SteadySpeed speed = new SteadySpeed(track, steady);
        leftOut.forEach(event -> speed.level(event.fromSeconds(), event.toSeconds()));
        int most = speed.pieces().stream()
                .mapToInt(SteadySpeed.Piece::cycles)
                .max()
                .orElse(0);
        int length = LONGEST_SECTION;
        while (length > most && length >= SHORTEST_SECTION) {
            length /= 2;
        }
        if (length < SHORTEST_SECTION) {
            return OrderSpectrum.NONE;
        }
        double[] power = averagePower(speed, length);
        double[] order = new double[power.length];
        double[] amplitude = new double[power.length];
        for (int k = 0; k < power.length; k++) {
            double share = (double) k / length;
            order[k] = share * tachometer.polePairs();
            amplitude[k] = Math.sqrt(power[k]) / SlowLineFinder.averaging(share);
        }
        return new OrderSpectrum(DoubleSeries.of(order), DoubleSeries.of(amplitude));
    }

    private static double[] averagePower(SteadySpeed speed, int length) {
        Window window = Window.of(CosineWindow.HANN, length);
        RealTransform transform = new RealTransform(length);
        double[] work = new double[length];
        double[] power = new double[length / 2 + 1];
        double[] sum = new double[length / 2 + 1];
        int sections = 0;
        for (SteadySpeed.Piece piece : speed.pieces()) {
            for (int from = 0; from + length <= piece.cycles(); from += length / 2) {
                double mean = 0;
                for (int i = from; i < from + length; i++) {
                    mean += piece.deviationPercent[i] / length;
                }
                window.apply(piece.deviationPercent, from, mean, work);
                transform.forward(work);
                transform.power(work, power);
                for (int k = 0; k < sum.length; k++) {
                    sum[k] += power[k];
                }
                sections++;
            }
        }
        double scale = 4 / (window.sum() * window.sum() * Math.max(1, sections));
        for (int k = 0; k < sum.length; k++) {
            sum[k] *= scale;
        }
        return sum;
    }
}
