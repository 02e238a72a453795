package org.steadyshaft.analysis;

import java.io.IOException;
import java.util.Arrays;
import java.util.Optional;
import org.steadyshaft.condition.GapFinder;
import org.steadyshaft.numeric.Robust;
import org.steadyshaft.signal.CycleTimes;
import org.steadyshaft.signal.KeptWaveform;
import org.steadyshaft.signal.MainsHum;
import org.steadyshaft.signal.SampleSource;
import org.steadyshaft.signal.Stretch;
import org.steadyshaft.signal.Waveform;
import org.steadyshaft.speed.CycleFinder;

/** What the judging of events starts from: the kept waveform and the counted cycles of a recording. */
public record KeptCycles(KeptWaveform waveform, CycleTimes cycles, double cycleHz) {
    private static final double SAMPLES_A_PERIOD = 28;

    /** Empty where nothing turns. */
    public static Optional<KeptCycles> of(SampleSource source, double mainsHz) throws IOException {
        FirstPass first = FirstPass.of(source, 0, source.channels(), mainsHz);
        if (first.refusal().isPresent()) {
            return Optional.empty();
        }
        Waveform waveform = new Waveform(source, first.channel());
        java.util.List<Stretch> gaps = new GapFinder().find(first.levels(), first.track());
        MainsHum hum = first.mainsHum();
        CycleFinder finder = new CycleFinder(waveform, first.track(), gaps, hum);
        double[] all = new double[(int) waveform.samples()];
        waveform.stream(
                finder, (block, count, start) -> System.arraycopy(block, 0, all, (int) start, count));
        double hz = Robust.median(first.track().rotating(first.track()::frequencyHz));
        int factor = (int) Math.max(1, Math.floor(waveform.sampleRateHz() / (SAMPLES_A_PERIOD * hz)));
        return Optional.of(new KeptCycles(
                KeptWaveform.of(decimated(all, factor), waveform.sampleRateHz() / factor), finder.cycles(), hz));
    }

    /** Every so many-th value behind a windowed-sinc low-pass without delay. */
    static float[] decimated(double[] values, int factor) {
        if (factor == 1) {
            float[] same = new float[values.length];
            for (int i = 0; i < same.length; i++) {
                same[i] = (float) values[i];
            }
            return same;
        }
        int half = 12 * factor;
        double[] taps = new double[2 * half + 1];
        for (int i = -half; i <= half; i++) {
            double x = 0.84 * i / factor;
            double sinc = i == 0 ? 1 : Math.sin(Math.PI * x) / (Math.PI * x);
            taps[i + half] = sinc * (0.5 + 0.5 * Math.cos(Math.PI * i / (half + 1)));
        }
        double sum = Arrays.stream(taps).sum();
        float[] kept = new float[(values.length + factor - 1) / factor];
        for (int k = 0; k < kept.length; k++) {
            double v = 0;
            int at = k * factor - half;
            int from = Math.max(0, -at);
            int to = Math.min(taps.length, values.length - at);
            for (int i = from; i < to; i++) {
                v += taps[i] * values[at + i];
            }
            kept[k] = (float) (v / sum);
        }
        return kept;
    }
}
