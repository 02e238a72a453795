package org.steadyshaft.report;

import static org.steadyshaft.report.ChartParts.TICK_FONT;
import static org.steadyshaft.report.ChartParts.WIDTH;
import static org.steadyshaft.report.ChartParts.axis;
import static org.steadyshaft.report.ChartParts.logAxis;
import static org.steadyshaft.report.ChartParts.plot;

import java.awt.BasicStroke;
import java.awt.Shape;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Path2D;
import java.awt.geom.Rectangle2D;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jfree.chart.axis.SymbolAxis;
import org.jfree.chart.axis.ValueAxis;
import org.jfree.chart.plot.XYPlot;
import org.jfree.chart.renderer.xy.XYLineAndShapeRenderer;
import org.jfree.data.xy.XYSeries;
import org.jfree.data.xy.XYSeriesCollection;
import org.steadyshaft.compare.Comparer;
import org.steadyshaft.compare.Comparison;
import org.steadyshaft.compare.Estimate;
import org.steadyshaft.compare.Group;
import org.steadyshaft.compare.Measure;
import org.steadyshaft.compare.Run;
import org.steadyshaft.compare.Sag;
import org.steadyshaft.compare.SpeedBand;
import org.steadyshaft.report.ChartParts.Chart;

/** The charts of the comparison page. Circuits differ by shape and dash as well as by colour. */
final class ComparisonCharts {
    private static final ChartColour[] COLOURS = {
        ChartColour.SPEED, ChartColour.SECOND, ChartColour.THIRD, ChartColour.FOURTH, ChartColour.FIFTH
    };
    private static final float[][] DASHES = {{1, 0}, {8, 4}, {2, 3}, {10, 3, 2, 3}, {4, 4}};
    private static final int ROW_HEIGHT = 24;
    private static final int FRAME_HEIGHT = 90;
    private static final double LEAST_SHARE = 1e-4;
    private static final Pattern NUMBER = Pattern.compile("[-+]?\\d+(?:[.,]\\d+)?");

    private final Comparison comparison;

    ComparisonCharts(Comparison comparison) {
        this.comparison = comparison;
    }

    List<Chart> all() {
        List<Chart> charts = new ArrayList<>();
        intervals(Measure.RIPPLE, true).ifPresent(charts::add);
        intervals(Measure.SWING, true).ifPresent(charts::add);
        intervals(Measure.BLIPS, false).ifPresent(charts::add);
        charts.addAll(spectra());
        settings().ifPresent(charts::add);
        regulation().ifPresent(charts::add);
        return charts;
    }

