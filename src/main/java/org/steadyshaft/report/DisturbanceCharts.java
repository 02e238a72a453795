package org.steadyshaft.report;

import static org.steadyshaft.report.ChartParts.WIDTH;
import static org.steadyshaft.report.ChartParts.add;
import static org.steadyshaft.report.ChartParts.axis;
import static org.steadyshaft.report.ChartParts.chart;
import static org.steadyshaft.report.ChartParts.logAxis;
import static org.steadyshaft.report.ChartParts.plot;

import java.awt.BasicStroke;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.jfree.chart.plot.CombinedDomainXYPlot;
import org.jfree.chart.plot.ValueMarker;
import org.jfree.chart.plot.XYPlot;
import org.jfree.data.xy.XYSeries;
import org.steadyshaft.analysis.Rotation;
import org.steadyshaft.analysis.WaveformExtract;
import org.steadyshaft.blip.Blip;
import org.steadyshaft.report.ChartParts.Chart;
import org.steadyshaft.response.Step;
import org.steadyshaft.ripple.OrderSpectrum;
import org.steadyshaft.signal.SpeedTrack;
import org.steadyshaft.stability.StabilityPoint;

/** Charts of what disturbs the speed: blips close up, ripple by turn, stability over time, steps. */
final class DisturbanceCharts {
    private static final double DECADES = 1e-4;

    /** A step is shown from so long before it to so many settling times after. */
    private static final double BEFORE_STEP_SECONDS = 1;

    private static final double LEAST_AFTER_SECONDS = 3;

    private DisturbanceCharts() {}

    /** Speed and raw voltage around a blip on one time axis. */
    static Chart closeUp(int number, Rotation rotation, Blip blip, WaveformExtract extract) {
        double from = extract.fromSeconds();
        double to = from + extract.values().size() / extract.sampleRateHz();
        SpeedTrack track = rotation.track();
        int first = track.firstNotBefore(from);
        int end = Math.max(first, Math.min(track.size(), track.firstNotBefore(to)));
        Thinned thinned = new Thinned(WIDTH);
        XYSeries speed =
                thinned.line("speed", end - first, i -> track.timeSeconds(first + i), i -> track.speedRpm(first + i));
        XYSeries volts = thinned.line(
                "voltage", extract.values().size(), i -> from + i / extract.sampleRateHz(), extract.values()::get);
        CombinedDomainXYPlot both = new CombinedDomainXYPlot(axis("time in s"));
        both.setGap(6);
        XYPlot upper = plot(null, axis("rpm"));
        add(upper, 0, speed, ChartColour.SPEED);
        XYPlot lower = plot(null, axis("voltage"));
        add(lower, 0, volts, ChartColour.MUTED);
        for (XYPlot plot : List.of(upper, lower)) {
            ValueMarker peak = new ValueMarker(blip.peakSeconds());
            peak.setPaint(ChartColour.MARK.colour());
            peak.setStroke(new BasicStroke(1));
            plot.addDomainMarker(peak);
            both.add(plot);
        }
        String what = String.format(
                Locale.ROOT,
                "%+.1f %% at %.3f s: %s",
                blip.peakPercent(),
                blip.peakSeconds(),
                blip.cause().word());
        return chart("blip" + number, both, new ChartWords(what, "", what, what + ". " + evidence(blip)));
    }

    /** What speaks for the cause of a blip. */
    static String evidence(Blip blip) {
        StringBuilder text = new StringBuilder(String.format(
                Locale.ROOT,
                "It %s within %.0f ms",
                blip.peakPercent() > 0 ? "rose" : "fell",
                1000 * blip.shape().riseSeconds()));
        blip.shape()
                .recoverySeconds()
                .ifPresent(seconds ->
                        text.append(String.format(Locale.ROOT, ", came back with a time constant of %.2f s", seconds)));
        text.append(String.format(
                Locale.ROOT,
                ", and the shaft %s %.3f turns.",
                blip.shape().turns() > 0 ? "gained" : "lost",
                Math.abs(blip.shape().turns())));
        return text.toString();
    }

    /** Ripple against swings a turn; absent without a steady stretch. */
    static Optional<Chart> orders(Rotation rotation) {
        OrderSpectrum orders = rotation.orders();
        double highest = orders.amplitudePercent().stream().skip(1).max().orElse(0);
        if (!(highest > 0)) {
            return Optional.empty();
        }
        XYSeries series = new Thinned(WIDTH)
                .peaks(
                        "ripple",
                        orders.order().size() - 1,
                        i -> orders.order().get(i + 1),
                        i -> Math.max(
                                DECADES * highest, orders.amplitudePercent().get(i + 1)));
        XYPlot plot = plot(
                axis("swings a turn of the shaft"),
                logAxis("amplitude in % of mean speed", DECADES * highest, 4 * highest));
        add(plot, 0, series, ChartColour.SPEED);
        return Optional.of(chart(
                "orders",
                plot,
                new ChartWords(
                        "Ripple by turn",
                        rotation.spectrum().lines().stream()
                                .findFirst()
                                .map(line -> "the largest swing comes " + Numbers.significant(line.order(), 4)
                                        + " times a turn, " + line.cause().word())
                                .orElse("no swing stands clear of the noise"),
                        "Amplitude of the speed's swing against swings a turn, up to "
                                + Numbers.significant(orders.order().last(), 3) + ".",
                        "The same ripple counted along the shaft's angle: what turns with the shaft stands sharp at 1, 2, 3 swings a turn, what"
                                + " comes from the mains stands between them and smears where the speed wanders. The poles' own spacing is"
                                + " taken out.")));
    }

