package org.steadyshaft.simulate;

import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import org.steadyshaft.signal.DoubleSeries;
import org.steadyshaft.signal.SampleSource;

/**
 * A run that can be simulated: everything about machine, drive, load, tacho and recorder, as its file says. {@link
 * ScenarioReader} makes one from a file, {@link #make} the capture.
 *
 * @param name of the file, without ending
 * @param title what it shows, in a sentence
 * @param seconds length of the recording
 * @param settleSeconds time that the machine runs before the recording begins
 * @param startRpm speed at the start of that
 * @param motor what turns
 * @param mains what feeds it
 * @param bypass resistor across the armature [ohm], if there is one
 * @param drive makes a fresh drive for a run
 * @param load what the work asks, its times counted from the start of the recording
 * @param misfiring how the triac fails
 * @param setPointSteps changes of the set-point: time in the recording and new speed [rpm]
 * @param tacho what the tacho adds; its sample rate and length are those of the recorder
 * @param spikePeak height of the spikes that come in at every firing [V]; 0 for none
 * @param recorder what records
 * @param faults what goes wrong on the way to the file, in the time of the recording
 * @param sheet cells for the run sheet: circuit, setting, load, tacho (empty where it has no name)
 * @param parameters everything in the file, for the truth file
 */
public record Scenario(
        String name,
        String title,
        double seconds,
        double settleSeconds,
        double startRpm,
        Motor motor,
        Mains mains,
        OptionalDouble bypass,
        DriveMaker drive,
        Load load,
        Misfiring misfiring,
        List<Step> setPointSteps,
        TachoMaker tacho,
        double spikePeak,
        Recorder recorder,
        List<RecorderFaults.Fault> faults,
        Map<String, String> sheet,
        Map<String, Object> parameters) {
    /** Makes a drive for one run. */
    @FunctionalInterface
    public interface DriveMaker {
        Drive make();
    }

    /** Gives a tacho for a recording of so many seconds. */
    @FunctionalInterface
    public interface TachoMaker {
        DrawnTacho.Settings settings(double seconds, long seed);
    }

    /** Cycles of the tacho a turn. */
    public int polePairs() {
        return tacho.settings(1, 0).tachometer().polePairs();
    }

    /** A change of the set-point. */
    public record Step(double timeSeconds, double rpm) {}

    /**
     * What records.
     *
     * @param kind sound card or scope
     * @param bits of a sound card's samples
     * @param fullScaleVolts of a sound card, or half the height of a scope's screen
     * @param highPassHz of a sound card's input
     * @param lostSeconds when a sound card loses a buffer
     * @param decimals of a scope's time stamps
     * @param triggerSeconds time stamp of a scope's first row
     */
    public record Recorder(
            Kind kind,
            int bits,
            double fullScaleVolts,
            double highPassHz,
            DoubleSeries lostSeconds,
            int decimals,
            double triggerSeconds) {
        /** The two sorts of recorder. */
        public enum Kind {
            SOUND_CARD,
            SCOPE
        }
    }

    /**
     * Simulates.
     *
     * @param seed of everything that happens by chance, which differs from scenario to scenario; the same seed gives the same
     *     capture
     * @param wantedSeconds length of the recording; absent for the scenario's own
     * @param kind what records; see {@link Recorder#kind()} for the scenario's own
     */
    public SimulatedCapture make(long seed, OptionalDouble wantedSeconds, Recorder.Kind kind) {
        long own = 31 * seed + name.hashCode();
        double length = wantedSeconds.orElse(seconds);
        Machine machine = new Machine(motor, mains, bypass, load, misfiring, own);
        Motion motion = machine.run(drive.make(), startRpm, settleSeconds + length + 0.01);
        DrawnTacho.Settings settings = tacho.settings(length, own);
        if (spikePeak > 0) {
            settings = settings.withSpikes(
                    spikePeak,
                    DoubleSeries.of(motion.firingSeconds().stream()
                            .map(t -> t - settleSeconds)
                            .filter(t -> t >= 0)
                            .toArray()));
        }
        SampleSource drawn = new DrawnTacho(name, motion.from(settleSeconds), settings);
        SampleSource volts = faults.isEmpty() ? drawn : new RecorderFaults(drawn, faults, mains.frequencyHz(), own);
        SampleSource recorded = kind == Recorder.Kind.SOUND_CARD
                ? new SoundCard(volts, recorder.highPassHz(), recorder.fullScaleVolts(), recorder.lostSeconds())
                : volts;
        return new SimulatedCapture(this, seed, length, motion, recorded);
    }
}
