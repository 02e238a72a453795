package org.steadyshaft.speed;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.steadyshaft.numeric.Robust;
import org.steadyshaft.signal.CycleTimes;
import org.steadyshaft.signal.KeptWaveform;

/**
 * Takes out short rows of cycles that are far too faint for their speed, and long ones at the mains: the voltage of a tacho goes with its
 * speed, so what is left while the shaft stands is noise, hum or the recorder's own drift, whose wiggles a hysteresis that follows the level
 * counts like any others.
 */
public final class FaintRows {
    /** Longer rows are no wiggles of noise. */
    private static final int LONG_ROW = 20;

    /** A row of fewer cycles is not believed between two breaks, whatever its level. */
    private static final int FEWEST_CYCLES = 4;

    /** What a tacho's level may fall to, beside what its speed explains, in so short a row. */
    private static final double FAINT = 0.2;

    /** A long row so near to the mains or twice the mains, as a share of it, is pick-up if it is faint. */
    private static final double AT_MAINS = 0.01;

    private final KeptWaveform waveform;
    private final double mainsHz;

    /** @param mainsHz nominal frequency of the mains */
    public FaintRows(KeptWaveform waveform, double mainsHz) {
        this.waveform = waveform;
        this.mainsHz = mainsHz;
    }

    /**
     * The cycles without faint rows; as they are where no long row tells what is usual.
     *
     * @throws IOException if the recording has to be read again and cannot be
     */
    public CycleTimes without(CycleTimes cycles) throws IOException {
        List<Double> usual = new ArrayList<>();
        for (int row = 0; row < cycles.segments(); row++) {
            if (cycles.cyclesOf(row) >= LONG_ROW) {
                usual.add(levelBySpeed(cycles, row));
            }
        }
        if (usual.isEmpty()) {
            return cycles.withoutShorterThan(FEWEST_CYCLES);
        }
        double level = Robust.median(usual.stream().mapToDouble(u -> u).toArray());
        double strongest = usual.stream().mapToDouble(u -> u).max().orElse(level);
        CycleTimes.Builder kept = new CycleTimes.Builder();
        for (int row = 0; row < cycles.segments(); row++) {
            kept.breakHere();
            boolean believed = cycles.cyclesOf(row) >= LONG_ROW
                    ? !isAtMains(cycles, row) || levelBySpeed(cycles, row) >= FAINT * strongest
                    : cycles.cyclesOf(row) >= FEWEST_CYCLES && levelBySpeed(cycles, row) >= FAINT * level;
            for (int i = cycles.firstOf(row); believed && i < cycles.endOf(row); i++) {
                kept.add(cycles.timeSeconds(i));
            }
        }
        return kept.build();
    }

    private boolean isAtMains(CycleTimes cycles, int row) {
        double seconds = cycles.timeSeconds(cycles.endOf(row) - 1) - cycles.timeSeconds(cycles.firstOf(row));
        double multiple = cycles.cyclesOf(row) / seconds / mainsHz;
        return multiple < 2.5
                && multiple > 0.5
                && Math.abs(multiple - Math.rint(multiple)) < AT_MAINS * Math.rint(multiple);
    }

    /** Root mean square of the waveform over the first cycles of a row, about its mean, by the row's frequency. */
    private double levelBySpeed(CycleTimes cycles, int row) throws IOException {
        int first = cycles.firstOf(row);
        int count = Math.min(LONG_ROW, cycles.cyclesOf(row));
        double from = cycles.timeSeconds(first);
        double to = cycles.timeSeconds(first + count);
        int length = (int) Math.max(8, (to - from) * waveform.rateHz());
        double[] samples = new double[length];
        waveform.read(waveform.firstNotBefore(from), samples, length);
        double mean = Arrays.stream(samples).average().orElse(0);
        double squares =
                Arrays.stream(samples).map(s -> (s - mean) * (s - mean)).sum();
        return Math.sqrt(squares / length) * (to - from) / count;
    }
}
