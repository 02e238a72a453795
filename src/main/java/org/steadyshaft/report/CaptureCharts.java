package org.steadyshaft.report;

import static org.steadyshaft.report.ChartParts.TICK_FONT;
import static org.steadyshaft.report.ChartParts.add;
import static org.steadyshaft.report.ChartParts.axis;
import static org.steadyshaft.report.ChartParts.chart;
import static org.steadyshaft.report.ChartParts.logAxis;
import static org.steadyshaft.report.ChartParts.plot;

import java.awt.BasicStroke;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.jfree.chart.annotations.XYTextAnnotation;
import org.jfree.chart.axis.NumberAxis;
import org.jfree.chart.plot.IntervalMarker;
import org.jfree.chart.plot.ValueMarker;
import org.jfree.chart.plot.XYPlot;
import org.jfree.chart.ui.Layer;
import org.jfree.chart.ui.RectangleAnchor;
import org.jfree.chart.ui.TextAnchor;
import org.jfree.data.xy.XYSeries;
import org.jfree.data.xy.XYSeriesCollection;
import org.steadyshaft.analysis.Outcome;
import org.steadyshaft.analysis.Rotation;
import org.steadyshaft.analysis.WaveformExtract;
import org.steadyshaft.blip.Blip;
import org.steadyshaft.blip.Blips;
import org.steadyshaft.report.ChartParts.Chart;
import org.steadyshaft.ripple.RippleLine;
import org.steadyshaft.ripple.RippleSpectrum;
import org.steadyshaft.signal.FundamentalTrack;
import org.steadyshaft.signal.SpeedTrack;
import org.steadyshaft.signal.Stretch;
import org.steadyshaft.signal.Tachometer;
import org.steadyshaft.stability.Alarm;

/** The charts of a capture's page. */
public final class CaptureCharts {
    /** The plot is about so many points of the screen wide. */
    private static final int COLUMNS = 760;

    /** The plot of a narrow chart. */
    private static final int NARROW_COLUMNS = 420;

    private static final int MOST_LABELS = 4;

    /** Room a line's label takes, as a share of the axis. */
    private static final double LABEL_WIDTH = 0.5;

    private static final double SPECTRUM_DECADES = 1e-4;

    /** A line from a point to itself with this stroke is a dot: a row of them is one path, of which a dot takes thirty characters. */
    private static final BasicStroke DOT = new BasicStroke(3, BasicStroke.CAP_ROUND, BasicStroke.JOIN_ROUND);

    /** Of the blips in one of so many parts of the time, the highest and the lowest get a ring: more would lie on each other. */
    private static final int RING_COLUMNS = 60;

    private CaptureCharts() {}

    static Chart waveform(Outcome.Analysed outcome) {
        WaveformExtract extract = outcome.extract();
        XYSeries series = new Thinned(NARROW_COLUMNS)
                .line(
                        "waveform",
                        extract.values().size(),
                        i -> extract.fromSeconds() + i / extract.sampleRateHz(),
                        extract.values()::get);
        double low = extract.values().stream().min().orElse(0);
        double high = extract.values().stream().max().orElse(0);
        String unit = outcome.source().format().unit();
        XYPlot plot = plot(
                axis("time in s"),
                axis(unit.equals("FS") ? "part of full scale" : unit.equals("V") ? "voltage in V" : unit));
        add(plot, 0, series, ChartColour.SPEED);
        String swings = String.format(
                Locale.ROOT, "between %.3g and %.3g %s", low, high, unit.equals("FS") ? "of full scale" : unit);
        String description = String.format(
                Locale.ROOT,
                "The recorded voltage from %.4f s to %.4f s, %s.",
                extract.fromSeconds(),
                extract.fromSeconds() + extract.values().size() / extract.sampleRateHz(),
                swings);
        return chart(
                "waveform",
                plot,
                new ChartWords(
                        "The recorded voltage",
                        swings,
                        description,
                        outcome.rotation().isPresent()
                                ? "A piece of about eight cycles from the middle of the recording. A tacho gives a rounded wave; flat tops"
                                        + " are clipping, needles are switching spikes."
                                : "A tenth of a second from the middle of the recording."));
    }

