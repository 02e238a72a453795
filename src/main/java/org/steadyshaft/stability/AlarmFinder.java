package org.steadyshaft.stability;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Predicate;
import org.steadyshaft.numeric.Robust;
import org.steadyshaft.signal.FundamentalTrack;
import org.steadyshaft.signal.SpeedTrack;
import org.steadyshaft.signal.Stretch;

/**
 * Looks for a speed that runs away, one above a given limit, and a shaft that stops within a run. A series motor without load has
 * no speed limit of its own (common practice): a rise past 1.3 times the level that goes on is told as loudly as possible.
 */
public final class AlarmFinder {
    /** measures.md: faster than so many times its steady level and still accelerating. */
    private static final double RUNAWAY_FACTOR = 1.3;

    /** Beyond so many times the level it is told even if it settled there: nobody turns a knob that far in one go (our own figure). */
    private static final double FAR_BEYOND = 2.5;

    /** A speed that comes down to a lasting one no lower than this share of the old level has overshot; it was not cut. */
    private static final double LEAST_SETTLED = 0.8;

    /** Accelerating: by this share of the level in a second, seen over {@link #SLOPE_SECONDS}. */
    private static final double ACCELERATING = 0.03;

    private static final double SLOPE_SECONDS = 0.5;

    /** The speed is looked at in medians over blocks of this length: a single false cycle raises no alarm. */
    private static final double BLOCK_SECONDS = 0.1;

    private static final int FEWEST_CYCLES_A_BLOCK = 3;

    /** A shaft that gives no cycle for so long has stopped. */
    private static final double STANDSTILL_SECONDS = 0.5;

    /** Nor does a slow one stop for missing a few cycles: three are left out at each end of a recording, and a part of one. */
    private static final double STANDSTILL_CYCLES = 5;

    /** Over some cycles the speed falls by a few per cent, and the tacho is looked for so many cycles behind the last. */
    private static final double FALLING = 0.97;

    private static final int FADING_CYCLES = 5;

    /** A break this long, and as many cycles, may be an open lead. */
    private static final double OPENING_SECONDS = 0.04;

    /** The speed beside it is taken over so many cycles. */
    private static final int SPEED_CYCLES = 8;

    /** Where the tacho goes and comes back at the same speed, its lead was interrupted; the shaft did not stop. */
    private static final double SAME_SPEED = 0.15;

    /** A speed below this share of what it was some seconds before was sinking. */
    private static final double SINKING = 0.6;

    private static final double RECENT_SECONDS = 3;

    /** So many cycles beside the end of a recording are not counted. */
    private static final double EDGE_CYCLES = 4;

    private final OptionalDouble limitRpm;
    private final double durationSeconds;
    private final Predicate<Stretch> isTachoThere;

    /**
     * @param limitRpm speed above which OVERSPEED is told, if there is a limit
     * @param durationSeconds length of the recording
     * @param isTachoThere whether the tacho's voltage is there in a stretch in which no cycle was counted: its lead was not open then
     */
    public AlarmFinder(OptionalDouble limitRpm, double durationSeconds, Predicate<Stretch> isTachoThere) {
        this.limitRpm = limitRpm;
        this.durationSeconds = durationSeconds;
        this.isTachoThere = isTachoThere;
    }

    /**
     * @param gaps stretches in which the recorder, not the shaft, stood still
     * @return the alarms, in order of time
     */
    public List<Alarm> find(SpeedTrack track, List<Stretch> steady, List<Stretch> gaps) {
        List<Block> blocks = blocks(track);
        List<Alarm> alarms = new ArrayList<>();
        overspeed(blocks, alarms);
        runaway(blocks, steady, track, alarms);
        standstill(track, gaps, alarms);
        alarms.sort((a, b) -> Double.compare(a.where().fromSeconds(), b.where().fromSeconds()));
        return alarms;
    }

    private record Block(double fromSeconds, double toSeconds, double rpm) {
        double timeSeconds() {
            return 0.5 * (fromSeconds + toSeconds);
        }
    }

    private static List<Block> blocks(SpeedTrack track) {
        List<Block> blocks = new ArrayList<>();
        int from = 0;
        for (int i = 0; i < track.size(); i++) {
            boolean last = i + 1 == track.size() || !track.follows(i + 1);
            boolean full = i + 1 - from >= FEWEST_CYCLES_A_BLOCK
                    && track.toSeconds(i) - track.fromSeconds(from) >= BLOCK_SECONDS;
            if (last || full) {
                blocks.add(new Block(track.fromSeconds(from), track.toSeconds(i), level(track, from, i + 1)));
                from = i + 1;
            }
        }
        return blocks;
    }

