package org.steadyshaft.compare;

import java.util.List;
import java.util.Objects;
import java.util.Optional;
import org.steadyshaft.analysis.CaptureLabel;
import org.steadyshaft.blip.BlipCause;
import org.steadyshaft.ripple.Hunting;
import org.steadyshaft.ripple.RippleCause;
import org.steadyshaft.ripple.Untold;
import org.steadyshaft.signal.FindingCode;
import org.steadyshaft.signal.Grade;
import org.steadyshaft.stability.Alarm;

/**
 * One capture as a comparison sees it; small, so that hundreds fit, and plain, so that it can be kept beside the results.
 *
 * @param name name of the capture's folder
 * @param label what the user said of it
 * @param trust whether its recording can be trusted, and its alarms
 * @param meanRpm mean speed while steady, else of the whole recording
 * @param dataRpm standard uncertainty of the mean speed from the data alone: what the clock adds is common to runs of one recorder
 * @param blocks what was measured second by second while the speed was steady; empty where it never was
 * @param ripple its ripple; absent where too little was steady
 * @param lines its largest regular swings
 * @param jumps its blips
 * @param hunting absent where it does not hunt
 * @param loop whether its circuit controls the speed; absent if nobody said
 * @param settlingSeconds settling times of its steps
 * @param trace speed over time, few points
 * @param spectrum ripple over frequency, few points
 */
