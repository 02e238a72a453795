package org.steadyshaft.analysis;

import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.jtransforms.fft.DoubleFFT_1D;
import org.steadyshaft.capture.ReadOptions;
import org.steadyshaft.capture.Recordings;
import org.steadyshaft.condition.GapFinder;
import org.steadyshaft.signal.CycleTimes;
import org.steadyshaft.signal.KeptWaveform;
import org.steadyshaft.signal.SampleSource;
import org.steadyshaft.signal.SpeedTrack;
import org.steadyshaft.signal.Stretch;
import org.steadyshaft.signal.Tachometer;
import org.steadyshaft.signal.Waveform;
import org.steadyshaft.speed.CycleFinder;
import org.steadyshaft.speed.PolePatternLearner;
import org.steadyshaft.speed.SpeedTrackMaker;
import org.steadyshaft.stability.SteadyFinder;
import org.steadyshaft.voltage.MainsReading;
import org.steadyshaft.voltage.WaveformReader;
import org.steadyshaft.voltage.WaveformReading;

/** Measured by hand: what the waveform tells of the ripple of some files. */
final class RippleTable {
    private RippleTable() {}

    public static void main(String[] arguments) throws Exception {
        int poles = Integer.parseInt(arguments[0]);
        for (int i = 1; i < arguments.length; i++) {
            one(Path.of(arguments[i]), poles);
        }
    }

    private static void one(Path file, int poles) throws Exception {
        SampleSource source = Recordings.open(file, file.getFileName().toString(), ReadOptions.NONE);
        FirstPass first = FirstPass.of(source, 0, source.channels(), 50);
        Waveform waveform = new Waveform(source, first.channel());
        List<Stretch> gaps = new GapFinder().find(first.levels(), first.track());
        CycleFinder finder = new CycleFinder(waveform, first.track(), gaps, first.mainsHum());
        waveform.stream(finder);
        CycleTimes cycles = finder.cycles();
        Tachometer tacho = new Tachometer(poles);
        SpeedTrack track = new SpeedTrackMaker(tacho).make(cycles, new PolePatternLearner(tacho).learn(cycles));
        List<Stretch> steady = new SteadyFinder().find(track);
        double hz = cycles.cycles() / (cycles.timeSeconds(cycles.crossings() - 1) - cycles.timeSeconds(0));
        KeptWaveform kept = kept(waveform, hz);
        WaveformReader fitter = new WaveformReader(tacho, 50);
        Optional<WaveformReading> model = Optional.empty();
        double best = 1e9;
        for (int i = 0; i < Integer.getInteger("repeat", 1); i++) {
            long start = System.nanoTime();
            model = fitter.fit(kept, cycles, steady);
            best = Math.min(best, (System.nanoTime() - start) * 1e-9);
        }
        System.out.printf(Locale.ROOT, "%s fc %.2f rate %.0f %.3f s ", file.getFileName(), hz, kept.rateHz(), best);
        if (model.isEmpty()) {
            System.out.println("no model");
            return;
        }
        WaveformReading m = model.get();
        System.out.printf(
                Locale.ROOT,
                "mains %.4f %s band %.1f-%.1f noise %.5f of %.3f, pieces %d of %.1f s%n",
                m.mainsHz(),
                m.mainsSeen(),
                m.fromHz(),
                m.toHz(),
                m.noiseVolts(),
                m.tachoVolts(),
                m.covered().size(),
                m.pieceSeconds());
        m.mains()
                .forEach((k, r) -> System.out.println("   " + k + " "
                        + (r instanceof MainsReading.Told t
                                ? String.format(
                                        "%.4f +- %.4f vif %.2f",
                                        t.line().amplitudePercent(),
                                        t.line().expandedPercent(),
                                        t.line().inflation())
                                : r)));
        m.lines()
                .forEach(l -> System.out.printf(
                        Locale.ROOT,
                        "   line %.3f Hz m%d %.4f +- %.4f vif %.2f%n",
                        l.hz(),
                        l.mainsMultiple(),
                        l.amplitudePercent(),
                        l.expandedPercent(),
                        l.inflation()));
        m.hum().stream()
                .filter(h -> h.volts() > 4 * h.standardUncertaintyVolts())
                .forEach(h -> System.out.printf(
                        Locale.ROOT,
                        "   hum %.3f Hz m%d %.5f +- %.5f%n",
                        h.hz(),
                        h.mainsMultiple(),
                        h.volts(),
                        2 * h.standardUncertaintyVolts()));
    }

    static KeptWaveform kept(Waveform waveform, double hz) throws Exception {
        double[] all = new double[(int) waveform.samples()];
        waveform.stream((block, count, at) -> System.arraycopy(block, 0, all, (int) at, count));
        int n = all.length & ~1;
        int m = (int) Math.min(n, Math.ceil(n * 28 * hz / waveform.sampleRateHz() / 2) * 2);
        m = Math.max(m, (int) Math.min(n, Math.ceil(n * 900.0 / waveform.sampleRateHz() / 2) * 2));
        double[] in = java.util.Arrays.copyOf(all, n);
        new DoubleFFT_1D(n).realForward(in);
        double[] out = java.util.Arrays.copyOf(in, m);
        out[1] = 0;
        new DoubleFFT_1D(m).realInverse(out, true);
        float[] values = new float[m];
        for (int i = 0; i < m; i++) {
            values[i] = (float) (out[i] * m / n);
        }
        return KeptWaveform.of(values, waveform.sampleRateHz() * m / n);
    }
}