    private void overspeed(List<Block> blocks, List<Alarm> alarms) {
        if (limitRpm.isEmpty()) {
            return;
        }
        double limit = limitRpm.getAsDouble();
        for (int i = 0; i < blocks.size(); i++) {
            int end = i;
            double highest = 0;
            while (end < blocks.size() && blocks.get(end).rpm() > limit) {
                highest = Math.max(highest, blocks.get(end++).rpm());
            }
            if (end > i) {
                Stretch where = new Stretch(
                        blocks.get(i).fromSeconds(), blocks.get(end - 1).toSeconds());
                alarms.add(new Alarm(
                        Alarm.Code.OVERSPEED,
                        where,
                        say(
                                "The speed was above the limit of %.0f rpm from %.2f s to %.2f s, up to %.0f rpm.",
                                limit, where.fromSeconds(), where.toSeconds(), highest)));
                i = end;
            }
        }
    }

    /** After each steady stretch: does the speed leave it upwards past the factor, and go on rising or end far beyond? */
    private void runaway(List<Block> blocks, List<Stretch> steady, SpeedTrack track, List<Alarm> alarms) {
        for (int s = 0; s < steady.size(); s++) {
            double level = track.meanRpm(steady.get(s));
            double from = steady.get(s).toSeconds();
            double until = s + 1 < steady.size() ? steady.get(s + 1).fromSeconds() : Double.POSITIVE_INFINITY;
            List<Block> after = blocks.stream()
                    .filter(b -> b.timeSeconds() > from && b.timeSeconds() < until)
                    .toList();
            double settledRpm = s + 1 < steady.size() ? track.meanRpm(steady.get(s + 1)) : 0;
            int peak = peak(after);
            if (after.isEmpty() || after.get(peak).rpm() < RUNAWAY_FACTOR * level) {
                continue;
            }
            boolean cameBack = settledRpm > LEAST_SETTLED * level
                    && settledRpm < after.get(peak).rpm();
            boolean settled = settledRpm > RUNAWAY_FACTOR * level || cameBack;
            boolean last = s + 1 == steady.size();
            boolean farBeyond = (last ? after.get(after.size() - 1).rpm() : settledRpm) > FAR_BEYOND * level;
            if (farBeyond || (!settled && accelerates(after, peak, level))) {
                alarms.add(runaway(level, after, peak, from));
            }
        }
    }

    private static Alarm runaway(double level, List<Block> after, int peak, double from) {
        Block highest = after.get(peak);
        int start = peak;
        while (start > 0 && after.get(start - 1).rpm() > 1.05 * level) {
            start--;
        }
        double began = Math.max(from, after.get(start).fromSeconds());
        return new Alarm(
                Alarm.Code.RUNAWAY,
                new Stretch(Math.min(began, highest.fromSeconds()), highest.toSeconds()),
                say(
                        "The speed ran away: from a steady %.0f rpm it rose from %.2f s on to %.0f rpm, %.1f times that. Unless"
                                + " you turned the knob, cut the mains before anything else: a series motor without load"
                                + " has no speed limit of its own and can burst.",
                        level, began, highest.rpm(), highest.rpm() / level));
    }

    private static int peak(List<Block> blocks) {
        int peak = 0;
        for (int i = 0; i < blocks.size(); i++) {
            peak = blocks.get(i).rpm() > blocks.get(peak).rpm() ? i : peak;
        }
        return peak;
    }

    /** Whether the speed still rose when it was highest: up to the end of what was recorded, or until the power was cut. */
    private static boolean accelerates(List<Block> blocks, int peak, double level) {
        Block highest = blocks.get(peak);
        int before = peak;
        while (before > 0 && highest.timeSeconds() - blocks.get(before).timeSeconds() < SLOPE_SECONDS) {
            before--;
        }
        double seconds = highest.timeSeconds() - blocks.get(before).timeSeconds();
        return seconds > 0 && highest.rpm() - blocks.get(before).rpm() > ACCELERATING * level * seconds;
    }

    /**
     * Breaks of the track: a speed that sank before was stopping; a tacho that was at speed a cycle before had its lead opened, and what
     * the speed does behind that is told. Beside the end of the recording the crossings leave out some cycles: that is no break.
     */
    private void standstill(SpeedTrack track, List<Stretch> gaps, List<Alarm> alarms) {
        for (int i = 1; i <= track.size(); i++) {
            boolean end = i == track.size();
            double from = track.toSeconds(i - 1);
            double to = end ? durationSeconds : track.fromSeconds(i);
            double edge = end ? EDGE_CYCLES * track.durationSeconds(i - 1) : 0;
            double least = Math.max(STANDSTILL_SECONDS + edge, STANDSTILL_CYCLES * track.durationSeconds(i - 1));
            if (isBeyondReach(track, i - 1) || isOfTheRecorder(gaps, from, to)) {
                continue;
            }
            if (to - from < least) {
                if (!end) {
                    shortOpening(track, i).ifPresent(alarms::add);
                }
                continue;
            }
            double before = level(track, Math.max(0, i - 4), i);
            double recent = level(track, Math.max(0, track.firstNotBefore(from - RECENT_SECONDS)), i);
            if (before < SINKING * recent) {
                alarms.add(stopped(new Stretch(from, to), end));
            } else if (isTachoThere.test(new Stretch(from, to)) || fades(track, i, to)) {
                continue;
            } else if (!end) {
                alarms.add(open(new Stretch(from, to), before, level(track, i, Math.min(track.size(), i + 8))));
            } else if (Math.abs(before / recent - 1) < SAME_SPEED) {
                alarms.add(open(new Stretch(from, to), before));
            }
        }
    }

