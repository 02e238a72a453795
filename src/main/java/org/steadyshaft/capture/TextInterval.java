package org.steadyshaft.capture;

import java.util.List;
import java.util.Locale;

/** Finds the time between the samples of a text export and holds it against what a recorder of a tacho may have. */
final class TextInterval {
    /** A step between stamps this many intervals long, and longer than rounding explains, is a hole in the record. */
    private static final double HOLE_INTERVALS = 20;

    /** Between these no recorder of a tacho samples more seldom or more often. */
    private static final double SHORTEST_INTERVAL_SECONDS = 1.0 / WavHeaderReader.HIGHEST_RATE_HZ;

    private static final double LONGEST_INTERVAL_SECONDS = 1;

    /**
     * Times without a unit are taken for seconds only if they stand at most this far apart: at 200 samples a second the
     * tacho of a motor at 100 rpm is hardly sampled any more, while milliseconds and microseconds of any usual rate lie above.
     */
    private static final double LONGEST_UNNAMED_SECONDS = 0.005;

    /** The same for edges: a tacho of 10 Hz has 20 of them a second. */
    private static final double LONGEST_UNNAMED_EDGE_SECONDS = 0.05;

    /** Stamps and header may differ by this share before one of them must be wrong. */
    private static final double CONTRADICTION = 0.01;

    /** Beyond this the rounding of the stamps outweighs any recorder's clock. */
    private static final double COARSE_SHARE = 200e-6;

    private final String name;
    private final TextLayout layout;

    TextInterval(String name, TextLayout layout) {
        this.name = name;
        this.layout = layout;
    }

    /**
     * Seconds between samples: by the time stamps, else by the option, else by the header.
     *
     * @param remarks where to say what is odd
     */
    double of(ReadOptions options, TimeBase times, List<String> remarks) throws CaptureException {
        double fitted = times.interval() * layout.secondsPerUnit();
        if (layout.timeColumn().isPresent() && fitted > 0) {
            if (layout.interval().isPresent()
                    && Math.abs(fitted / layout.interval().getAsDouble() - 1) > CONTRADICTION) {
                remarks.add(String.format(
                        Locale.ROOT,
                        "The time stamps stand %.6g s apart, the header says %.6g s: one of them is wrong. The time stamps were"
                                + " used.",
                        fitted,
                        layout.interval().getAsDouble()));
            }
            double largest = times.largestStep() * layout.secondsPerUnit();
            if (largest > HOLE_INTERVALS * fitted) {
                remarks.add(String.format(
                        Locale.ROOT,
                        "The time stamps jump by %.4g s where %.4g s was expected: samples are missing there, and the"
                                + " speed around that place cannot be trusted.",
                        largest,
                        fitted));
            }
            if (times.roundingShare() > COARSE_SHARE) {
                remarks.add(String.format(
                        Locale.ROOT,
                        "The time stamps are so coarse that many repeat: the sample rate, and with it every speed, is known to about"
                                + " %.2g %% only.",
                        200 * times.roundingShare()));
            }
            return fitted;
        }
        if (options.sampleRateHz().isPresent()) {
            return 1 / options.sampleRateHz().getAsDouble();
        }
        if (layout.interval().isPresent()) {
            return layout.interval().getAsDouble();
        }
        if (layout.unknownIntervalUnit().isPresent()) {
            throw new CaptureException(name + ": found the time between samples, or their rate, in '"
                    + TextLayoutFinder.shortened(layout.unknownIntervalUnit().get())
                    + "', which is no unit that is known; expected s, ms, us, ns or Hz, kHz, MHz, or --sample-rate");
        }
        throw new CaptureException(
                name + ":" + layout.firstDataLine() + ": found voltages but no times, interval or sample"
                        + " rate; give the rate of the recording with --sample-rate");
    }

    /** Holds an interval against what a recorder of a tacho may have, more narrowly where no unit is named. */
    void check(double interval, boolean fromTimes) throws CaptureException {
        if (fromTimes) {
            checkUnnamed(interval, LONGEST_UNNAMED_SECONDS);
        }
        if (!(interval >= SHORTEST_INTERVAL_SECONDS && interval <= LONGEST_INTERVAL_SECONDS)) {
            throw new CaptureException(String.format(
                    Locale.ROOT,
                    "%s:%d: found samples %.3g s apart; expected %.0e to %.0f s. If the unit of the times was misread,"
                            + " name it in the header; if they are no times, give --sample-rate",
                    name,
                    layout.firstDataLine(),
                    interval,
                    SHORTEST_INTERVAL_SECONDS,
                    LONGEST_INTERVAL_SECONDS));
        }
    }

    private void checkUnnamed(double apart, double longest) throws CaptureException {
        if (layout.timeUnit() == TextLayout.TimeUnit.NOT_NAMED && apart > longest) {
            throw new CaptureException(String.format(
                    Locale.ROOT,
                    "%s:%d: found times %.3g apart without a unit, too far for seconds; expected the unit in the header, such"
                            + " as 'Time (ms)', or --sample-rate if they are no times",
                    name,
                    layout.firstDataLine(),
                    apart));
        }
    }

    /** Refuses edges further apart than seconds without a name may be. */
    void checkEdges(double apart) throws CaptureException {
        checkUnnamed(apart, LONGEST_UNNAMED_EDGE_SECONDS);
    }
}