    static Chart speed(Rotation rotation) {
        Columns columns = Columns.of(rotation.track(), COLUMNS);
        XYSeries series = new XYSeries("speed", false, true);
        for (int c = 0; c < columns.count(); c++) {
            if (columns.filled(c)) {
                if (columns.afterGap(c) && c > 0) {
                    series.add(columns.timeSeconds(c), null);
                }
                series.add(columns.timeSeconds(c), columns.low(c));
                series.add(columns.timeSeconds(c), columns.high(c));
            }
        }
        NumberAxis rpm = axis("speed in rpm");
        XYPlot plot = plot(axis("time in s"), rpm);
        add(plot, 0, series, ChartColour.SPEED);
        for (Stretch stretch : rotation.steady()) {
            IntervalMarker band = new IntervalMarker(stretch.fromSeconds(), stretch.toSeconds());
            band.setPaint(ChartColour.BAND.colour());
            band.setAlpha(1);
            plot.addDomainMarker(band, Layer.BACKGROUND);
        }
        for (Alarm alarm : rotation.alarms()) {
            IntervalMarker band = new IntervalMarker(
                    alarm.where().fromSeconds(), alarm.where().toSeconds());
            band.setPaint(ChartColour.ALARM.colour());
            band.setAlpha(1);
            band.setLabel(alarm.code().name());
            band.setLabelFont(TICK_FONT);
            band.setLabelPaint(ChartColour.INK.colour());
            band.setLabelAnchor(RectangleAnchor.TOP);
            band.setLabelTextAnchor(TextAnchor.TOP_CENTER);
            plot.addDomainMarker(band, Layer.BACKGROUND);
        }
        List<Blip> blips = rotation.blips().map(Blips::events).orElse(List.of());
        marks(plot, rotation, blips);
        String description = String.format(
                Locale.ROOT,
                "Speed of each tacho cycle over %.1f s, between %.1f and %.1f rpm; %d steady stretches, %d blips, %d alarms.",
                rotation.track().toSeconds(rotation.track().size() - 1)
                        - rotation.track().fromSeconds(0),
                rotation.speed().slowestRpm(),
                rotation.speed().fastestRpm(),
                rotation.steady().size(),
                blips.size(),
                rotation.alarms().size());
        return chart(
                "speed",
                plot,
                ChartParts.WIDE,
                new ChartWords(
                        "Speed over time",
                        "",
                        description,
                        "Where many cycles fall on one place, the line spans their lowest and highest speed. The shaded stretches"
                                + " are the steady ones, on which ripple and blips are measured; a ring marks each blip"
                                + (blips.size() > 2 * RING_COLUMNS ? " (where many lie close, the largest)" : "")
                                + "; a named band is an alarm."));
    }

    private static void marks(XYPlot plot, Rotation rotation, List<Blip> blips) {
        SpeedTrack track = rotation.track();
        XYSeries peaks = new Thinned(RING_COLUMNS)
                .line(
                        "blips",
                        blips.size(),
                        i -> blips.get(i).peakSeconds(),
                        i -> track.speedRpm(Math.min(
                                track.size() - 1,
                                track.firstNotBefore(blips.get(i).peakSeconds()))));
        plot.setDataset(1, new XYSeriesCollection(peaks));
        plot.setRenderer(1, new Rings(ChartColour.MARK));
    }

    /** Absent without a steady stretch. */
    static Optional<Chart> spectrum(Rotation rotation) {
        RippleSpectrum spectrum = rotation.spectrum();
        double highest = spectrum.amplitudePercent().stream().skip(1).max().orElse(0);
        if (!(highest > 0)) {
            return Optional.empty();
        }
        XYSeries series = new Thinned(NARROW_COLUMNS)
                .peaks(
                        "ripple",
                        spectrum.frequencyHz().size() - 1,
                        k -> spectrum.frequencyHz().get(k + 1),
                        k -> Math.max(spectrum.amplitudePercent().get(k + 1), SPECTRUM_DECADES * highest));
        XYPlot plot = plot(
                axis("frequency of the speed's swing in Hz"),
                logAxis("amplitude in % of mean speed", SPECTRUM_DECADES * highest, 4 * highest));
        add(plot, 0, series, ChartColour.SPEED);
        StringBuilder names = new StringBuilder();
        List<RippleLine> labelled = new ArrayList<>();
        double widthHz = LABEL_WIDTH * spectrum.frequencyHz().last();
        for (RippleLine line : spectrum.lines().stream().limit(MOST_LABELS).toList()) {
            if (labelled.stream().allMatch(o -> Math.abs(o.frequencyHz() - line.frequencyHz()) > widthHz)) {
                label(plot, line, widthHz, spectrum.frequencyHz().last());
                labelled.add(line);
            }
            names.append(String.format(
                    Locale.ROOT,
                    " %.3f %% at %.2f Hz (%s).",
                    line.amplitudePercent(),
                    line.frequencyHz(),
                    line.cause().word()));
        }
        spectrum.humHz()
                .forEach(hz -> place(plot, hz, "hum", spectrum.frequencyHz().last()));
        spectrum.hidden()
                .forEach(hz ->
                        place(plot, hz, "not tellable", spectrum.frequencyHz().last()));
        return Optional.of(chart(
                "ripple",
                plot,
                new ChartWords(
                        "Ripple spectrum",
                        spectrum.lines().isEmpty()
                                ? "no swing stands clear of the noise"
                                : largest(spectrum.lines().get(0)),
                        spectrum.lines().isEmpty()
                                ? "No line stands clear of the noise."
                                : "The largest lines:" + names,
                        "What swings regularly in the speed, by true frequency: fast swings from the waveform, slow ones from the cycles."
                                + " Needles are regular causes; the floor between them is noise. Dashed places: hum, which is no swing, and"
                                + " where a swing of the mains cannot be told.")));
    }

