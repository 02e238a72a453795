package org.steadyshaft.plan;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * What a user knows of the machine and the recorder, and what is to be proven.
 *
 * @param topRpm highest speed that will be recorded; above 0
 * @param lowestRpm lowest speed that will be recorded; above 0 and at most the top
 * @param polePairs cycles of the tacho a turn; 1 or more
 * @param tacho its voltage; absent where nobody measured it, and then nothing is said of level and divider
 * @param input the recorder's
 * @param limits what is to be proven
 * @param mainsHz 50 or 60
 * @param circuits names for the list of runs; at least one
 * @param loads names for the list of runs, the light one first; at least one
 */
public record PlanRequest(
        double topRpm,
        double lowestRpm,
        int polePairs,
        Optional<TachoVoltage> tacho,
        Input input,
        Limits limits,
        double mainsHz,
        List<String> circuits,
        List<String> loads) {
    /**
     * A tacho's voltage at a speed.
     *
     * @param rmsVolts as a meter reads it on AC
     * @param atRpm at that speed
     */
    public record TachoVoltage(double rmsVolts, double atRpm) {
        public TachoVoltage {
            if (!(rmsVolts > 0) || !(atRpm > 0) || !Double.isFinite(rmsVolts / atRpm)) {
                throw new IllegalArgumentException("tacho of " + rmsVolts + " V at " + atRpm + " rpm");
            }
        }

        /** Its peak at another speed: the voltage of a tacho with a magnet grows as the speed. */
        double peakVolts(double rpm) {
            return Math.sqrt(2) * rmsVolts * rpm / atRpm;
        }
    }

    /**
     * A recorder's input.
     *
     * @param peakVolts what it takes without clipping, to either side of zero
     * @param ohms its resistance; absent where it is not known
     * @param bits of its converter, 4 to 32
     */
    public record Input(double peakVolts, OptionalDouble ohms, int bits) {
        public Input {
            if (!(peakVolts > 0) || !Double.isFinite(peakVolts) || !(ohms.orElse(1) > 0) || bits < 4 || bits > 32) {
                throw new IllegalArgumentException("input of " + peakVolts + " V, " + ohms + " ohm, " + bits + " bits");
            }
        }

        /** Voltage of one step. */
        double stepVolts() {
            return 2 * peakVolts / Math.pow(2, bits);
        }
    }

    /**
     * What is to be proven; each absent where it is not asked for.
     *
     * @param blipsPerMinute at most so many
     * @param ripplePercent rms, at most
     * @param sagPercent slowing under load, in % of the loaded speed, at most
     */
    public record Limits(OptionalDouble blipsPerMinute, OptionalDouble ripplePercent, OptionalDouble sagPercent) {
        public Limits {
            if (!(blipsPerMinute.orElse(1) > 0) || !(ripplePercent.orElse(1) > 0) || !(sagPercent.orElse(1) > 0)) {
                throw new IllegalArgumentException(
                        "limits of " + blipsPerMinute + ", " + ripplePercent + ", " + sagPercent);
            }
        }
    }

    public PlanRequest {
        circuits = List.copyOf(circuits);
        loads = List.copyOf(loads);
        if (!(lowestRpm > 0)
                || !(topRpm >= lowestRpm)
                || !Double.isFinite(topRpm)
                || polePairs < 1
                || !(mainsHz > 0)
                || circuits.isEmpty()
                || loads.isEmpty()) {
            throw new IllegalArgumentException(
                    "plan for " + lowestRpm + " to " + topRpm + " rpm with " + polePairs + " pole pairs");
        }
    }

    double cycleHz(double rpm) {
        return rpm * polePairs / 60;
    }
}
