package org.steadyshaft.report;

import java.util.List;
import java.util.Locale;
import org.steadyshaft.compare.Difference;
import org.steadyshaft.compare.Group;
import org.steadyshaft.compare.LoadWords;
import org.steadyshaft.compare.Measure;
import org.steadyshaft.compare.Run;
import org.steadyshaft.compare.WorkCheck;
import org.steadyshaft.signal.FindingCode;
import org.steadyshaft.stability.Alarm;

/** Figures, limits, speeds and loads in words, with as many digits as they are worth. */
public final class CheckWords {
    /** An upper limit more than so many times the value says nothing but that it was too short... */
    private static final double WIDEST = 5;

    /** ...unless it is small for any work [in the measure's unit, per cent or seconds]. */
    private static final double SMALL = 0.5;

    private CheckWords() {}

    /** "584 rpm, light". */
    static String where(double rpm, String load) {
        return Numbers.fixed(rpm, 0) + " rpm, " + load(load);
    }

    static String where(Group group) {
        return where(group.meanRpm(), group.load());
    }

    /** "542 to 649 rpm, light": where all groups beside this one stand. */
    static String level(Group group) {
        return group.level().words() + ", " + load(group.load());
    }

    /** "knob 3, light". */
    static String setting(Group group) {
        String settings = String.join(" or ", group.settings());
        return (settings.isEmpty() ? Numbers.fixed(group.meanRpm(), 0) + " rpm" : settings) + ", " + load(group.load());
    }

    /** "light", or "load 2 kg clay". */
    static String load(String load) {
        return LoadWords.isLight(load) ? "light" : "load " + load;
    }

    /** "4.8 %", or "12 a minute". */
    static String amount(Measure measure, double value, double low, double high) {
        return Numbers.within(value, low, high) + " " + measure.unit();
    }

    /** Value and limits: "0.48 % (0.41 to 0.56)", "below 0.02 %", or "too short to say". */
    static String withLimits(Measure measure, double value, double low, double high) {
        if (!Double.isFinite(high)) {
            return Numbers.significant(value, 2) + " " + measure.unit() + ", once: too little to say";
        }
        boolean wide = measure != Measure.BLIPS && high > WIDEST * Math.abs(value);
        if (wide && high > SMALL) {
            return "too short to say";
        }
        if (wide) {
            return "below " + Numbers.significant(high, 1) + " " + measure.unit();
        }
        return amount(measure, value, low, high) + " (" + Numbers.within(low, low, high) + " to "
                + Numbers.within(high, low, high) + ")";
    }

    /** "3 % swing within a second", "2 blips a minute". */
    static String allowed(Measure measure, double most) {
        return switch (measure) {
            case BLIPS -> limit(most) + " blips a minute";
            case SETTLING -> limit(most) + " s to settle";
            case RIPPLE, SWING, TWICE_MAINS, WANDER, SAG, HUNTING ->
                limit(most) + " " + measure.unit() + " " + measure.title();
        };
    }

    /** A limit as the user wrote it. */
    static String limit(double most) {
        return Numbers.machine(most);
    }

    /** "swing within a second 4.8 %, 1.6 times what is allowed (knob 3, light)". */
    static String reason(WorkCheck check) {
        String where = check.group().map(g -> " (" + setting(g) + ")").orElse("");
        if (check.figure().isEmpty()) {
            return check.measure().title() + ": " + check.reason() + where;
        }
        WorkCheck.Figure f = check.figure().get();
        if (check.measure() == Measure.BLIPS && f.value() == 0) {
            return "no blips so far, but too short for " + limit(check.most()) + " a minute" + where + doubt(check)
                    + (check.reason().isEmpty() ? "" : "; " + check.reason());
        }
        String amount = check.measure() == Measure.BLIPS
                ? amount(check.measure(), f.value(), f.low95(), f.high95()).replace(" a minute", " blips a minute")
                : check.measure().title() + " " + amount(check.measure(), f.value(), f.low95(), f.high95());
        if (check.measure() == Measure.SAG) {
            return amount + " of the loaded speed (" + check.reason() + "), " + margin(check) + doubt(check);
        }
        return amount + ", " + margin(check) + where + doubt(check)
                + (check.reason().isEmpty() ? "" : "; " + check.reason());
    }

