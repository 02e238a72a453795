package org.steadyshaft.voltage;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** The fast lines of the speed over time, as they were read piece by piece; nothing outside the pieces. Unchanging. */
public final class LineMotion {
    /** The lines of one piece. */
    private static final class Part {
        private final AnglePiece.Span span;
        private final Columns.Frequencies lines;
        private final double[] cosine;
        private final double[] sine;

        Part(AnglePiece.Span span, Columns.Frequencies lines, double[] cosine, double[] sine) {
            this.span = span;
            this.lines = lines;
            this.cosine = cosine;
            this.sine = sine;
        }

        private double phase(int line, double seconds) {
            return Columns.phase(lines.get(line), seconds)
                    + lines.multiple(line) * span.mains().ahead(seconds);
        }

        double share(double seconds) {
            double sum = 0;
            for (int j = 0; j < lines.size(); j++) {
                double phase = phase(j, seconds);
                sum += cosine[j] * Math.cos(phase) + sine[j] * Math.sin(phase);
            }
            return sum;
        }

        double meanShare(double from, double to) {
            double sum = 0;
            for (int j = 0; j < lines.size(); j++) {
                double end = phase(j, to);
                double begin = phase(j, from);
                double angle =
                        cosine[j] * (Math.sin(end) - Math.sin(begin)) - sine[j] * (Math.cos(end) - Math.cos(begin));
                sum += angle / (2 * Math.PI * lines.get(j) * (to - from));
            }
            return sum;
        }

        double aheadSeconds(double seconds) {
            double sum = 0;
            for (int j = 0; j < lines.size(); j++) {
                double phase = phase(j, seconds);
                sum += (cosine[j] * Math.sin(phase) - sine[j] * Math.cos(phase)) / (2 * Math.PI * lines.get(j));
            }
            return sum;
        }

        double meanSquare() {
            double sum = 0;
            for (int j = 0; j < lines.size(); j++) {
                sum += 0.5 * (cosine[j] * cosine[j] + sine[j] * sine[j]);
            }
            return sum;
        }
    }

    private final List<Part> parts;

    private LineMotion(List<Part> parts) {
        this.parts = List.copyOf(parts);
    }

    /** The same without the lines from a frequency on. */
    LineMotion below(double hz) {
        Builder slower = new Builder();
        for (Part part : parts) {
            double[] cosine = part.cosine.clone();
            double[] sine = part.sine.clone();
            for (int j = 0; j < part.lines.size(); j++) {
                if (part.lines.get(j) >= hz) {
                    cosine[j] = 0;
                    sine[j] = 0;
                }
            }
            slower.add(part.span, part.lines, cosine, sine);
        }
        return slower.build();
    }

    /** Speed of the lines alone at a time, as a share of the mean speed; 0 outside the pieces. */
    public double share(double seconds) {
        return at(seconds).map(part -> part.share(seconds)).orElse(0.0);
    }

    /** Mean of the lines' speed from one time to another, as a share of the mean speed; 0 if it does not begin inside a piece. */
    public double meanShare(double fromSeconds, double toSeconds) {
        return at(0.5 * (fromSeconds + toSeconds))
                .map(part -> part.meanShare(fromSeconds, toSeconds))
                .orElse(0.0);
    }

    /** Time by which the lines have put the shaft ahead of a steady turning [s]; 0 outside the pieces. */
    public double aheadSeconds(double seconds) {
        return at(seconds).map(part -> part.aheadSeconds(seconds)).orElse(0.0);
    }

    /** Power of the lines in the piece around a time: mean square of their speed, as a share of the mean speed squared. */
    public double meanSquare(double seconds) {
        return at(seconds).map(Part::meanSquare).orElse(0.0);
    }

    private Optional<Part> at(double seconds) {
        int low = 0;
        int high = parts.size() - 1;
        while (low <= high) {
            int middle = (low + high) >>> 1;
            Part part = parts.get(middle);
            if (seconds < part.span.fromSeconds()) {
                high = middle - 1;
            } else if (seconds > part.span.toSeconds()) {
                low = middle + 1;
            } else {
                return Optional.of(part);
            }
        }
        return Optional.empty();
    }

    /** Gathers parts in order of time. */
    static final class Builder {
        private final List<Part> parts = new ArrayList<>();

        Builder add(AnglePiece.Span span, Columns.Frequencies lines, double[] cosine, double[] sine) {
            parts.add(new Part(span, lines, cosine.clone(), sine.clone()));
            return this;
        }

        LineMotion build() {
            return new LineMotion(parts);
        }
    }
}