    /** A dot and its 95 % interval for every group, one row each, by band and load. */
    private Optional<Chart> intervals(Measure measure, boolean logarithmic) {
        List<Group> groups = comparison.groups().stream()
                .filter(g -> g.estimate(measure).isPresent())
                .toList();
        if (groups.isEmpty()) {
            return Optional.empty();
        }
        int rows = groups.size();
        String[] names = new String[rows];
        XYSeries dots = new XYSeries("value", false, true);
        XYSeries spans = new XYSeries("interval", false, true);
        double least = Double.POSITIVE_INFINITY;
        double most = 0;
        double largestDot = 0;
        for (Group group : groups) {
            Estimate e = group.estimate(measure).get();
            least = e.low95() > 0 ? Math.min(least, e.low95()) : least;
            largestDot = Math.max(largestDot, e.value());
            most = Math.max(most, Double.isFinite(e.high95()) ? e.high95() : e.value());
        }
        most = Math.min(most, 100 * Math.max(largestDot, 1e-3));
        least = Double.isFinite(least) ? Math.max(least, LEAST_SHARE * most) : LEAST_SHARE * most;
        StringBuilder words = new StringBuilder();
        for (int i = 0; i < rows; i++) {
            Group group = groups.get(i);
            Estimate e = group.estimate(measure).get();
            int row = rows - 1 - i;
            names[row] = group.circuit() + ", " + group.band().words() + ", " + load(group.load());
            double floor = logarithmic ? least : 0;
            dots.add(Math.max(floor, e.value()), row);
            spans.add(Math.max(floor, e.low95()), row);
            spans.add(Math.min(most, e.high95()), row);
            spans.add(e.value(), null);
            words.append(String.format(
                    Locale.ROOT,
                    " %s: %s (%s to %s).",
                    names[row],
                    Numbers.significant(e.value(), 2),
                    Numbers.significant(e.low95(), 2),
                    Numbers.significant(e.high95(), 2)));
        }
        SymbolAxis circuits = new SymbolAxis(null, names);
        circuits.setGridBandsVisible(false);
        ChartParts.style(circuits);
        String label = measure.title() + " in " + measure.unit();
        ValueAxis values = logarithmic ? logAxis(label, least / 1.3, most * 1.3) : axis(label);
        XYPlot plot = plot(values, circuits);
        addLine(plot, 0, spans, ChartColour.MUTED, new BasicStroke(2.5f), null);
        addLine(plot, 1, dots, ChartColour.SPEED, null, new Ellipse2D.Double(-5, -5, 10, 10));
        return Optional.of(ChartParts.chart(
                "compare-" + measure.word(),
                plot,
                WIDTH,
                FRAME_HEIGHT + ROW_HEIGHT * rows,
                capital(measure.title()),
                label + ":" + words,
                "Dot: what was measured (" + measure.meaning()
                        + "). Bar: where the truth lies with 95 % confidence. Bars that lie apart show different"
                        + " circuits; what is proven stands in the table of all comparisons. Less is better."));
    }

    /** Ripple spectra of the circuits that ran in one band with one load, on one axis. */
    private List<Chart> spectra() {
        Map<List<Object>, List<Group>> together = new LinkedHashMap<>();
        for (Group group : comparison.groups()) {
            together.computeIfAbsent(List.of(group.band(), group.load()), k -> new ArrayList<>())
                    .add(group);
        }
        List<Chart> charts = new ArrayList<>();
        together.forEach((key, groups) -> {
            if (groups.size() > 1) {
                spectrum((SpeedBand) key.get(0), (String) key.get(1), groups, charts.size() + 1)
                        .ifPresent(charts::add);
            }
        });
        return charts;
    }

    private Optional<Chart> spectrum(SpeedBand band, String load, List<Group> groups, int number) {
        double highest = groups.stream()
                .flatMap(g -> g.runs().get(0).spectrum().stream())
                .mapToDouble(Run.Point::y)
                .max()
                .orElse(0);
        if (!(highest > 0)) {
            return Optional.empty();
        }
        XYPlot plot = plot(
                axis("frequency of the speed's swing in Hz"),
                logAxis("amplitude in % of mean speed", LEAST_SHARE * highest, 2 * highest));
        int index = 0;
        for (Group group : groups) {
            XYSeries series = new XYSeries(group.circuit(), false, true);
            for (Run.Point point : group.runs().get(0).spectrum()) {
                series.add(point.x(), Math.max(LEAST_SHARE * highest, point.y()));
            }
            addCircuit(plot, index++, series, group.circuit(), null);
        }
        String heading = "Ripple spectra, " + band.words() + ", " + load(load);
        return Optional.of(ChartParts.withLegend(
                "spectra" + number,
                plot,
                heading,
                heading + " of "
                        + String.join(", ", groups.stream().map(Group::circuit).toList()) + ".",
                "The first run of each circuit at about the same speed: what swings regularly, by frequency."));
    }

