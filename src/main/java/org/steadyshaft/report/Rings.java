package org.steadyshaft.report;

import java.awt.BasicStroke;
import java.awt.Graphics2D;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Path2D;
import java.awt.geom.Rectangle2D;
import org.jfree.chart.axis.ValueAxis;
import org.jfree.chart.plot.CrosshairState;
import org.jfree.chart.plot.PlotRenderingInfo;
import org.jfree.chart.plot.XYPlot;
import org.jfree.chart.renderer.xy.AbstractXYItemRenderer;
import org.jfree.chart.renderer.xy.XYItemRendererState;
import org.jfree.data.xy.XYDataset;

/** Draws a ring around each point of a series, all of them as one path: a path each takes three times the room in a page. */
final class Rings extends AbstractXYItemRenderer {
    private static final long serialVersionUID = 1L;
    private static final double DIAMETER = 10;

    private final transient Path2D rings = new Path2D.Double();
    private final ChartColour colour;

    Rings(ChartColour colour) {
        this.colour = colour;
    }

    @Override
    public void drawItem(
            Graphics2D graphics,
            XYItemRendererState state,
            Rectangle2D area,
            PlotRenderingInfo info,
            XYPlot plot,
            ValueAxis domain,
            ValueAxis range,
            XYDataset data,
            int series,
            int item,
            CrosshairState crosshair,
            int pass) {
        if (item == 0) {
            rings.reset();
        }
        double x = domain.valueToJava2D(data.getXValue(series, item), area, plot.getDomainAxisEdge());
        double y = range.valueToJava2D(data.getYValue(series, item), area, plot.getRangeAxisEdge());
        rings.append(new Ellipse2D.Double(x - 0.5 * DIAMETER, y - 0.5 * DIAMETER, DIAMETER, DIAMETER), false);
        if (item + 1 == data.getItemCount(series)) {
            graphics.setPaint(colour.colour());
            graphics.setStroke(new BasicStroke(2));
            graphics.draw(rings);
        }
    }
}
