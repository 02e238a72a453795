package org.steadyshaft.simulate;

import java.util.List;
import java.util.Random;
import org.steadyshaft.signal.SampleSource;

/**
 * The demo: a community pottery refits its throwing wheels with salvaged motors and records them with different drive
 * circuits. All of it is invented. The wheel head turns a tenth as fast as the motor.
 */
public final class PotteryDemo {
    /** How a capture of the demo is to be written. */
    public enum Kind {
        WAV,
        SCOPE_TEXT
    }

    /**
     * A capture of the demo with its row in the run sheet.
     *
     * @param file name to give it
     * @param kind how to write it
     * @param source its samples, full scale 1 for WAV, volts for text
     */
    public record Capture(
            String file, Kind kind, String circuit, String setting, String load, String note, SampleSource source) {}

    public static final int POLE_PAIRS = 8;
    public static final int MAINS_HZ = 50;

    private static final double WAV_RATE_HZ = 16000;
    private static final double SCOPE_RATE_HZ = 5000;
    private static final String RC = "RC and diac";
    private static final String DC_FIELD = "RC and diac, field from DC";
    private static final String PULSES = "pulse train";
    private static final String LOOP = "controller on the tacho";

    private PotteryDemo() {}

    /** The captures, in the order of the run sheet. */
    public static List<Capture> captures() {
        return List.of(
                wav("wheel1-rc-slow.wav", RC, "60 rpm", "none", 20, jumpy(612, 11)),
                wav("wheel1-rc-slow-clay.wav", RC, "60 rpm", "2 kg clay", 20, jumpy(548, 12)),
                wav("wheel1-rc-fast.wav", RC, "180 rpm", "none", 12, pulsing(1835, 0.9, 0.25)),
                wav("wheel1-dcfield-slow.wav", DC_FIELD, "60 rpm", "none", 20, pulsing(604, 0.5, 0.1)),
                wav("wheel1-dcfield-slow-clay.wav", DC_FIELD, "60 rpm", "2 kg clay", 20, pulsing(583, 0.6, 0.1)),
                wav("wheel1-dcfield-fast.wav", DC_FIELD, "180 rpm", "none", 12, pulsing(1812, 0.45, 0.08)),
                wav(
                        "wheel2-controller-slow.wav",
                        LOOP,
                        "60 rpm",
                        "none",
                        20,
                        DrawnSpeed.level(600).line(1.3, 0.9, 0.4).line(100, 0.2, 1)),
                wav(
                        "wheel2-controller-fast.wav",
                        LOOP,
                        "180 rpm",
                        "none",
                        12,
                        DrawnSpeed.level(1800).line(2.1, 0.25, 0.4).line(100, 0.3, 1)),
                wav(
                        "wheel2-controller-step.wav",
                        LOOP,
                        "90 to 120 rpm",
                        "none",
                        12,
                        DrawnSpeed.level(900).step(5, 33.3, 0.4).line(100, 0.3, 1)),
                scope("wheel3-pulses-slow.csv", "60 rpm", DrawnSpeed.level(620).line(12.5, 1.4, 0.2)),
                scope(
                        "wheel3-pulses-fast.csv",
                        "180 rpm",
                        DrawnSpeed.level(1790).line(25, 0.8, 0.2)));
    }

    /** A slow run whose triac now and then fires when it should not. */
    private static DrawnSpeed jumpy(double rpm, long seed) {
        Random chance = new Random(seed);
        DrawnSpeed speed =
                DrawnSpeed.level(rpm).line(100, 0.7, 0.5).line(50, 0.15, 0.1).drift(-0.6);
        for (double at = 1.5 + 2 * chance.nextDouble(); at < 18; at += 1.5 + 5 * chance.nextDouble()) {
            double size = 2 + 5 * chance.nextDouble();
            speed = speed.blip(at, 0.01 + 0.015 * chance.nextDouble(), chance.nextInt(5) == 0 ? -size : size, 0.2);
        }
        return speed;
    }

    private static DrawnSpeed pulsing(double rpm, double twiceMainsPercent, double mainsPercent) {
        return DrawnSpeed.level(rpm)
                .line(100, twiceMainsPercent, 0.5)
                .line(50, mainsPercent, 0.1)
                .drift(0.3);
    }

    private static Capture wav(
            String file, String circuit, String setting, String load, double seconds, DrawnSpeed speed) {
        DrawnTacho.Settings settings = DrawnTacho.Settings.clean(WAV_RATE_HZ, seconds)
                .withPattern(1.1, -0.6, 0.4, -1.3, 0.9, 0.2, -0.9, 0.2)
                .withShape(0.4, 0.03, 0.06)
                .withHum(0.002, 50.02)
                .withNoise(0.001, file.hashCode());
        return new Capture(file, Kind.WAV, circuit, setting, load, "simulated", new DrawnTacho(file, speed, settings));
    }

    private static Capture scope(String file, String setting, DrawnSpeed speed) {
        DrawnTacho.Settings settings = DrawnTacho.Settings.clean(SCOPE_RATE_HZ, 4)
                .withPattern(-0.8, 1.2, -0.3, 0.5, -1.0, 0.7, 0.1, -0.4)
                .withShape(6, 0.03, 0.06)
                .withNoise(0.03, file.hashCode());
        return new Capture(
                file, Kind.SCOPE_TEXT, PULSES, setting, "none", "simulated", new DrawnTacho(file, speed, settings));
    }
}
