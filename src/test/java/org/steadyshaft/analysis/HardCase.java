package org.steadyshaft.analysis;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import java.util.Set;
import org.steadyshaft.blip.Blip;
import org.steadyshaft.response.LoadEvent;
import org.steadyshaft.response.Step;
import org.steadyshaft.ripple.Certainty;
import org.steadyshaft.ripple.Hunting;
import org.steadyshaft.ripple.RippleLine;
import org.steadyshaft.signal.Finding;
import org.steadyshaft.signal.FindingCode;
import org.steadyshaft.signal.SampleSource;
import org.steadyshaft.signal.Stretch;
import org.steadyshaft.signal.Tachometer;
import org.steadyshaft.simulate.DrawnSpeed;
import org.steadyshaft.simulate.DrawnTacho;
import org.steadyshaft.simulate.RecorderFaults;
import org.steadyshaft.simulate.RecorderFaults.Fault;
import org.steadyshaft.stability.Alarm;

/** One recording of a hard bench: a drawn speed on a drawn tacho with drawn faults, and what may be said of it. */
final class HardCase {
    /** What happens in a recording. */
    enum Kind {
        STEADY,
        BLIPS,
        HUNTING,
        STEP,
        KNOB,
        OVERSHOOT,
        LOAD,
        RUNAWAY,
        CONTACT,
        SPLICE,
        LEAD
    }

    private static final double RATE_HZ = 16_000;
    private static final double MAINS_HZ = 50;
    private static final int[] POLES = {1, 2, 4, 8};

    /** What may be found in any recording with pick-up, noise or harmonics. */
    private static final Set<FindingCode> USUAL =
            EnumSet.of(FindingCode.HUM, FindingCode.LOW_SNR, FindingCode.HARMONIC, FindingCode.SPIKES);

    /** A mean off by less than this share is no false one, whatever its uncertainty: the wander of what is left out. */
    private static final double MEAN_SHARE = 6e-5;

    /** A blip as it was drawn. */
    private record DrawnBlip(double fromSeconds, double peakSeconds, double percent) {}

    private final Kind kind;
    private final Random random;
    private final double seconds;
    private final int polePairs;
    private final double rpm;
    private final List<DrawnBlip> blips = new ArrayList<>();
    private final List<Fault> faults = new ArrayList<>();
    private final StringBuilder note = new StringBuilder();
    private DrawnSpeed speed;
    private double hum;
    private boolean loop;
    private double huntingHz;
    private double huntingPercent;
    private double atSeconds;
    private double percent;

    private HardCase(Kind kind, long seed) {
        this.kind = kind;
        this.random = Seeds.random(seed);
        this.seconds = between(22, 36);
        this.polePairs = POLES[random.nextInt(POLES.length)];
        double cycleHz = between(28, 200);
        this.rpm = 60 * cycleHz / polePairs;
        this.hum = random.nextInt(2) * between(0.005, 0.03);
        this.speed = Seeds.wander(DrawnSpeed.level(rpm), random, 0.04, seconds)
                .line(2 * MAINS_HZ, between(0, 0.4), 6 * random.nextDouble());
        tell("tacho", cycleHz);
        tell("hum", hum);
    }

    static HardCase draw(Kind kind, long seed) {
        HardCase drawn = new HardCase(kind, seed);
        switch (kind) {
            case STEADY -> {
                // nothing happens
            }
            case BLIPS -> drawn.blips();
            case HUNTING -> drawn.hunting(spread(drawn.random, 0.2, 5), spread(drawn.random, 0.4, 4));
            case STEP -> drawn.step();
            case KNOB -> drawn.knob();
            case OVERSHOOT -> drawn.overshoot();
            case LOAD -> drawn.load();
            case RUNAWAY -> drawn.runaway();
            case CONTACT -> drawn.contact();
            case SPLICE -> drawn.splice();
            case LEAD -> drawn.lead();
        }
        return drawn;
    }

    private double between(double low, double high) {
        return Seeds.between(random, low, high);
    }

