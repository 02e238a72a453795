package org.steadyshaft.report;

import static org.steadyshaft.report.ChartParts.TICK_FONT;
import static org.steadyshaft.report.ChartParts.axis;
import static org.steadyshaft.report.ChartParts.logAxis;
import static org.steadyshaft.report.ChartParts.plot;

import java.awt.BasicStroke;
import java.awt.geom.Path2D;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jfree.chart.plot.XYPlot;
import org.jfree.chart.renderer.xy.XYLineAndShapeRenderer;
import org.jfree.data.xy.XYSeries;
import org.jfree.data.xy.XYSeriesCollection;
import org.steadyshaft.compare.Comparison;
import org.steadyshaft.compare.Group;
import org.steadyshaft.compare.Run;
import org.steadyshaft.compare.SpeedLevel;
import org.steadyshaft.report.ChartParts.Chart;

/** The ripple spectra of the comparison page. Circuits differ by dash as well as by colour. */
final class ComparisonCharts {
    private static final ChartColour[] COLOURS = {
        ChartColour.SPEED, ChartColour.SECOND, ChartColour.THIRD, ChartColour.FOURTH, ChartColour.FIFTH
    };
    private static final float[][] DASHES = {{1, 0}, {8, 4}, {2, 3}, {10, 3, 2, 3}, {4, 4}};
    private static final double LEAST_SHARE = 1e-4;
    private static final Pattern NUMBER = Pattern.compile("[-+]?\\d+(?:[.,]\\d+)?");

    private final Comparison comparison;

    ComparisonCharts(Comparison comparison) {
        this.comparison = comparison;
    }

    /** Ripple spectra of the circuits that ran at about one speed with one load, on one axis. */
    List<Chart> spectra() {
        Map<List<Object>, List<Group>> together = new LinkedHashMap<>();
        for (Group group : comparison.groups()) {
            together.computeIfAbsent(List.of(group.level(), group.load()), k -> new ArrayList<>())
                    .add(group);
        }
        List<Chart> charts = new ArrayList<>();
        together.forEach((key, groups) -> {
            if (groups.size() > 1) {
                spectrum((SpeedLevel) key.get(0), (String) key.get(1), groups, charts.size() + 1)
                        .ifPresent(charts::add);
            }
        });
        return charts;
    }

    private Optional<Chart> spectrum(SpeedLevel level, String load, List<Group> groups, int number) {
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
            addCircuit(plot, index++, series, group.circuit());
        }
        String heading = "Ripple spectra, " + level.words() + ", " + CheckWords.load(load);
        return Optional.of(
                ChartParts.withLegend(
                        "spectra" + number,
                        plot,
                        new ChartWords(
                                heading,
                                "",
                                heading + " of "
                                        + String.join(
                                                ", ",
                                                groups.stream()
                                                        .map(Group::circuit)
                                                        .toList()) + ".",
                                "The first run of each circuit at about the same speed: what swings regularly, by frequency.")));
    }

    /** The first number in a setting. */
    static OptionalDouble number(String setting) {
        Matcher matcher = NUMBER.matcher(setting);
        return matcher.find()
                ? OptionalDouble.of(Double.parseDouble(matcher.group().replace(',', '.')))
                : OptionalDouble.empty();
    }

    private void addCircuit(XYPlot plot, int index, XYSeries series, String circuit) {
        int place = comparison.circuits().indexOf(circuit);
        int style = Math.max(0, place) % COLOURS.length;
        float[] dash = DASHES[style];
        BasicStroke stroke = dash[1] == 0
                ? new BasicStroke(1.6f)
                : new BasicStroke(1.6f, BasicStroke.CAP_BUTT, BasicStroke.JOIN_ROUND, 1, dash, 0);
        XYLineAndShapeRenderer renderer = new XYLineAndShapeRenderer(true, false);
        renderer.setDrawSeriesLineAsPath(true);
        renderer.setSeriesPaint(0, COLOURS[style].colour());
        renderer.setSeriesStroke(0, stroke);
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