    private static String doubt(WorkCheck check) {
        return check.group().filter(g -> !g.doubtful().isEmpty()).isPresent() ? " [doubtful recording]" : "";
    }

    /** How a value stands to its limit. */
    static String margin(WorkCheck check) {
        double share = check.shareOfLimit();
        String most = limit(check.most()) + " " + check.measure().unit();
        if (!(share > 0)) {
            return "where " + most + " are allowed";
        }
        if (!Double.isFinite(share)) {
            return "where none is allowed";
        }
        if (share < 0.1) {
            return "far below the limit of " + most;
        }
        if (share < 0.55) {
            return "half the limit of " + most + " or less";
        }
        if (share < 0.95) {
            return "below the limit of " + most;
        }
        if (share < 1.05) {
            return "right at the limit of " + most;
        }
        return share < 1.5
                ? Numbers.fixed(100 * (share - 1), 0) + " % above the limit of " + most
                : Numbers.significant(share, 2).replaceAll("\\.0$", "") + " times the limit of " + most;
    }

    /** Both values of a proven difference, the better one first: "ripple, rms 0.2 against 0.5 %". */
    static String against(Difference difference) {
        double better = difference.better().flatMap(Difference.Side::value).orElse(0.0);
        double worse = difference.worse().flatMap(Difference.Side::value).orElse(0.0);
        double half = difference
                .outcome()
                .map(t -> 0.5 * (t.high95() - t.low95()))
                .filter(Double::isFinite)
                .orElse(0.1 * worse);
        return difference.measure().title() + " " + Numbers.within(better, better - half, better + half) + " against "
                + Numbers.within(worse, worse - half, worse + half) + " "
                + difference.measure().unit();
    }

    /** A span of time rounded up, so that it is enough: seconds below two minutes. */
    static String span(double minutes) {
        return minutes < 2
                ? String.format(Locale.ROOT, "%.0f s", Math.ceil(60 * minutes))
                : String.format(Locale.ROOT, "%.0f min", Math.ceil(minutes));
    }

    static String list(List<String> words) {
        if (words.size() < 2) {
            return String.join("", words);
        }
        return String.join(", ", words.subList(0, words.size() - 1)) + " and " + words.get(words.size() - 1);
    }

    /** "wheel1-mid (clipped, pick-up)". */
    static String doubtful(Run run) {
        String faults =
                list(run.trust().faults().stream().map(CheckWords::fault).toList());
        return run.name() + (faults.isEmpty() ? "" : " (" + faults + ")");
    }

    static String alarm(Alarm.Code code) {
        return switch (code) {
            case RUNAWAY -> "It ran away";
            case OVERSPEED -> "It ran faster than you allow";
            case STANDSTILL -> "It stood still";
            case LEAD_OPEN -> "The tacho's lead opened";
        };
    }

    /** What is wrong with a recording, in a word or two. */
    public static String fault(FindingCode code) {
        return switch (code) {
            case CLIPPED -> "clipped";
            case GAP -> "a gap";
            case SAMPLES_LOST -> "samples lost";
            case SAMPLES_DOUBLED -> "samples doubled";
            case LEVEL_STEP -> "the level jumps";
            case OFFSET_STEP -> "the offset jumps";
            case HUM_STEP -> "the hum jumps";
            case NOISE_BURST -> "bursts of noise";
            case LEAD_OPEN -> "the lead came off";
            case HUM -> "mains pick-up";
            case SPIKES -> "spikes";
            case LOW_LEVEL -> "low level";
            case LOW_SNR -> "noise";
            case OFFSET -> "offset";
            case UNDERSAMPLED -> "low sample rate";
            case TOO_SHORT -> "short";
            case NO_ROTATION -> "no rotation";
            case RATE_SUSPECT -> "doubtful sample rate";
            case ALIASED_RIPPLE -> "ripple that cannot be placed";
            case HARMONIC -> "two humps a cycle";
            case COUPLING -> "AC coupling";
            case MISSING_TEETH -> "missing teeth";
            case METHODS_DISAGREE -> "two ways of reading disagree";
            case POLE_COUNT -> "doubtful pole count";
            case UNREADABLE -> "damaged";
        };
    }
}