    private static String largest(RippleLine line) {
        return "the largest swing is "
                + Numbers.within(
                        line.amplitudePercent(),
                        line.amplitudePercent() - line.expandedPercent(),
                        line.amplitudePercent() + line.expandedPercent())
                + " % at " + Numbers.significant(line.frequencyHz(), 4) + " Hz, "
                + line.cause().word();
    }

    /** A dashed upright line with a word on it. */
    private static void place(XYPlot plot, double hz, String word, double lastHz) {
        if (hz > lastHz) {
            return;
        }
        ValueMarker marker = new ValueMarker(hz);
        marker.setPaint(ChartColour.MARK.colour());
        marker.setStroke(new BasicStroke(1, BasicStroke.CAP_BUTT, BasicStroke.JOIN_MITER, 10, new float[] {3, 4}, 0));
        marker.setLabel(word);
        marker.setLabelFont(TICK_FONT);
        marker.setLabelPaint(ChartColour.INK.colour());
        marker.setLabelAnchor(RectangleAnchor.BOTTOM_RIGHT);
        marker.setLabelTextAnchor(TextAnchor.BOTTOM_LEFT);
        plot.addDomainMarker(marker);
    }

    private static void label(XYPlot plot, RippleLine line, double widthHz, double lastHz) {
        double place = Math.max(0.5 * widthHz, Math.min(lastHz - 0.5 * widthHz, line.frequencyHz()));
        XYTextAnnotation label = new XYTextAnnotation(
                String.format(
                        Locale.ROOT,
                        "%.1f Hz %s",
                        line.frequencyHz(),
                        line.cause().word()),
                place,
                line.amplitudePercent() * 1.25);
        label.setTextAnchor(TextAnchor.BOTTOM_CENTER);
        label.setFont(TICK_FONT);
        label.setPaint(ChartColour.INK.colour());
        plot.addAnnotation(label);
    }

    static Chart spectralTrack(Outcome.Analysed outcome, Rotation rotation) {
        Tachometer tachometer = new Tachometer(outcome.settings().polePairs());
        FundamentalTrack spectral = rotation.spectral();
        XYSeries dots = new XYSeries("spectra", false, true);
        int step = Math.max(1, spectral.frames() / NARROW_COLUMNS);
        for (int i = 0; i < spectral.frames(); i += step) {
            if (spectral.rotates(i)) {
                dots.add(spectral.timeSeconds(i), spectral.frequencyHz(i));
                dots.add(spectral.timeSeconds(i), spectral.frequencyHz(i));
                dots.add(spectral.timeSeconds(i), null);
            }
        }
        Columns columns = Columns.of(rotation.track(), NARROW_COLUMNS / 2);
        XYSeries line = new XYSeries("crossings", false, true);
        for (int c = 0; c < columns.count(); c++) {
            if (columns.filled(c)) {
                line.add(columns.timeSeconds(c), tachometer.cycleHz(0.5 * (columns.low(c) + columns.high(c))));
            }
        }
        NumberAxis hz = axis("tacho frequency in Hz");
        XYPlot plot = plot(axis("time in s"), hz);
        add(plot, 1, dots, ChartColour.MARK);
        plot.getRenderer(1).setSeriesStroke(0, DOT);
        add(plot, 0, line, ChartColour.SPEED);
        String difference = rotation.speed().differencePercent().isPresent()
                ? String.format(
                        Locale.ROOT,
                        " Their means differ by %.4f %%.",
                        rotation.speed().differencePercent().getAsDouble())
                : "";
        return chart(
                "methods",
                plot,
                new ChartWords(
                        "Two ways to the speed",
                        rotation.speed().differencePercent().isPresent()
                                ? "their means differ by "
                                        + Numbers.significant(
                                                rotation.speed()
                                                        .differencePercent()
                                                        .getAsDouble(),
                                                2)
                                        + " %"
                                : "the spectra tell too little to compare",
                        "Tacho frequency over time by spectra of short frames and by counting crossings." + difference,
                        "Dots: the tacho frequency by spectra of short frames. Line: by counting crossings. Where they part, cycles"
                                + " were missed or something else was followed; do not trust the speed there."));
    }
}
