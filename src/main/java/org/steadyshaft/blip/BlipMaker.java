package org.steadyshaft.blip;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.steadyshaft.signal.SpeedTrack;
import org.steadyshaft.signal.Stretch;

/**
 * Makes the list of blips of what was found in the waveform, each with its likely cause. One half-cycle of the mains too many throws the
 * speed up within that half-cycle; one or two too few let it sag while they last; a hand takes longer.
 */
public final class BlipMaker {
    /** The tail ends where this is left of the speed [%], or after so many time constants. */
    private static final double TAIL_PERCENT = 0.05;

    private static final double MOST_CONSTANTS = 5;

    /** An unwanted firing lasts a half-cycle, its torque a little longer; a missed pair of firings lasts a whole cycle. */
    private static final double SUDDEN_HALF_CYCLES = 4;

    private static final double SECONDS_A_MINUTE = 60;

    private final double mainsHz;

    public BlipMaker(double mainsHz) {
        this.mainsHz = mainsHz;
    }

    /** The blips; empty where nowhere was looked. */
    public Optional<Blips> make(ShaftEvents events, SpeedTrack track) {
        if (!(events.seconds() > 0)) {
            return Optional.empty();
        }
        List<Blip> blips = new ArrayList<>();
        List<Kink> kinks = events.kinks();
        for (int i = 0; i < kinks.size(); i++) {
            double next = i + 1 < kinks.size() ? kinks.get(i + 1).startSeconds() : track.toSeconds(track.size() - 1);
            blips.add(blip(kinks.get(i), next, track));
        }
        return Optional.of(new Blips(blips, events.seconds() / SECONDS_A_MINUTE, events.smallestPercent()));
    }

    /** From the start of each blip until its tail is back in the noise, whatever else happens meanwhile; in order of their starts. */
    public static List<Stretch> stretches(ShaftEvents events) {
        return events.kinks().stream().map(BlipMaker::whole).toList();
    }

    private static Stretch whole(Kink kink) {
        double constants = Math.max(1, Math.min(MOST_CONSTANTS, Math.log(Math.abs(kink.percent()) / TAIL_PERCENT)));
        double peak = kink.startSeconds() + kink.riseSeconds();
        return new Stretch(kink.startSeconds(), peak + constants * kink.returnSeconds());
    }

    private Blip blip(Kink kink, double nextSeconds, SpeedTrack track) {
        double start = kink.startSeconds();
        double peak = start + kink.riseSeconds();
        double end = Math.max(peak, Math.min(nextSeconds, whole(kink).toSeconds()));
        double rpm = track.meanRpm(new Stretch(start - 0.1, start));
        double turns = rpm / SECONDS_A_MINUTE * kink.percent() / 100 * kink.bendInAll();
        BlipShape shape = new BlipShape(kink.riseSeconds(), OptionalDouble.of(kink.returnSeconds()), turns);
        return new Blip(start, peak, end, kink.percent(), shape, cause(kink));
    }

    private BlipCause cause(Kink kink) {
        boolean sudden = kink.riseSeconds() <= SUDDEN_HALF_CYCLES * 0.5 / mainsHz;
        if (kink.percent() > 0) {
            return sudden ? BlipCause.EXTRA_CONDUCTION : BlipCause.UNKNOWN;
        }
        return sudden ? BlipCause.MISSED_FIRING : BlipCause.LOAD_TOUCH;
    }
}