    /** Speed against setting, where settings are numbers. */
    private Optional<Chart> settings() {
        XYPlot plot = plot(axis("setting"), axis("speed in rpm"));
        int index = 0;
        for (String circuit : comparison.circuits()) {
            for (boolean light : new boolean[] {true, false}) {
                XYSeries series = new XYSeries(circuit + (light ? ", light" : ", loaded"), true, true);
                for (Run run : comparison.runs()) {
                    OptionalDouble setting = number(run.label().setting());
                    if (run.circuit().equals(circuit) && isLight(run) == light && setting.isPresent()) {
                        series.add(setting.getAsDouble(), run.meanRpm());
                    }
                }
                if (series.getItemCount() > 1) {
                    addCircuit(plot, index++, series, circuit, light ? null : new Rectangle2D.Double(-4, -4, 8, 8));
                }
            }
        }
        return index == 0
                ? Optional.empty()
                : Optional.of(ChartParts.withLegend(
                        "settings",
                        plot,
                        "Speed against setting",
                        "Mean speed of every run against the number in its setting, by circuit, light and loaded.",
                        "The number in each run's setting and the speed of the motor's shaft that came of it. A square marks runs under"
                                + " load: the further it lies below, the more the circuit sags."));
    }

    private static boolean isLight(Run run) {
        return Comparer.isLight(run.label().load());
    }

    private Optional<Chart> regulation() {
        XYPlot plot = plot(axis("loaded speed in rpm"), axis("sag in % of the loaded speed"));
        int index = 0;
        for (String circuit : comparison.circuits()) {
            XYSeries series = new XYSeries(circuit, true, true);
            for (Sag sag : comparison.sags()) {
                if (sag.circuit().equals(circuit)) {
                    series.add(sag.loadedRpm(), sag.regulation().percent());
                }
            }
            if (series.getItemCount() > 0) {
                addCircuit(plot, index++, series, circuit, new Ellipse2D.Double(-4, -4, 8, 8));
            }
        }
        return index == 0
                ? Optional.empty()
                : Optional.of(
                        ChartParts.withLegend(
                                "regulation",
                                plot,
                                "Sag under load",
                                "Speed regulation, light less loaded over loaded, against the loaded speed, by circuit.",
                                "How much slower each circuit runs under load at the same setting: (n_light - n_load) / n_load. Less is stiffer."));
    }

    static OptionalDouble number(String setting) {
        Matcher matcher = NUMBER.matcher(setting);
        return matcher.find()
                ? OptionalDouble.of(Double.parseDouble(matcher.group().replace(',', '.')))
                : OptionalDouble.empty();
    }

    private static String load(String load) {
        return load.isEmpty() ? "load not said" : "load " + load;
    }

    private static String capital(String words) {
        return words.substring(0, 1).toUpperCase(Locale.ROOT) + words.substring(1);
    }

    private void addCircuit(XYPlot plot, int index, XYSeries series, String circuit, Shape shape) {
        int place = comparison.circuits().indexOf(circuit);
        int style = Math.max(0, place) % COLOURS.length;
        float[] dash = DASHES[style];
        BasicStroke stroke = dash[1] == 0
                ? new BasicStroke(1.6f)
                : new BasicStroke(1.6f, BasicStroke.CAP_BUTT, BasicStroke.JOIN_ROUND, 1, dash, 0);
        addLine(plot, index, series, COLOURS[style], stroke, shape);
    }

    private static void addLine(
            XYPlot plot, int index, XYSeries series, ChartColour colour, BasicStroke stroke, Shape shape) {
        XYLineAndShapeRenderer renderer = new XYLineAndShapeRenderer(stroke != null, shape != null);
        renderer.setDrawSeriesLineAsPath(stroke != null);
        renderer.setSeriesPaint(0, colour.colour());
        if (stroke != null) {
            renderer.setSeriesStroke(0, stroke);
        }
        if (shape != null) {
            renderer.setSeriesShape(0, shape);
        }
        renderer.setLegendLine(new Path2D.Double(lineSample()));
        renderer.setDefaultLegendTextFont(TICK_FONT);
        renderer.setDefaultLegendTextPaint(ChartColour.INK.colour());
        plot.setDataset(index, new XYSeriesCollection(series));
        plot.setRenderer(index, renderer);
    }

    private static Path2D lineSample() {
        Path2D line = new Path2D.Double();
        line.moveTo(-16, 0);
        line.lineTo(16, 0);
        return line;
    }
}
