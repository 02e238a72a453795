package org.steadyshaft.speed;

import java.io.IOException;
import java.util.List;
import java.util.OptionalDouble;
import java.util.function.LongToDoubleFunction;
import org.steadyshaft.signal.BlockReader;
import org.steadyshaft.signal.CycleTimes;
import org.steadyshaft.signal.FundamentalTrack;
import org.steadyshaft.signal.KeptWaveform;
import org.steadyshaft.signal.MainsHum;
import org.steadyshaft.signal.SampleFormat;
import org.steadyshaft.signal.SampleSource;

/** A recording of one channel made of a formula, not rounded, and what both passes of the analysis make of it. */
record FormulaSource(double sampleRateHz, long samples, LongToDoubleFunction value) implements SampleSource {
    /** As in the analysis: frames of about a third of a second. */
    private static final double FRAME_SECONDS = 0.3;

    private static final double MAINS_HZ = 50;

    FundamentalTrack track() throws IOException {
        return new SpectralTracker(waveform(), FRAME_SECONDS, MAINS_HZ, 6).track();
    }

    CycleTimes cycles(FundamentalTrack track) throws IOException {
        return new CycleFinder(waveform(), track, List.of(), MainsHum.NONE).cycles();
    }

    private KeptWaveform waveform() {
        float[] values = new float[(int) samples];
        for (int i = 0; i < values.length; i++) {
            values[i] = (float) value.applyAsDouble(i);
        }
        return KeptWaveform.of(values, sampleRateHz);
    }

    @Override
    public String name() {
        return "formula";
    }

    @Override
    public int channels() {
        return 1;
    }

    @Override
    public String channelName(int channel) {
        return "1";
    }

    @Override
    public SampleFormat format() {
        return new SampleFormat(
                "made",
                "double",
                "FS",
                OptionalDouble.empty(),
                OptionalDouble.empty(),
                SampleFormat.RecorderKind.SOUND_CARD);
    }

    @Override
    public List<String> remarks() {
        return List.of();
    }

    @Override
    public BlockReader open() {
        return new BlockReader() {
            private long at;

            @Override
            public int read(double[][] block) {
                int count = (int) Math.min(block[0].length, samples - at);
                for (int i = 0; i < count; i++) {
                    block[0][i] = value.applyAsDouble(at++);
                }
                return count;
            }

            @Override
            public void close() {
                // nothing is held open
            }
        };
    }
}
