package org.steadyshaft.simulate;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.steadyshaft.signal.DoubleSeries;

/** Reads what turns, what feeds and what loads it from a scenario. Times in a scenario count from the start of the recording. */
final class MachineReader {
    private final ScenarioToml toml;
    private final double settleSeconds;

    MachineReader(ScenarioToml toml) {
        this.toml = toml;
        this.settleSeconds = toml.number("run.settle");
    }

    Motor motor() {
        double bars = toml.number("motor.commutator_bars", 0);
        return new Motor(
                toml.number("motor.armature_resistance"),
                toml.number("motor.armature_inductance"),
                toml.number("motor.field_resistance", 0),
                toml.number("motor.field_inductance", 0),
                toml.number("motor.flux_per_ampere", 0),
                toml.number("motor.saturation_current", 4),
                toml.number("motor.fixed_flux", 0),
                toml.number("motor.brush_drop", 0),
                toml.number("motor.inertia"),
                toml.number("motor.dry_friction", 0),
                toml.number("motor.viscous_friction", 0),
                toml.number("motor.fan", 0),
                new Motor.Roughness(
                        toml.number("motor.stiction", 0),
                        // two brushes on an odd number of bars change over one after the other
                        bars % 2 == 0 ? bars : 2 * bars,
                        toml.number("motor.commutator_percent", 0)));
    }

    Mains mains() {
        List<Mains.Step> steps = new ArrayList<>();
        for (DoubleSeries step : toml.rows("mains.steps", 2)) {
            steps.add(new Mains.Step(settleSeconds + step.get(0), step.get(1)));
        }
        steps.sort(Comparator.comparingDouble(Mains.Step::timeSeconds));
        return new Mains(
                toml.number("mains.rms"),
                toml.number("mains.hz"),
                new Mains.Unrest(
                        toml.number("mains.wander_percent", 0),
                        toml.number("mains.wander_period", 60),
                        toml.number("mains.flicker_percent", 0),
                        toml.number("mains.flicker_hz", 1)),
                steps);
    }

    Misfiring misfiring() {
        return new Misfiring(
                toml.number("triac.refires_per_minute", 0),
                toml.number("triac.misses_per_minute", 0),
                toml.number("triac.latching_current", 0),
                toml.number("triac.holding_current", 0),
                toml.flag("triac.one_way") ? Double.POSITIVE_INFINITY : toml.number("triac.weak_delay", 0),
                moment("triac.shorted"));
    }

    /** A time in the recording as one of the run; infinity where there is none. */
    double moment(String key) {
        return toml.has(key) ? settleSeconds + toml.number(key) : Double.POSITIVE_INFINITY;
    }

    Load load() {
        Load load = Load.NONE.constant(toml.number("load.torque", 0));
        for (DoubleSeries step : toml.rows("load.steps", 2)) {
            load = load.step(settleSeconds + step.get(0), step.get(1));
        }
        for (DoubleSeries grip : toml.rows("load.grips", 3)) {
            load = load.grip(settleSeconds + grip.get(0), grip.get(1), grip.get(2));
        }
        for (DoubleSeries swing : toml.rows("load.swings", 2)) {
            load = load.swing(swing.get(0), swing.get(1));
        }
        double ratio = toml.number("belt.ratio", 0);
        double turns = toml.number("belt.turns", Math.max(1, ratio));
        double slip = toml.number("belt.slip_percent", 0);
        double lump = toml.number("belt.lump", 0);
        double seam = toml.number("belt.seam", 0);
        return ratio == 0 ? load : load.belt(new Load.Belt(ratio, turns, slip), lump, seam);
    }

