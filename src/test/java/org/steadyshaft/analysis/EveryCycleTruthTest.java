package org.steadyshaft.analysis;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.steadyshaft.Thorough;
import org.steadyshaft.signal.DoubleSeries;
import org.steadyshaft.signal.SampleSource;
import org.steadyshaft.signal.SpeedTrack;
import org.steadyshaft.simulate.DrawnSpeed;
import org.steadyshaft.simulate.DrawnTacho;
import org.steadyshaft.simulate.DrawnTacho.Settings;
import org.steadyshaft.simulate.SoundCard;

/**
 * No cycle missed, none too many, in recordings as bad as they come: over every cycle that was counted the shaft turned by one
 * cycle of the tacho, and nearly all of the shaft's cycles were counted, in one row. What may be missing are the first cycles of
 * a start too quick for a spectrum and those beside the ends, which are left to the filter.
 */
class EveryCycleTruthTest {
    private static final int POLES = 8;

    /** @param leastCovered share of all cycles that must be counted */
    record Case(String name, SampleSource source, DrawnSpeed speed, double leastCovered) {
        @Override
        public String toString() {
            return name;
        }
    }

    /** From a crawl to 15,000 rpm and back: the level varies 500 to 1. */
    static Stream<Case> runUps() {
        List<Case> cases = new ArrayList<>();
        for (double upSeconds : Thorough.count(0, 1) == 1 ? new double[] {6, 3, 1.5} : new double[] {1.5}) {
            double percent = 100 * (15000.0 / 30 - 1);
            DrawnSpeed speed = DrawnSpeed.level(30)
                    .ramp(2, 2 + upSeconds, percent)
                    .ramp(upSeconds + 5, 2 * upSeconds + 5, -percent);
            double seconds = 2 * upSeconds + 7;
            Settings clean = Settings.clean(48000, seconds)
                    .withShape(1.0 / 15, 0.03, 0.05)
                    .withNoise(0.0002, 3);
            String how = " in " + upSeconds + " s";
            double least = upSeconds < 2 ? 0.97 : 0.99;
            cases.add(new Case("run-up" + how, tacho(speed, clean), speed, least));
            cases.add(new Case("eight bits" + how, new Quantised(tacho(speed, clean), 8, 1.1), speed, least));
            cases.add(new Case("hum" + how, tacho(speed, clean.withHum(0.005, 50.02)), speed, least));
            cases.add(new Case("second" + how, tacho(speed, clean.withShape(1.0 / 15, 1.5, 0.05)), speed, least));
            cases.add(new Case("high-pass" + how, card(tacho(speed, clean), 15), speed, least));
            cases.add(new Case("spikes" + how, tacho(speed, clean.withSpikes(0.1, firings(seconds))), speed, least));
        }
        return Thorough.count(0, 1) == 1 ? cases.stream() : Stream.of(cases.get(1), cases.get(3), cases.get(5));
    }

    private static final double[] ALL_HZ = {4, 12, 33, 47, 62, 80, 93, 160, 700, 2000, 4000};
    private static final double[] SOME_HZ = {4, 33, 47, 93, 700, 4000};

    /** At one speed, everything that may come in, by itself and together. */
    static Stream<Case> levels() {
        List<Case> cases = new ArrayList<>();
        for (double hz : Thorough.count(0, 1) == 1 ? ALL_HZ : SOME_HZ) {
            DrawnSpeed speed = DrawnSpeed.level(hz * 60 / POLES);
            double seconds = hz < 20 ? 30 : 4;
            double peak = 0.5 * 1000 * POLES / (60 * hz);
            double least = 1 - 13 / (hz * seconds);
            for (double rate :
                    Thorough.count(0, 1) == 1 ? new double[] {8000, 48000, 192000} : new double[] {8000, 48000}) {
                if (rate > 4 * hz) {
                    Settings clean = Settings.clean(rate, seconds)
                            .withShape(peak, 0.03, 0.05)
                            .withNoise(0.002, 3);
                    cases.add(new Case(hz + " Hz at " + rate, tacho(speed, clean), speed, least));
                }
            }
            Settings clean =
                    Settings.clean(32000, seconds).withShape(peak, 0.03, 0.05).withNoise(0.002, 3);
            Settings spiky = clean.withSpikes(0.75, firings(seconds));
            cases.add(new Case(hz + " Hz, eight bits", new Quantised(tacho(speed, clean), 8, 1.1), speed, least));
            cases.add(new Case(hz + " Hz, hum of 70 %", tacho(speed, clean.withHum(0.35, 50.02)), speed, least));
            cases.add(new Case(hz + " Hz, spikes of 1.5", tacho(speed, spiky), speed, least));
            cases.add(new Case(hz + " Hz, second of 1.8", tacho(speed, clean.withShape(peak, 1.8, 0.3)), speed, least));
            cases.add(new Case(hz + " Hz, high-pass above", card(tacho(speed, clean), 2 * hz), speed, least));
            Settings all = spiky.withHum(0.35, 50.02).withShape(peak, 1.5, 0.2);
            cases.add(new Case(hz + " Hz, all", new Quantised(card(tacho(speed, all), 15), 8, 1), speed, least));
        }
        return cases.stream();
    }

    private static SampleSource tacho(DrawnSpeed speed, Settings settings) {
        return new DrawnTacho("tacho", speed, settings);
    }

    private static SampleSource card(SampleSource volts, double highPassHz) {
        return new SoundCard(volts, highPassHz, 1.5, DoubleSeries.EMPTY);
    }

    /** A triac that switches every half-cycle of the mains. */
    private static DoubleSeries firings(double seconds) {
        DoubleSeries.Builder times = new DoubleSeries.Builder();
        for (double at = 0.0037; at < seconds; at += 0.01) {
            times.add(at);
        }
        return times.build();
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource({"runUps", "levels"})
    void everyCycleIsCountedOnce(Case drawn) {
        SpeedTrack track = Analysed.rotation(drawn.source).track();
        int wrong = 0;
        for (int i = 0; i < track.size(); i++) {
            double cycles = POLES * (drawn.speed.turns(track.toSeconds(i)) - drawn.speed.turns(track.fromSeconds(i)));
            wrong += Math.abs(cycles - 1) > 0.3 ? 1 : 0;
        }
        double seconds = drawn.source.samples() / drawn.source.sampleRateHz();
        double covered = track.size() / (POLES * drawn.speed.turns(seconds));
        assertEquals(0, wrong, "wrong cycles of " + track.size());
        assertTrue(covered >= drawn.leastCovered && covered <= 1, "counted " + covered + " of all cycles");
    }
}