    /** Allan deviation over averaging time; absent where it was not measured. */
    static Optional<Chart> stability(Rotation rotation) {
        List<StabilityPoint> points = rotation.stability();
        if (points.size() < 2) {
            return Optional.empty();
        }
        XYSeries middle = new XYSeries("deviation", false, true);
        XYSeries low = new XYSeries("low", false, true);
        XYSeries high = new XYSeries("high", false, true);
        double least = Double.POSITIVE_INFINITY;
        double most = 0;
        for (StabilityPoint point : points) {
            middle.add(point.tauSeconds(), 100 * point.deviation());
            low.add(point.tauSeconds(), 100 * point.low95());
            high.add(point.tauSeconds(), 100 * point.high95());
            least = Math.min(least, 100 * point.low95());
            most = Math.max(most, 100 * point.high95());
        }
        XYPlot plot = plot(
                logAxis(
                        "averaging time in s",
                        points.get(0).tauSeconds() / 1.2,
                        points.get(points.size() - 1).tauSeconds() * 1.2),
                logAxis("Allan deviation in %", Math.max(least, 1e-6 * most) / 1.5, 1.5 * most));
        add(plot, 0, middle, ChartColour.SPEED);
        add(plot, 1, low, ChartColour.MUTED);
        add(plot, 2, high, ChartColour.MUTED);
        return Optional.of(chart(
                "stability",
                plot,
                new ChartWords(
                        "Stability over time",
                        steadiest(points),
                        "Allan deviation of the speed against averaging time, with 95 % limits.",
                        "How much the mean speed differs from one span of time to the next, by the length of the span (overlapping Allan"
                                + " deviation; thin lines: 95 % limits). Falling: longer averages are steadier. A hump: a swing of about"
                                + " twice that period. Rising at the right: the speed wanders or drifts.")));
    }

    /** Over which span averages are steadiest, and how steady over the shortest and the longest. */
    private static String steadiest(List<StabilityPoint> points) {
        StabilityPoint best = points.stream()
                .min(Comparator.comparingDouble(StabilityPoint::deviation))
                .orElseThrow();
        return "steadiest over " + Numbers.significant(best.tauSeconds(), 2) + " s, "
                + Numbers.significant(100 * best.deviation(), 2) + " %; over "
                + Numbers.significant(points.get(0).tauSeconds(), 2) + " s "
                + Numbers.significant(100 * points.get(0).deviation(), 2) + " %, over "
                + Numbers.significant(points.get(points.size() - 1).tauSeconds(), 2) + " s "
                + Numbers.significant(100 * points.get(points.size() - 1).deviation(), 2) + " %";
    }

    static List<Chart> steps(Rotation rotation) {
        List<Chart> charts = new ArrayList<>();
        for (Step step : rotation.steps()) {
            charts.add(step(charts.size() + 1, rotation.track(), step));
        }
        return charts;
    }

    private static Chart step(int number, SpeedTrack track, Step step) {
        double settling = step.settlingTimeSeconds().orElse(3 * step.riseTimeSeconds());
        double to = step.timeSeconds() + Math.max(LEAST_AFTER_SECONDS, 2 * settling);
        int end = Math.min(track.size(), track.firstNotBefore(to));
        int from = track.firstNotBefore(step.timeSeconds() - BEFORE_STEP_SECONDS);
        XYSeries series = new Thinned(WIDTH)
                .line("speed", end - from, i -> track.timeSeconds(from + i), i -> track.speedRpm(from + i));
        XYPlot plot = plot(axis("time in s"), axis("speed in rpm"));
        add(plot, 0, series, ChartColour.SPEED);
        for (double level : new double[] {step.fromRpm(), step.toRpm()}) {
            plot.addRangeMarker(marker(level));
        }
        plot.addDomainMarker(marker(step.timeSeconds()));
        step.settlingTimeSeconds().ifPresent(s -> plot.addDomainMarker(marker(step.timeSeconds() + s)));
        String what = String.format(
                Locale.ROOT,
                "Step from %.1f to %.1f rpm at %.2f s: 10 to 90 %% in %.3f s, overshoot %.1f %%%s",
                step.fromRpm(),
                step.toRpm(),
                step.timeSeconds(),
                step.riseTimeSeconds(),
                step.overshootPercent(),
                step.settlingTimeSeconds().isPresent()
                        ? String.format(
                                Locale.ROOT,
                                ", within 2 %% after %.2f s",
                                step.settlingTimeSeconds().getAsDouble())
                        : ", not settled in this recording");
        return chart(
                "step" + number,
                plot,
                new ChartWords(
                        "Step at " + Numbers.fixed(step.timeSeconds(), 2) + " s",
                        "from " + MotorVerdict.rpm(step.fromRpm()) + " to " + MotorVerdict.rpm(step.toRpm())
                                + ", overshoot " + Numbers.fixed(step.overshootPercent(), 1) + " %",
                        what,
                        what + ". Lines: the levels before and after, the start, and where it has settled."));
    }

    private static ValueMarker marker(double value) {
        ValueMarker marker = new ValueMarker(value);
        marker.setPaint(ChartColour.MARK.colour());
        marker.setStroke(new BasicStroke(1));
        return marker;
    }
}