    /** Between two values, each factor as likely as another. */
    private static double spread(Random random, double low, double high) {
        return low * Math.pow(high / low, random.nextDouble());
    }

    private void tell(String what, double value) {
        note.append(note.isEmpty() ? "" : ", ").append(String.format(Locale.ROOT, "%s %.4g", what, value));
    }

    String note() {
        return note.toString();
    }

    int polePairs() {
        return polePairs;
    }

    boolean loop() {
        return loop;
    }

    private void hunting(double hz, double size) {
        loop = true;
        huntingHz = hz;
        huntingPercent = size;
        speed = speed.line(hz, size, 6 * random.nextDouble());
        tell("hunting Hz", hz);
        tell("hunting %", size);
    }

    private void blips() {
        int beside = random.nextInt(5);
        if (beside == 1) {
            hunting(spread(random, 0.3, 2), spread(random, 0.5, 3));
        } else if (beside == 2) {
            speed = speed.ramp(4, seconds - 4, between(-35, 50));
        } else if (beside == 3) {
            hum = between(0.04, 0.12);
        }
        tell("beside", beside);
        double size = spread(random, 1, 8) * (random.nextBoolean() ? 1 : -1);
        double rise = between(0.006, 0.018);
        double returns = spread(random, 0.06, 1);
        double ringing = returns > 0.1 && returns < 0.4 && random.nextInt(3) == 0 ? between(0.5, 2.5) : 0;
        double every = beside == 4 ? between(0.8, 1.2) + 2 * returns : between(2, 4) + 2 * returns;
        for (double t = 2; t < seconds - 2; t += every * between(0.7, 1.4)) {
            double one = size * between(0.85, 1.15);
            // drawn in per cent of the level, told in per cent of the speed just before
            speed = speed.ringingBlip(t, rise, one * speed.rpm(t) / rpm, returns, ringing);
            blips.add(new DrawnBlip(t, t + rise, one));
        }
        tell("size", size);
        tell("rise", rise);
        tell("return", returns);
        tell("ringing", ringing);
    }

    private void step() {
        atSeconds = between(9, seconds - 10);
        percent = spread(random, 2, 55) * (random.nextBoolean() ? 1 : -1);
        double constant = spread(random, 0.06, 0.7);
        speed = speed.step(atSeconds, percent, constant);
        tell("step", percent);
        tell("at", atSeconds);
        tell("constant", constant);
    }

    private void knob() {
        double from = between(5, 7);
        double up = between(0.5, 3);
        double held = between(0, 4);
        double down = between(0.5, 3);
        percent = between(5, 80) * (random.nextInt(3) == 0 ? -0.5 : 1);
        speed = speed.ramp(from, from + up, percent).ramp(from + up + held, from + up + held + down, -percent);
        tell("knob", percent);
        tell("from", from);
        tell("up", up);
        tell("held", held);
        tell("down", down);
    }

    /** A loop's answer to a set-point: a first-order step and a ringing beside it. */
    private void overshoot() {
        loop = true;
        atSeconds = between(6, seconds - 9);
        percent = between(8, 60) * (random.nextInt(3) == 0 ? -0.5 : 1);
        double constant = between(0.15, 0.5);
        double ringing = between(0.3, 1.2);
        double ring = percent * between(0.1, 0.5);
        speed = speed.step(atSeconds, percent, constant)
                .ringingBlip(atSeconds, 0.25 / ringing, ring, between(0.4, 1), ringing);
        tell("step", percent);
        tell("ring", ring);
        tell("ringing", ringing);
        tell("constant", constant);
        tell("at", atSeconds);
    }

    private void load() {
        atSeconds = between(6, 9);
        percent = -spread(random, 2.5, 30);
        double constant = between(0.1, 0.4);
        double held = between(1, 6);
        speed = speed.step(atSeconds, percent, constant).step(atSeconds + held, -percent, constant);
        tell("load", percent);
        tell("at", atSeconds);
        tell("held", held);
        tell("constant", constant);
    }

