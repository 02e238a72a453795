package org.steadyshaft.blip;

import org.steadyshaft.voltage.LocalSeries;
import org.steadyshaft.voltage.VoltagePiece;

/** What of a piece's angle is explained so far: steady lines, kinks, jumps of the phase; at the grid's times, the places and the samples. */
final class Known {
    final double[] onGrid;
    final double[] onPlaces;
    final double[] onSamples;

    /** Jumps of the phase alone: kept apart, as they are no speed. */
    final double[] jumpOnSamples;

    private final VoltagePiece piece;
    private final AngleGrid grid;
    private final double percentAngle;

    Known(VoltagePiece piece, AngleGrid grid, SpeedLines lines, double percentAngle) {
        this.piece = piece;
        this.grid = grid;
        this.percentAngle = percentAngle;
        this.onGrid = lines.onGrid.clone();
        this.onSamples = lines.onSamples.clone();
        this.jumpOnSamples = new double[onSamples.length];
        LocalSeries series = piece.series();
        this.onPlaces = new double[series.size()];
        for (int k = 0; k < onPlaces.length; k++) {
            double place = (series.timeSeconds(k) - grid.firstSeconds) / grid.stepSeconds;
            int at = (int) Math.max(0, Math.min(grid.size() - 2.0, Math.floor(place)));
            onPlaces[k] = onGrid[at] + (place - at) * (onGrid[at + 1] - onGrid[at]);
        }
    }

    void add(Kink kink) {
        double size = percentAngle * kink.percent();
        for (int i = 0; i < onGrid.length; i++) {
            onGrid[i] += size * kink.bendAt(grid.timeSeconds(i));
        }
        for (int k = 0; k < onPlaces.length; k++) {
            onPlaces[k] += size * kink.bendAt(piece.series().timeSeconds(k));
        }
        for (int i = 0; i < onSamples.length; i++) {
            onSamples[i] += size * kink.bendAt(piece.timeSeconds(i));
        }
    }

    void addJump(double atSeconds, double angle) {
        for (int i = 0; i < onGrid.length; i++) {
            onGrid[i] += grid.timeSeconds(i) > atSeconds ? angle : 0;
        }
        for (int k = 0; k < onPlaces.length; k++) {
            onPlaces[k] += piece.series().timeSeconds(k) > atSeconds ? angle : 0;
        }
        for (int i = 0; i < onSamples.length; i++) {
            jumpOnSamples[i] += piece.timeSeconds(i) > atSeconds ? angle : 0;
        }
    }
}
