package org.steadyshaft.voltage;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.steadyshaft.signal.DoubleSeries;
import org.steadyshaft.signal.Stretch;

/**
 * What the waveform of the steady running tells: the voltage of a turn, the mains, the tones that are no speed, and the fast lines of the
 * speed.
 *
 * @param turn voltage of one turn
 * @param polePairs pole pairs of the tacho
 * @param meanRadPerSecond mean angular speed of the pieces
 * @param mainsHz frequency of the mains by the recorder's clock
 * @param mainsSeen whether it was found in the recording; else it is the nominal one
 * @param hum tones, the mains' multiples first
 * @param lines lines of the speed that are proven, largest first
 * @param mains the mains' multiples as speed, by multiple; 1 and 2 are always there
 * @param fromHz lines below are left to the cycles
 * @param toHz up to here lines were sought
 * @param noiseVolts root mean square of what the model leaves
 * @param spectrumHz frequencies of the spectrum
 * @param spectrumPercent amplitude of a line at each, lines and noise together
 * @param seconds length of all pieces together
 * @param pieceSeconds length of a usual piece
 * @param slowNoiseShare root mean square that the noise alone gives the slow speed, as a share of the mean
 * @param covered the pieces
 * @param motion the proven lines over time
 * @param mainsMotion those of the mains alone
 * @param slow the speed below the lowest line over time
 * @param learnt what other recordings of the tacho may use
 * @param others how many other recordings of the tacho helped
 */
public record WaveformReading(
        TurnVoltage turn,
        int polePairs,
        double meanRadPerSecond,
        double mainsHz,
        boolean mainsSeen,
        List<HumLine> hum,
        List<SpeedLine> lines,
        Map<Integer, MainsReading> mains,
        double fromHz,
        double toHz,
        double noiseVolts,
        DoubleSeries spectrumHz,
        DoubleSeries spectrumPercent,
        double seconds,
        double pieceSeconds,
        double slowNoiseShare,
        List<Stretch> covered,
        LineMotion motion,
        LineMotion mainsMotion,
        SlowSpeed slow,
        LearntTurn learnt,
        int others) {
    /** Swings below this share of the tacho's frequency are slow for its cycles. */
    private static final double SLOW_SHARE = 0.2;

    private static final double BELOW_MAINS = 0.9;

    public WaveformReading {
        Objects.requireNonNull(turn, "turn");
        hum = List.copyOf(hum);
        lines = List.copyOf(lines);
        mains = Map.copyOf(mains);
        covered = List.copyOf(covered);
        if (!(meanRadPerSecond > 0) || !(mainsHz > 0) || !(noiseVolts >= 0) || !(toHz >= 0) || !(seconds > 0)) {
            throw new IllegalArgumentException("voltage model of " + seconds + " s at " + meanRadPerSecond + " rad/s");
        }
    }

    /**
     * The same of a wave whose peaks are cut off: what it says of fast swings is not to be believed. Its cycles are; they are left all that is
     * slow for them and below the mains.
     */
    public WaveformReading withoutLines() {
        DoubleSeries nothing = new DoubleSeries.Builder().build();
        return untrusted(
                MainsReading.Why.CUT_OFF,
                List.of(),
                Math.max(fromHz, slowHz()),
                Math.min(fromHz, toHz),
                nothing,
                nothing,
                new LineMotion.Builder().build());
    }

    /**
     * The same of a wheel that lacks teeth: swings that are slow for its teeth and below the mains are told as before, faster ones are not to be
     * believed.
     */
    public WaveformReading withoutFastLines() {
        return untrusted(
                MainsReading.Why.MISSING_TEETH,
                lines.stream().filter(l -> l.hz() < slowHz()).toList(),
                fromHz,
                Math.min(toHz, Math.max(fromHz, slowHz())),
                spectrumHz,
                spectrumPercent,
                motion.below(slowHz()));
    }

    /** The same with what is left of the lines; those of the mains are not told, and no other recording learns from it. */
    private WaveformReading untrusted(
            MainsReading.Why why,
            List<SpeedLine> left,
            double leftFromHz,
            double leftToHz,
            DoubleSeries leftHz,
            DoubleSeries leftPercent,
            LineMotion leftMotion) {
        Map<Integer, MainsReading> untold = new HashMap<>();
        mains.forEach((multiple, line) ->
                untold.put(multiple, new MainsReading.NotTellable(line.hz(), why, 0, pieceSeconds, 0, 0, 0)));
        return new WaveformReading(
                turn,
                polePairs,
                meanRadPerSecond,
                mainsHz,
                mainsSeen,
                hum,
                left,
                untold,
                leftFromHz,
                leftToHz,
                noiseVolts,
                leftHz,
                leftPercent,
                seconds,
                pieceSeconds,
                slowNoiseShare,
                covered,
                leftMotion,
                new LineMotion.Builder().build(),
                slow,
                LearntTurn.untrusted(polePairs, turn.alone()),
                0);
    }

    /** Swings below are slow for the tacho's cycles, and none of the mains. */
    private double slowHz() {
        return Math.min(SLOW_SHARE * polePairs * shaftHz(), BELOW_MAINS * mainsHz);
    }

    /** The same where lines that it does not tell are not told for the reasons that another reading gives. */
    WaveformReading withReasonsOf(WaveformReading other) {
        Map<Integer, MainsReading> joined = new HashMap<>(mains);
        joined.replaceAll((multiple, line) -> line instanceof MainsReading.Told ? line : other.mains.get(multiple));
        return new WaveformReading(
                turn,
                polePairs,
                meanRadPerSecond,
                mainsHz,
                mainsSeen,
                hum,
                lines,
                joined,
                fromHz,
                toHz,
                noiseVolts,
                spectrumHz,
                spectrumPercent,
                seconds,
                pieceSeconds,
                slowNoiseShare,
                covered,
                motion,
                mainsMotion,
                slow,
                learnt,
                others);
    }

    /** Whether a line of the mains cannot be told since an order of the shaft stands there. */
    public boolean isHiddenByTheShaft() {
        return mains.values().stream()
                .anyMatch(
                        m -> m instanceof MainsReading.NotTellable none && none.why() == MainsReading.Why.SHAFT_ORDER);
    }

    /** How many lines of the mains were told. */
    long toldLines() {
        return mains.values().stream()
                .filter(m -> m instanceof MainsReading.Told)
                .count();
    }

    /** Turns a second. */
    public double shaftHz() {
        return meanRadPerSecond / (2 * Math.PI);
    }

    /** Amplitude of the tacho's fundamental at the mean speed [unit of the samples]. */
    public double tachoVolts() {
        return meanRadPerSecond * turn.amplitude(polePairs);
    }
}
