package org.steadyshaft.signal;

import java.util.List;

/** A recording made of another one: as that says, but for what the kind of alteration changes. */
public abstract class AlteredSource implements SampleSource {
    /** What comes in. */
    protected final SampleSource source;

    protected AlteredSource(SampleSource source) {
        this.source = source;
    }

    @Override
    public String name() {
        return source.name();
    }

    @Override
    public double sampleRateHz() {
        return source.sampleRateHz();
    }

    @Override
    public long samples() {
        return source.samples();
    }

    @Override
    public int channels() {
        return source.channels();
    }

    @Override
    public String channelName(int channel) {
        return source.channelName(channel);
    }

    @Override
    public SampleFormat format() {
        return source.format();
    }

    @Override
    public List<String> remarks() {
        return source.remarks();
    }
}