    /** Far enough that nobody turned a knob. */
    private void runaway() {
        atSeconds = between(5, seconds - 6);
        percent = between(170, 260);
        double constant = spread(random, 0.15, 1.5);
        speed = speed.step(atSeconds, percent, constant);
        tell("runaway", percent);
        tell("at", atSeconds);
        tell("constant", constant);
    }

    private void contact() {
        RecorderFaults.Kind[] kinds = {
            RecorderFaults.Kind.NOISE_BURST,
            RecorderFaults.Kind.CRACKLE,
            RecorderFaults.Kind.LEVEL_STEP,
            RecorderFaults.Kind.OFFSET_STEP,
            RecorderFaults.Kind.HUM_STEP
        };
        RecorderFaults.Kind one = kinds[random.nextInt(kinds.length)];
        boolean isStep = one.ordinal() >= RecorderFaults.Kind.LEVEL_STEP.ordinal();
        int count = isStep ? 1 + random.nextInt(4) : 3 + random.nextInt(25);
        for (int i = 0; i < count; i++) {
            double size = switch (one) {
                case NOISE_BURST -> between(0.01, 0.15);
                case CRACKLE -> between(0, 0.9);
                case LEVEL_STEP -> between(-0.35, 0.4);
                default -> between(-0.12, 0.12);
            };
            double length = one == RecorderFaults.Kind.CRACKLE ? spread(random, 5e-4, 0.1) : spread(random, 3e-3, 0.4);
            faults.add(new Fault(one, between(1, seconds - 1), isStep ? 0 : length, size));
        }
        note.append(", ").append(one.word());
        tell("count", count);
    }

    private void splice() {
        int count = 1 + random.nextInt(6);
        double samples = Math.rint(spread(random, 10, 4000));
        RecorderFaults.Kind one =
                random.nextBoolean() ? RecorderFaults.Kind.LOST_SAMPLES : RecorderFaults.Kind.DOUBLED_SAMPLES;
        for (int i = 0; i < count; i++) {
            faults.add(new Fault(one, 2 + (seconds - 4) * (i + between(0.2, 0.8)) / count, 0, samples));
        }
        note.append(", ").append(one.word());
        tell("samples", samples);
        tell("count", count);
    }

    private void lead() {
        int count = 1 + random.nextInt(2);
        for (int i = 0; i < count; i++) {
            double at = 3 + (seconds - 8) * (i + between(0.1, 0.5)) / count;
            faults.add(new Fault(RecorderFaults.Kind.OPEN_LEAD, at, spread(random, 0.06, 2), 0.002));
            tell("open at", at);
        }
    }

    SampleSource source() {
        double[] pattern = new double[polePairs];
        double mean = 0;
        for (int i = 0; i < polePairs; i++) {
            pattern[i] = polePairs > 1 ? between(-1.3, 1.3) : 0;
            mean += pattern[i] / polePairs;
        }
        for (int i = 0; i < polePairs; i++) {
            pattern[i] -= mean;
        }
        double peak = 0.4;
        double decibels = between(28, 48);
        tell("SNR dB", decibels);
        DrawnTacho tacho = new DrawnTacho(
                kind.name(),
                speed,
                DrawnTacho.Settings.clean(RATE_HZ, seconds)
                        .withTachometer(new Tachometer(polePairs))
                        .withPattern(pattern)
                        .withShape(peak * 1000 / rpm, between(0, 0.12), between(0, 0.08))
                        .withHum(hum * peak, MAINS_HZ + 0.01 * random.nextGaussian())
                        .withNoise(peak / Math.sqrt(2) * Math.pow(10, -decibels / 20), random.nextLong()));
        return faults.isEmpty() ? tacho : new RecorderFaults(tacho, faults, MAINS_HZ, random.nextLong());
    }