public record Run(
        String name,
        CaptureLabel label,
        Trust trust,
        double meanRpm,
        double dataRpm,
        List<Block> blocks,
        Optional<RippleLines> ripple,
        List<Line> lines,
        Jumps jumps,
        Optional<Hunts> hunting,
        Optional<Boolean> loop,
        List<Double> settlingSeconds,
        List<Point> trace,
        List<Point> spectrum) {
    /**
     * Whether the recording can be trusted.
     *
     * @param grade its grade
     * @param faults kinds of finding that made it so
     * @param alarms kinds of alarm, each once
     */
    public record Trust(Grade grade, List<FindingCode> faults, List<Alarm.Code> alarms) {
        public static final Trust WHOLE = new Trust(Grade.GOOD, List.of(), List.of());

        public Trust {
            Objects.requireNonNull(grade, "grade");
            faults = List.copyOf(faults);
            alarms = List.copyOf(alarms);
        }

        public boolean isDoubtful() {
            return grade != Grade.GOOD;
        }

        /** Whether an alarm says that the motor ran too fast. */
        public boolean ranAway() {
            return alarms.stream().anyMatch(Alarm.Code::isTooFast);
        }
    }

    /**
     * The blips of a run.
     *
     * @param events each with its size
     * @param minutes how long was looked for them; 0 where nothing was steady
     * @param smallestPercent what was smaller could not be told from the noise
     */
    public record Jumps(List<Jump> events, double minutes, double smallestPercent) {
        public static final Jumps NOT_LOOKED_FOR = new Jumps(List.of(), 0, 0);

        public Jumps {
            events = List.copyOf(events);
            if (!(minutes >= 0) || !(smallestPercent >= 0)) {
                throw new IllegalArgumentException("blips above " + smallestPercent + " % in " + minutes + " minutes");
            }
        }

        /** How many are of a size or larger. */
        public int count(double fromPercent) {
            return (int) events.stream()
                    .filter(e -> Math.abs(e.percent()) >= fromPercent)
                    .count();
        }
    }

    /** A blip: its size, up positive [% of the local mean], and what it likely comes from. */
    public record Jump(double percent, BlipCause cause) {
        public Jump {
            Objects.requireNonNull(cause, "cause");
            if (!Double.isFinite(percent) || percent == 0) {
                throw new IllegalArgumentException("blip of " + percent + " %");
            }
        }
    }

    /** A regular swing: where it stands, its amplitude, 0 to peak, with its expanded uncertainty (k = 2), and what it likely comes from. */
    public record Line(double frequencyHz, double amplitudePercent, double expandedPercent, RippleCause cause) {
        public Line {
            Objects.requireNonNull(cause, "cause");
            if (!(frequencyHz > 0) || !(amplitudePercent >= 0) || !(expandedPercent >= 0)) {
                throw new IllegalArgumentException("line of " + amplitudePercent + " % at " + frequencyHz + " Hz");
            }
        }
    }

    /** Hunting: frequency, amplitude, 0 to peak, with its expanded uncertainty (k = 2), and how it goes on. */
    public record Hunts(double frequencyHz, double amplitudePercent, double expandedPercent, Hunting.Trend trend) {
        public Hunts {
            Objects.requireNonNull(trend, "trend");
            if (!(frequencyHz > 0) || !(amplitudePercent > 0) || !(expandedPercent >= 0)) {
                throw new IllegalArgumentException("hunting of " + amplitudePercent + " % at " + frequencyHz + " Hz");
            }
        }
    }

    /**
     * About a second of steady running, blips left out; deviations are from a straight line through the steady stretch [% of its mean].
     *
     * @param meanPercent mean deviation
     * @param meanSquare mean squared deviation [%^2]
     * @param peakToPeakPercent highest less lowest cycle
     * @param seconds its length
     */
    public record Block(double meanPercent, double meanSquare, double peakToPeakPercent, double seconds) {
        public Block {
            if (!Double.isFinite(meanPercent)
                    || !Double.isFinite(meanSquare)
                    || !(peakToPeakPercent >= 0)
                    || !(seconds > 0)) {
                throw new IllegalArgumentException("block of " + meanPercent + " %, " + meanSquare + " %^2, "
                        + peakToPeakPercent + " %, " + seconds + " s");
            }
        }
    }

    /**
     * The ripple of the whole run.
     *
     * @param bandFromHz it holds from here
     * @param bandToHz up to here
     * @param rmsPercent its rms, noise taken off
     * @param expandedPercent expanded uncertainty of that, k = 2
     * @param twiceMains the line at twice the mains
     * @param mains the line at the mains
     */
    public record RippleLines(
            double bandFromHz,
            double bandToHz,
            double rmsPercent,
            double expandedPercent,
            MainsLine twiceMains,
            MainsLine mains) {
        public RippleLines {
            if (!(bandFromHz >= 0) || !(bandToHz > 0) || !(rmsPercent >= 0) || !(expandedPercent >= 0)) {
                throw new IllegalArgumentException("ripple of " + rmsPercent + " % up to " + bandToHz + " Hz");
            }
        }
    }

    /**
     * A line of the mains: a figure, or why there is none; exactly one of both.
     *
     * @param percent amplitude, 0 to peak
     * @param expandedPercent its expanded uncertainty, k = 2; 0 without a figure
     * @param untold why it cannot be told
     */
    public record MainsLine(Optional<Double> percent, double expandedPercent, Optional<Untold.Why> untold) {
        public MainsLine {
            if (percent.isPresent() == untold.isPresent() || !(expandedPercent >= 0)) {
                throw new IllegalArgumentException("line of the mains: " + percent + ", " + untold);
            }
        }

        public static MainsLine of(double percent, double expandedPercent) {
            return new MainsLine(Optional.of(percent), expandedPercent, Optional.empty());
        }

        public static MainsLine untold(Untold.Why why) {
            return new MainsLine(Optional.empty(), 0, Optional.of(why));
        }
    }

    /** A point of a small picture. */
    public record Point(double x, double y) {}

    public Run {
        Objects.requireNonNull(trust, "trust");
        Objects.requireNonNull(jumps, "jumps");
        blocks = List.copyOf(blocks);
        lines = List.copyOf(lines);
        settlingSeconds = List.copyOf(settlingSeconds);
        trace = List.copyOf(trace);
        spectrum = List.copyOf(spectrum);
        if (!(meanRpm > 0) || !(dataRpm >= 0)) {
            throw new IllegalArgumentException("run " + name + " of " + meanRpm + " +- " + dataRpm + " rpm");
        }
    }

    /** The same run with other words of the user. */
    public Run withLabel(CaptureLabel other) {
        return with(name, other);
    }

    /** The same run by another name. */
    public Run withName(String other) {
        return with(other, label);
    }

    private Run with(String otherName, CaptureLabel otherLabel) {
        return new Run(
                otherName,
                otherLabel,
                trust,
                meanRpm,
                dataRpm,
                blocks,
                ripple,
                lines,
                jumps,
                hunting,
                loop,
                settlingSeconds,
                trace,
                spectrum);
    }

    /** Circuit, with its variant where the run sheet has a column of that name. */
    public String circuit() {
        return variant().isEmpty() ? base() : base() + ", " + variant();
    }

    /** Circuit without its variant. */
    public String base() {
        return label.circuit().isEmpty() ? UNNAMED : label.circuit();
    }

    /** What tells a circuit before a change from the same after it; empty where nobody said. */
    public String variant() {
        return label.others().getOrDefault(VARIANT, "");
    }

    /** Day of the recording as the user wrote it; empty where nobody said. */
    public String date() {
        return label.others().getOrDefault(DATE, "");
    }

    /** Stands for the circuit where the run sheet names none. */
    private static final String UNNAMED = "circuit not named";

    /** Column of the run sheet that tells a circuit before a change from the same after it. */
    public static final String VARIANT = "variant";

    /** Column of the run sheet that tells the day. */
    public static final String DATE = "date";

    /** Minutes of steady running. */
    public double steadyMinutes() {
        return blocks.stream().mapToDouble(Block::seconds).sum() / 60;
    }
}