    /**
     * Whether the tacho is still there in the cycles right behind a break, while the speed was falling: the counting left off before the shaft
     * came to rest, if it did. An open lead takes the voltage within a cycle.
     */
    private boolean fades(SpeedTrack track, int cycle, double to) {
        double length = track.durationSeconds(cycle - 1);
        double from = track.toSeconds(cycle - 1);
        double before = level(track, Math.max(0, cycle - 4), cycle);
        double earlier = level(track, Math.max(0, cycle - 12), Math.max(1, cycle - 8));
        return before < FALLING * earlier
                && isTachoThere.test(new Stretch(from + length, Math.min(to, from + FADING_CYCLES * length)));
    }

    /** A break too short for a stop, of some cycles, between equal speeds, in which the tacho is away: a lead that opened for a moment. */
    private Optional<Alarm> shortOpening(SpeedTrack track, int cycle) {
        Stretch away = new Stretch(track.toSeconds(cycle - 1), track.fromSeconds(cycle));
        double least = Math.max(OPENING_SECONDS, STANDSTILL_CYCLES * track.durationSeconds(cycle - 1));
        if (away.durationSeconds() <= least || cycle < SPEED_CYCLES || cycle + SPEED_CYCLES > track.size()) {
            return Optional.empty();
        }
        double before = level(track, cycle - SPEED_CYCLES, cycle);
        double after = level(track, cycle, cycle + SPEED_CYCLES);
        return Math.abs(after / before - 1) < SAME_SPEED && !isTachoThere.test(away)
                ? Optional.of(open(away, before, after))
                : Optional.empty();
    }

    private static Alarm stopped(Stretch where, boolean end) {
        return new Alarm(
                Alarm.Code.STANDSTILL,
                where,
                end
                        ? say(
                                "The shaft stopped at %.2f s and did not turn again in this recording.",
                                where.fromSeconds())
                        : say(
                                "The shaft stopped at %.2f s and turned again at %.2f s.",
                                where.fromSeconds(), where.toSeconds()));
    }

    private static Alarm open(Stretch where, double beforeRpm, double afterRpm) {
        String behind = Math.abs(afterRpm / beforeRpm - 1) < SAME_SPEED
                ? say("behind it the shaft turns as before, at %.0f rpm.", afterRpm)
                : say(
                        "behind it the shaft turns at %.0f rpm where it turned at %.0f rpm before: a loop that loses its tacho"
                                + " gives full power. Secure the tacho's lead before the motor runs again.",
                        afterRpm, beforeRpm);
        return new Alarm(
                Alarm.Code.LEAD_OPEN,
                where,
                say(
                        "The tacho's signal is gone within a cycle at %.2f s and back at %.2f s: its lead was open; %s",
                        where.fromSeconds(), where.toSeconds(), behind));
    }

    private static Alarm open(Stretch where, double beforeRpm) {
        return new Alarm(
                Alarm.Code.LEAD_OPEN,
                where,
                say(
                        "The tacho's signal is gone within a cycle at %.2f s, at %.0f rpm, and does not come back in this"
                                + " recording: its lead was open. What the shaft did then is not known; a loop that loses its"
                                + " tacho gives full power.",
                        where.fromSeconds(), beforeRpm));
    }

    /** A tacho that is lost where it came near the highest frequency that is followed did not stop: it went on beyond. */
    private static boolean isBeyondReach(SpeedTrack track, int cycle) {
        return 1 / track.durationSeconds(cycle) > FundamentalTrack.NEAR_THE_HIGHEST * FundamentalTrack.HIGHEST_HZ;
    }

    private static boolean isOfTheRecorder(List<Stretch> gaps, double from, double to) {
        return gaps.stream()
                .anyMatch(g -> g.fromSeconds() < to && g.toSeconds() > from && g.durationSeconds() > 0.5 * (to - from));
    }

    private static double level(SpeedTrack track, int from, int to) {
        return Robust.median(track.speedsRpm(from, to));
    }

    private static String say(String format, Object... values) {
        return String.format(Locale.ROOT, format, values);
    }
}
