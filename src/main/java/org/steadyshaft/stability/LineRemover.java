package org.steadyshaft.stability;

import java.util.List;
import org.steadyshaft.numeric.SinusoidFit;
import org.steadyshaft.numeric.Turns;

/**
 * Takes ripple lines out of a piece of speed. A line's amplitude and phase may slowly change: both are fitted in
 * Hann-weighted sections that overlap by half, whose weights add up to one, and each section takes off its share. Cycles
 * that belong to blips are left out of the fits, not filled in, so that a blip does not bend the swing around it.
 */
final class LineRemover {
    /** Sections of this length follow a mains line, whose phase slowly drifts against the nominal one. */
    private static final double SECTION_SECONDS = 4;

    /** A fit needs this share of its section's cycles. */
    private static final double LEAST_SHARE = 0.25;

    private static final int FEWEST_CYCLES = 8;

    private final SteadySpeed.Piece piece;
    private final boolean[] leftOut;
    private final double[] rest;
    private final double[] cosine;
    private final double[] sine;
    private final double[] weight;

    /** @param leftOut which cycles of the piece belong to blips */
    LineRemover(SteadySpeed.Piece piece, boolean[] leftOut) {
        this.piece = piece;
        this.leftOut = leftOut;
        this.rest = piece.deviationPercent.clone();
        this.cosine = new double[piece.cycles()];
        this.sine = new double[piece.cycles()];
        this.weight = new double[piece.cycles()];
    }

    /** The deviations of the piece without the lines. */
    double[] without(List<RippleLine> lines) {
        for (RippleLine line : lines) {
            subtract(line.sourceHz());
        }
        return rest;
    }

    private void subtract(double hz) {
        double start = piece.stretch.fromSeconds();
        double length = piece.stretch.durationSeconds();
        int sections = (int) Math.max(1, Math.round(2 * length / SECTION_SECONDS));
        double hop = length / sections;
        double[] before = rest.clone();
        Turns.of(piece.timeSeconds, 0, piece.cycles(), start, hz, cosine, sine);
        for (int s = 0; s <= sections; s++) {
            new Section(start + s * hop, hop, before).subtract();
        }
    }

    private final class Section {
        private final double centre;
        private final double half;
        private final double[] before;
        private final int from;
        private final int to;
        private final double[] share;

        Section(double centre, double half, double[] before) {
            this.centre = centre;
            this.half = half;
            this.before = before;
            this.from = piece.firstNotBefore(centre - half);
            this.to = piece.firstNotBefore(centre + half);
            this.share = new double[to - from];
            Turns.of(piece.timeSeconds, from, to - from, centre, 0.5 / half, share, new double[to - from]);
            for (int i = 0; i < share.length; i++) {
                share[i] = 0.5 + 0.5 * share[i];
            }
        }

        private boolean isEnough() {
            int used = 0;
            for (int i = from; i < to; i++) {
                used += leftOut[i] ? 0 : 1;
            }
            return used >= LEAST_SHARE * (to - from) && used >= FEWEST_CYCLES;
        }

        /** Where blips cover most of the section, the swing is that of a wider one: it goes on beneath them. */
        private Section wideEnough() {
            Section wide = this;
            while (!wide.isEnough() && wide.half < piece.stretch.durationSeconds()) {
                wide = new Section(centre, 2 * wide.half, before);
            }
            return wide;
        }

        private void weigh() {
            for (int i = from; i < to; i++) {
                weight[i] = leftOut[i] ? 0 : piece.weightSeconds[i] * share[i - from];
            }
        }

        void subtract() {
            Section wide = wideEnough();
            if (!wide.isEnough()) {
                return;
            }
            wide.weigh();
            SinusoidFit fit = SinusoidFit.of(before, weight, cosine, sine, wide.from, wide.to);
            for (int i = from; i < to; i++) {
                rest[i] -= share[i - from] * (fit.cosine() * cosine[i] + fit.sine() * sine[i]);
            }
        }
    }
}