    /** Adds what is false and what was missed. */
    void judge(Outcome.Analysed analysed, List<String> wrong, List<String> missed) {
        if (analysed.rotation().isEmpty()) {
            missed.add("no speed: " + analysed.findings());
            return;
        }
        Rotation rotation = analysed.rotation().get();
        judgeBlips(rotation, wrong, missed);
        judgeFindings(analysed.findings(), wrong, missed);
        if (kind != Kind.RUNAWAY) {
            judgeMean(rotation, wrong);
        }
        judgeHunting(rotation, wrong, missed);
        boolean runsAway = rotation.alarms().stream().anyMatch(a -> a.code() == Alarm.Code.RUNAWAY);
        if (runsAway != (kind == Kind.RUNAWAY)) {
            (runsAway ? wrong : missed).add(runsAway ? "false RUNAWAY" : "RUNAWAY not told");
        }
        if (kind != Kind.LEAD && rotation.alarms().stream().anyMatch(a -> a.code() != Alarm.Code.RUNAWAY)) {
            wrong.add("false alarm: " + rotation.alarms());
        }
        if (kind == Kind.STEP) {
            judgeStep(rotation, wrong, missed);
        } else if (kind == Kind.LOAD) {
            judgeLoad(rotation, wrong, missed);
        }
        judgeLines(rotation, wrong);
    }

    private void judgeBlips(Rotation rotation, List<String> wrong, List<String> missed) {
        List<Blip> left = new ArrayList<>(rotation.blips().map(b -> b.events()).orElse(List.of()));
        int hit = 0;
        List<Double> off = new ArrayList<>();
        for (DrawnBlip drawn : blips) {
            for (Blip blip : left) {
                if (Math.abs(blip.peakSeconds() - drawn.peakSeconds) < 0.07 && blip.peakPercent() * drawn.percent > 0) {
                    hit++;
                    off.add(Math.abs(blip.peakPercent() / drawn.percent - 1));
                    left.remove(blip);
                    break;
                }
            }
        }
        if (!left.isEmpty()) {
            wrong.add(left.size() + " invented blips, first " + left.get(0));
        }
        off.sort(null);
        if (!off.isEmpty() && off.get(off.size() / 2) > 0.15) {
            wrong.add("blips' sizes off by " + off.get(off.size() / 2));
        }
        if (hit < 0.9 * blips.size()) {
            missed.add(hit + " of " + blips.size() + " blips found");
        }
    }

    private void judgeFindings(List<Finding> findings, List<String> wrong, List<String> missed) {
        List<FindingCode> codes = findings.stream().map(Finding::code).toList();
        if (faults.isEmpty()) {
            findings.stream()
                    .filter(f -> !USUAL.contains(f.code()))
                    .forEach(f -> wrong.add("false " + f.code() + ": " + f.text()));
            return;
        }
        if (kind == Kind.SPLICE
                && !codes.contains(FindingCode.SAMPLES_LOST)
                && !codes.contains(FindingCode.SAMPLES_DOUBLED)
                && !codes.contains(FindingCode.GAP)
                && !(codes.contains(FindingCode.LEAD_OPEN) && isHalfCycles())
                && !isWholeCycles()) {
            missed.add("splices not told: " + codes);
        }
        if (kind == Kind.LEAD && !codes.contains(FindingCode.LEAD_OPEN)) {
            missed.add("open lead not told: " + codes);
        }
    }

    /** Samples that make nearly whole cycles leave no trace. */
    private boolean isWholeCycles() {
        double cycles = faults.get(0).size() / RATE_HZ * rpm / 60 * polePairs;
        return Math.abs(cycles - Math.rint(cycles)) < 0.06;
    }

    /** Half a cycle lost looks like a lead the other way round. */
    private boolean isHalfCycles() {
        double cycles = faults.get(0).size() / RATE_HZ * rpm / 60 * polePairs;
        return Math.abs(cycles - Math.floor(cycles) - 0.5) < 0.05;
    }

