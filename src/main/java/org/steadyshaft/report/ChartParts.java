package org.steadyshaft.report;

import java.awt.BasicStroke;
import java.awt.Font;
import org.jfree.chart.JFreeChart;
import org.jfree.chart.axis.LogAxis;
import org.jfree.chart.axis.NumberAxis;
import org.jfree.chart.axis.NumberTickUnit;
import org.jfree.chart.axis.ValueAxis;
import org.jfree.chart.block.BlockBorder;
import org.jfree.chart.plot.Plot;
import org.jfree.chart.plot.XYPlot;
import org.jfree.chart.renderer.xy.XYLineAndShapeRenderer;
import org.jfree.chart.text.TextUtils;
import org.jfree.chart.ui.RectangleInsets;
import org.jfree.data.xy.XYSeries;
import org.jfree.data.xy.XYSeriesCollection;

/** What all charts are made of: axes, grid, lines, and the frame with heading and caption. */
public final class ChartParts {
    /** Of the first chart of a page, which the page's script draws anew for narrow screens. */
    static final int WIDE = 860;

    /** Of all others: narrow enough that their words keep 11 points of the screen on one that is 390 points wide. */
    static final int WIDTH = 480;

    static final int HEIGHT = 300;
    private static final int LEGEND_HEIGHT = 90;
    static final Font AXIS_FONT = new Font(Font.SANS_SERIF, Font.PLAIN, 15);
    static final Font TICK_FONT = new Font(Font.SANS_SERIF, Font.PLAIN, 15);

    static {
        // an upright label stays text: else it is drawn as the outlines of its letters, twenty times as long and mute
        // to a reader
        TextUtils.setUseDrawRotatedStringWorkaround(false);
    }

    private ChartParts() {}

    /**
     * A chart in a page.
     *
     * @param svg the SVG element
     * @param words what stands beside it
     */
    public record Chart(String svg, ChartWords words) {}

    static Chart chart(String id, Plot plot, ChartWords words) {
        return chart(id, plot, WIDTH, words);
    }

    static Chart chart(String id, Plot plot, int width, ChartWords words) {
        JFreeChart chart = new JFreeChart(null, AXIS_FONT, plot, false);
        chart.setBackgroundPaint(null);
        chart.setBorderVisible(false);
        chart.setPadding(new RectangleInsets(4, 4, 4, 12));
        return new Chart(
                new ChartSvg("chart-" + id, width, HEIGHT).draw(chart, words.heading(), words.description()), words);
    }

    /** A chart with a legend below it. */
    static Chart withLegend(String id, Plot plot, ChartWords words) {
        JFreeChart chart = new JFreeChart(null, AXIS_FONT, plot, true);
        chart.setBackgroundPaint(null);
        chart.setBorderVisible(false);
        chart.setPadding(new RectangleInsets(4, 4, 4, 12));
        chart.getLegend().setBackgroundPaint(null);
        chart.getLegend().setFrame(BlockBorder.NONE);
        chart.getLegend().setItemFont(TICK_FONT);
        chart.getLegend().setItemPaint(ChartColour.INK.colour());
        return new Chart(
                new ChartSvg("chart-" + id, WIDTH, HEIGHT + LEGEND_HEIGHT)
                        .draw(chart, words.heading(), words.description()),
                words);
    }

    /** A logarithmic axis from one value to another. */
    static LogAxis logAxis(String label, double from, double to) {
        LogAxis axis = new LogAxis(label);
        axis.setTickUnit(new NumberTickUnit(1));
        axis.setAutoRange(false);
        axis.setRange(from, to);
        axis.setNumberFormatOverride(new PlainNumbers());
        return style(axis);
    }

    static NumberAxis axis(String label) {
        NumberAxis axis = new NumberAxis(label);
        axis.setNumberFormatOverride(new PlainNumbers());
        axis.setAutoRangeIncludesZero(false);
        return style(axis);
    }

    static <A extends ValueAxis> A style(A axis) {
        axis.setLabelFont(AXIS_FONT);
        axis.setTickLabelFont(TICK_FONT);
        axis.setLabelPaint(ChartColour.INK.colour());
        axis.setTickLabelPaint(ChartColour.INK.colour());
        axis.setAxisLinePaint(ChartColour.MUTED.colour());
        axis.setTickMarkPaint(ChartColour.MUTED.colour());
        axis.setLowerMargin(0.01);
        axis.setUpperMargin(0.01);
        return axis;
    }

    static XYPlot plot(ValueAxis x, ValueAxis y) {
        XYPlot plot = new XYPlot(null, x, y, null);
        y.setLowerMargin(0.06);
        y.setUpperMargin(0.06);
        plot.setBackgroundPaint(null);
        plot.setOutlinePaint(ChartColour.GRID.colour());
        plot.setDomainGridlinePaint(ChartColour.GRID.colour());
        plot.setRangeGridlinePaint(ChartColour.GRID.colour());
        plot.setDomainGridlineStroke(new BasicStroke(0.7f));
        plot.setRangeGridlineStroke(new BasicStroke(0.7f));
        return plot;
    }

    static void add(XYPlot plot, int index, XYSeries series, ChartColour colour) {
        XYLineAndShapeRenderer renderer = new XYLineAndShapeRenderer(true, false);
        renderer.setDrawSeriesLineAsPath(true);
        renderer.setSeriesPaint(0, colour.colour());
        renderer.setSeriesStroke(0, new BasicStroke(1.2f));
        plot.setDataset(index, new XYSeriesCollection(series));
        plot.setRenderer(index, renderer);
    }
}
