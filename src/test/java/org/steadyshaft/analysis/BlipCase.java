package org.steadyshaft.analysis;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.steadyshaft.blip.BlipCause;
import org.steadyshaft.signal.SampleSource;
import org.steadyshaft.signal.Tachometer;
import org.steadyshaft.simulate.DrawnSpeed;
import org.steadyshaft.simulate.DrawnTacho;

/**
 * A capture with blips of one size, up and down, over a pole pattern, a ripple and a small wander.
 *
 * @param sizePercent of each blip, above 0
 * @param snrDb power of the fundamental over that of the noise, as {@link SwingCase#settings} counts it
 * @param tachoHz nominal frequency; each capture draws its own within 1 % of it
 */
record BlipCase(double sizePercent, double snrDb, double tachoHz, double lengthSeconds) {
    static final BlipCase BASE = new BlipCase(2, 45, 120, 60);

    private static final double RIPPLE_HZ = 100;
    private static final double RIPPLE_PERCENT = 0.2;
    private static final double WANDER_PERCENT = 0.05;

    /** The first and the last blip stay so far from the ends. */
    private static final double MARGIN_SECONDS = 2;

    BlipCase {
        if (!(sizePercent > 0) || !(tachoHz > 0) || !(lengthSeconds > 2 * MARGIN_SECONDS)) {
            throw new IllegalArgumentException(sizePercent + " %, " + tachoHz + " Hz, " + lengthSeconds + " s");
        }
    }

    BlipCase withSize(double percent) {
        return new BlipCase(percent, snrDb, tachoHz, lengthSeconds);
    }

    BlipCase withSnr(double db) {
        return new BlipCase(sizePercent, db, tachoHz, lengthSeconds);
    }

    BlipCase withTacho(double hz) {
        return new BlipCase(sizePercent, snrDb, hz, lengthSeconds);
    }

    /** A blip as it was drawn, its peak signed. */
    record Event(double peakSeconds, double peakPercent) {
        BlipCause cause() {
            return peakPercent > 0 ? BlipCause.EXTRA_CONDUCTION : BlipCause.MISSED_FIRING;
        }
    }

    /** A capture and the blips that are true of it, in order. */
    record Drawn(SampleSource source, List<Event> events, double tachoHz) {}

    /** Same seed, same capture. */
    Drawn draw(long seed) {
        Random random = Seeds.random(seed);
        double hz = SwingCase.near(random, tachoHz, SwingCase.TACHO_REACH);
        double rpm = new Tachometer(SwingCase.POLE_PAIRS).rpm(hz);
        DrawnSpeed speed = DrawnSpeed.level(rpm).line(RIPPLE_HZ, RIPPLE_PERCENT, 2 * Math.PI * random.nextDouble());
        speed = Seeds.wander(speed, random, WANDER_PERCENT, lengthSeconds);
        List<Event> events = new ArrayList<>();
        double at = MARGIN_SECONDS;
        while (at < lengthSeconds - MARGIN_SECONDS) {
            double rise = Seeds.between(random, 0.01, 0.02);
            double percent = random.nextBoolean() ? sizePercent : -sizePercent;
            speed = speed.blip(at, rise, percent, Seeds.between(random, 0.15, 0.4));
            events.add(new Event(at + rise, percent));
            at += Seeds.between(random, 1.2, 3);
        }
        DrawnTacho tacho = new DrawnTacho(
                "seed " + seed, speed, SwingCase.settings(tachoHz, rpm, snrDb, lengthSeconds, random.nextLong()));
        return new Drawn(tacho, events, hz);
    }
}