    private void judgeMean(Rotation rotation, List<String> wrong) {
        // told of the span that was counted; what is lost or doubled moves its end by less than matters
        double from = rotation.track().fromSeconds(0);
        double to =
                Math.min(seconds, rotation.track().toSeconds(rotation.track().size() - 1));
        double mean = 60 * (speed.turns(to) - speed.turns(from)) / (to - from);
        double off = Math.abs(rotation.speed().meanRpm() - mean);
        boolean moves = kind == Kind.STEP || kind == Kind.KNOB || kind == Kind.OVERSHOOT || kind == Kind.LOAD;
        double share = moves ? 3e-3 : !blips.isEmpty() || !faults.isEmpty() ? 5e-4 : MEAN_SHARE;
        if (off > 1.5 * rotation.speed().expandedRpm() && off > share * mean) {
            wrong.add(String.format(
                    Locale.ROOT,
                    "mean %.3f +- %.3f rpm for %.3f",
                    rotation.speed().meanRpm(),
                    rotation.speed().expandedRpm(),
                    mean));
        }
    }

    private void judgeHunting(Rotation rotation, List<String> wrong, List<String> missed) {
        if (rotation.hunting().isEmpty()) {
            boolean isLong = huntingHz * seconds > 8;
            if (kind == Kind.HUNTING && isLong) {
                missed.add("hunting not told");
            }
            return;
        }
        Hunting told = rotation.hunting().get();
        if (huntingHz == 0) {
            if (kind != Kind.OVERSHOOT) {
                wrong.add("false " + told);
            }
        } else if (Math.abs(told.frequencyHz() / huntingHz - 1) > 0.03
                || (kind == Kind.HUNTING && Math.abs(told.amplitudePercent() / huntingPercent - 1) > 0.1)) {
            wrong.add(told + " for " + huntingHz + " Hz " + huntingPercent + " %");
        }
    }

    private void judgeStep(Rotation rotation, List<String> wrong, List<String> missed) {
        double before = mean(rotation, atSeconds - 5, atSeconds - 1);
        double after = mean(rotation, atSeconds + 5, seconds - 1);
        double toRpm = rpm * (1 + percent / 100);
        if (Math.abs(before / rpm - 1) > 0.006 || Math.abs(after / toRpm - 1) > 0.006) {
            missed.add("steady levels " + before + " and " + after + " for " + rpm + " and " + toRpm);
        }
        for (Step step : rotation.steps()) {
            if (Math.abs(step.toRpm() / toRpm - 1) > 0.01 || Math.abs(step.fromRpm() / rpm - 1) > 0.01) {
                wrong.add("step " + step);
            }
        }
    }

    /** Mean of the steady stretch that overlaps most; 0 without any. */
    private static double mean(Rotation rotation, double from, double to) {
        double most = 0;
        double mean = 0;
        for (Stretch stretch : rotation.steady()) {
            double shared = Math.min(to, stretch.toSeconds()) - Math.max(from, stretch.fromSeconds());
            if (shared > most) {
                most = shared;
                mean = rotation.track().meanRpm(stretch);
            }
        }
        return mean;
    }

    private void judgeLoad(Rotation rotation, List<String> wrong, List<String> missed) {
        List<Double> told = new ArrayList<>();
        for (LoadEvent event : rotation.loadEvents()) {
            if (Math.abs(event.timeSeconds() - atSeconds) < 1) {
                told.add(event.dipPercent());
            }
        }
        for (Step step : rotation.steps()) {
            if (Math.abs(step.timeSeconds() - atSeconds) < 1) {
                told.add(100 * (1 - step.toRpm() / step.fromRpm()));
            }
        }
        if (told.isEmpty()) {
            missed.add("load not told");
        } else if (Math.abs(told.get(0) / -percent - 1) > 0.25) {
            wrong.add("load of " + told + " %");
        }
    }

    /** Lines of some size that were not drawn and whose cause is said without doubt. */
    private void judgeLines(Rotation rotation, List<String> wrong) {
        for (RippleLine line : rotation.spectrum().lines()) {
            boolean drawn = Math.abs(line.frequencyHz() - 2 * MAINS_HZ) < 0.5
                    || (huntingHz > 0 && Math.abs(line.frequencyHz() / huntingHz - 1) < 0.05);
            boolean isSlow = line.frequencyHz() < 3;
            if (!drawn
                    && !isSlow
                    && blips.isEmpty()
                    && line.amplitudePercent() > 0.1
                    && line.certainty() != Certainty.LOW) {
                wrong.add("false line " + line);
            }
        }
    }
}
