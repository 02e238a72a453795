package org.steadyshaft.blip;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.steadyshaft.numeric.Moments;
import org.steadyshaft.signal.MainsHum;

/** What several blips have in common: even spacing, or one and the same place in the mains half-cycle. */
public final class BlipRhythm {
    private static final int FEWEST = 5;

    /** Spacings that scatter by less than this share are regular; by chance they scatter by about their mean. */
    private static final double REGULAR = 0.15;

    /** The tacho must give so many cycles a mains cycle to place a blip within it. */
    private static final double CYCLES_A_MAINS_CYCLE = 6;

    /** Rayleigh's test: n R^2 above -ln(0.001) is chance once in a thousand (K. V. Mardia, Statistics of Directional Data, from memory). */
    private static final double NOT_BY_CHANCE = 6.9;

    private final double mainsHz;
    private final MainsHum hum;

    /** @param hum mains pick-up in the recording, which tells the phase of the mains */
    public BlipRhythm(double mainsHz, MainsHum hum) {
        this.mainsHz = mainsHz;
        this.hum = hum;
    }

    /** Sentences; empty where nothing is in common or too few blips tell. */
    public List<String> remarks(List<Blip> events, double cycleHz) {
        List<String> remarks = new ArrayList<>();
        if (events.size() < FEWEST) {
            return remarks;
        }
        Moments spacing = new Moments();
        for (int i = 1; i < events.size(); i++) {
            spacing.add(events.get(i).fromSeconds() - events.get(i - 1).fromSeconds());
        }
        if (spacing.deviation() < REGULAR * spacing.mean()) {
            remarks.add(String.format(
                    Locale.ROOT,
                    "The blips come evenly, every %.2f s: look for something that repeats so often (a timer, a relay, the"
                            + " controller's loop, something on the wheel).",
                    spacing.mean()));
        }
        if (cycleHz >= CYCLES_A_MAINS_CYCLE * mainsHz) {
            mainsPhase(events, remarks);
        }
        return remarks;
    }

    private void mainsPhase(List<Blip> events, List<String> remarks) {
        for (MainsHum.Line line : hum.lines()) {
            if (Math.abs(line.frequencyHz() / mainsHz - 1) > 0.01) {
                continue;
            }
            double re = 0;
            double im = 0;
            for (Blip blip : events) {
                double t = blip.fromSeconds();
                double phase =
                        2 * Math.PI * line.frequencyHz() * t - Math.atan2(hum.sine(line, t), hum.cosine(line, t));
                re += Math.cos(2 * phase);
                im += Math.sin(2 * phase);
            }
            if ((re * re + im * im) / events.size() > NOT_BY_CHANCE) {
                remarks.add(
                        "By the pick-up in the recording, the blips begin at one and the same place of the mains half-cycle:"
                                + " the drive makes them, not a hand.");
            }
        }
    }
}
