package org.steadyshaft.simulate;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.DoubleConsumer;
import java.util.function.DoubleUnaryOperator;
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
 * @param fieldLostSeconds when a field that is fed apart loses its supply, from the start of the run; infinity for never
 * @param drive makes a fresh drive for a run
 * @param load what the work asks, its times counted from the start of the recording
 * @param misfiring how the triac fails
 * @param setPointSteps changes of the set-point: time in the recording and new speed [rpm]
 * @param changes what else changes on purpose or for good, in the time of the recording
 * @param orders of the shaft on which something swings
 * @param tacho what the tacho adds; its sample rate and length are those of the recorder
 * @param humPeak pick-up of the mains in the tacho's voltage [V]
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
        double fieldLostSeconds,
        DriveMaker drive,
        Load load,
        Misfiring misfiring,
        List<Step> setPointSteps,
        List<Change> changes,
        List<Order> orders,
        TachoMaker tacho,
        double humPeak,
        double spikePeak,
        Recorder recorder,
        List<RecorderFaults.Fault> faults,
        Map<String, String> sheet,
        Map<String, Object> parameters) {
    /** Makes a drive for one run; the seed is that of what happens to it by chance. */
    @FunctionalInterface
    public interface DriveMaker {
        Drive make(long seed);
    }

    /** Gives a tacho for a recording of so many seconds. */
    @FunctionalInterface
    public interface TachoMaker {
        DrawnTacho.Settings settings(double seconds, long seed);
    }

    /** A gate pulse as an adapter shows it, drawn out by its optocoupler (common practice). */
    private static final double GATE_SECONDS = 300e-6;

    /** Cycles of the tacho a turn. */
    public int polePairs() {
        return tacho.settings(1, 0).tachometer().polePairs();
    }

    /** A change of the set-point. */
    public record Step(double timeSeconds, double rpm) {}

    /**
     * Something that changes.
     *
     * @param kind in words
     * @param timeSeconds in the recording
     * @param size in the unit of its key; 0 where it has none
     */
    public record Change(String kind, double timeSeconds, double size) {}

    /** Swings a turn of the motor, and what makes them. */
    public record Order(double perTurn, String cause) {}

    /**
     * What a recorder does that it should not, or beside.
     *
     * @param clockErrorPpm how much faster than it claims it samples
     * @param headerRateHz rate that its file names, where that is another
     * @param gainTo level to which an automatic gain brings the peaks, as a share of full scale; absent without one
     * @param gainSeconds in which that gain recovers
     * @param second what its second channel carries, where there is one
     * @param secondPeak peak of that [full scale]
     */
    public record Oddities(
            double clockErrorPpm,
            OptionalDouble headerRateHz,
            OptionalDouble gainTo,
            double gainSeconds,
            Optional<SecondChannel.Kind> second,
            double secondPeak) {}

    /**
     * What records.
     *
     * @param kind sound card or scope
     * @param file how a sound card's recording is kept
     * @param bits of a sound card's samples
     * @param fullScaleVolts of a sound card, or half the height of a scope's screen
     * @param highPassHz of a sound card's input
     * @param lostSeconds when a sound card loses a buffer
     * @param decimals of a scope's time stamps
     * @param triggerSeconds time stamp of a scope's first row
     * @param oddities what is not as it should be
     */
    public record Recorder(
            Kind kind,
            File file,
            int bits,
            double fullScaleVolts,
            double highPassHz,
            DoubleSeries lostSeconds,
            int decimals,
            double triggerSeconds,
            Oddities oddities) {
        /** Kinds of files of a sound card. */
        public enum File {
            WAV,
            FLAC
        }

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
        return make(seed, wantedSeconds, kind, t -> {});
    }

    /**
     * The same with news of how far it is.
     *
     * @param progress told the time in the run [s], which ends a little behind {@link #settleSeconds()} and the recording's length
     */
    public SimulatedCapture make(long seed, OptionalDouble wantedSeconds, Recorder.Kind kind, DoubleConsumer progress) {
        long own = 31 * seed + name.hashCode();
        double length = wantedSeconds.orElse(seconds);
        Machine machine = new Machine(motor, mains, bypass, load, misfiring, own, fieldLostSeconds);
        Motion motion = machine.run(drive.make(own), startRpm, settleSeconds + length + 0.01, progress);
        return new SimulatedCapture(this, seed, length, motion, recording(motion, length, kind, own));
    }

    private SampleSource recording(Motion motion, double length, Recorder.Kind kind, long seed) {
        DrawnTacho.Settings settings =
                tacho.settings(length, seed).withHum(humPeak, t -> mains.voltage(settleSeconds + t) / mains.peak());
        if (spikePeak > 0) {
            settings = settings.withSpikes(spikePeak, inRecording(motion.firingSeconds()));
        }
        SampleSource source = new DrawnTacho(name, motion.from(settleSeconds), settings);
        Oddities oddities = recorder.oddities();
        if (oddities.second.isPresent()) {
            source = new SecondChannel(source, second(motion, oddities), oddities.clockErrorPpm);
        }
        if (!faults.isEmpty()) {
            source = new RecorderFaults(source, faults, mains.frequencyHz(), seed);
        }
        if (kind == Recorder.Kind.SOUND_CARD) {
            source = new SoundCard(source, recorder.highPassHz(), recorder.fullScaleVolts(), recorder.lostSeconds());
        }
        if (oddities.gainTo.isPresent()) {
            double full = kind == Recorder.Kind.SOUND_CARD ? 1 : recorder.fullScaleVolts();
            source = new AutomaticGain(source, oddities.gainTo.getAsDouble() * full, oddities.gainSeconds);
        }
        return oddities.headerRateHz.isPresent() ? new OtherRate(source, oddities.headerRateHz.getAsDouble()) : source;
    }

    /** Voltage of the second channel by time in the recording. */
    private DoubleUnaryOperator second(Motion motion, Oddities oddities) {
        double peak = oddities.secondPeak * recorder.fullScaleVolts();
        if (oddities.second.orElseThrow() == SecondChannel.Kind.MAINS) {
            return t -> peak * mains.voltage(settleSeconds + t) / mains.peak();
        }
        DoubleUnaryOperator pulses = SecondChannel.pulses(inRecording(motion.gateSeconds()), GATE_SECONDS);
        return t -> peak * pulses.applyAsDouble(t);
    }

    private DoubleSeries inRecording(DoubleSeries seconds) {
        return DoubleSeries.of(
                seconds.stream().map(t -> t - settleSeconds).filter(t -> t >= 0).toArray());
    }
}