    Scenario.DriveMaker drive() {
        double mainsHz = toml.number("mains.hz");
        double missed = toml.number("drive.interrupts_missed_per_minute", 0);
        double doubled = toml.number("drive.interrupts_doubled_per_minute", 0);
        boolean rectified = toml.flag("drive.rectified");
        switch (toml.word("drive.kind")) {
            case "rc-diac" -> {
                RcDiacDrive drive = new RcDiacDrive(
                        toml.number("drive.resistance"),
                        toml.number("drive.capacitance"),
                        toml.number("drive.break_over"),
                        toml.number("drive.asymmetry_percent", 0),
                        toml.number("drive.dump", 0),
                        rectified);
                return seed -> drive;
            }
            case "timed" -> {
                boolean holds = toml.flag("drive.holds_gate");
                TimedDrive.Settings settings = new TimedDrive.Settings(
                        toml.number("drive.angle_degrees"),
                        mainsHz,
                        toml.number("drive.unequal_degrees", 0),
                        holds,
                        toml.number("drive.overrun", 0),
                        rectified);
                return seed -> new DetectorFaults(new TimedDrive(settings), missed, doubled, mainsHz, seed);
            }
            case "loop" -> {
                LoopDrive.Settings settings = loop(mainsHz);
                double first = toml.number("drive.set_rpm");
                List<Scenario.Step> steps = setPointSteps();
                return seed -> new DetectorFaults(
                        new LoopDrive(settings, t -> setPoint(first, steps, t)), missed, doubled, mainsHz, seed);
            }
            default -> throw toml.wrong("drive.kind", toml.word("drive.kind"), "rc-diac, timed or loop");
        }
    }

    boolean isLoop() {
        return toml.word("drive.kind").equals("loop");
    }

    private LoopDrive.Settings loop(double mainsHz) {
        return new LoopDrive.Settings(
                (int) toml.number("tacho.pole_pairs"),
                mainsHz,
                toml.number("drive.detector_delay", 0),
                (int) toml.number("drive.every_half_cycles", 1),
                toml.number("drive.proportional"),
                toml.number("drive.integral"),
                toml.number("drive.derivative", 0),
                toml.number("drive.gain_over_rpm", 0),
                toml.number("drive.first_drive", 0),
                moment("drive.lead_breaks"),
                toml.flag("drive.winds_up"),
                toml.number("drive.timer_range", Double.POSITIVE_INFINITY));
    }

    private double setPoint(double first, List<Scenario.Step> steps, double timeSeconds) {
        double rpm = first;
        for (Scenario.Step step : steps) {
            rpm = timeSeconds >= settleSeconds + step.timeSeconds() ? step.rpm() : rpm;
        }
        return rpm;
    }

    List<Scenario.Step> setPointSteps() {
        return toml.rows("drive.steps", 2).stream()
                .map(row -> new Scenario.Step(row.get(0), row.get(1)))
                .toList();
    }

    /** What changes in the run on purpose or for good, in the time of the recording. */
    List<Scenario.Change> changes() {
        List<Scenario.Change> changes = new ArrayList<>();
        toml.rows("mains.steps", 2).forEach(s -> changes.add(new Scenario.Change("mains step", s.get(0), s.get(1))));
        toml.rows("load.steps", 2).forEach(s -> changes.add(new Scenario.Change("load step", s.get(0), s.get(1))));
        toml.rows("load.grips", 3).forEach(s -> changes.add(new Scenario.Change("grip", s.get(0), s.get(2))));
        for (String key : List.of("triac.shorted", "motor.field_lost", "drive.lead_breaks")) {
            if (toml.has(key)) {
                String word = key.substring(key.indexOf('.') + 1).replace('_', ' ');
                changes.add(new Scenario.Change(word.equals("shorted") ? "triac shorted" : word, toml.number(key), 0));
            }
        }
        changes.sort(Comparator.comparingDouble(Scenario.Change::timeSeconds));
        return changes;
    }

    /** Orders of the shaft on which something swings, with their cause. */
    List<Scenario.Order> orders() {
        List<Scenario.Order> orders = new ArrayList<>();
        double grips = 1 - toml.number("belt.slip_percent", 0) / 100;
        double ratio = toml.number("belt.ratio", 0);
        if (toml.number("belt.lump", 0) != 0) {
            orders.add(new Scenario.Order(grips / ratio, "wheel"));
        }
        if (toml.number("belt.seam", 0) != 0) {
            orders.add(new Scenario.Order(grips / toml.number("belt.turns", Math.max(1, ratio)), "belt"));
        }
        Motor.Roughness rough = motor().roughness();
        if (rough.commutatorPercent() > 0) {
            orders.add(new Scenario.Order(rough.commutatorOrder(), "commutator"));
        }
        return orders;
    }
}
