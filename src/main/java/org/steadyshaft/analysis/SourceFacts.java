package org.steadyshaft.analysis;

import java.util.List;
import org.steadyshaft.signal.SampleFormat;

/**
 * What a recording is.
 *
 * @param file name as the user gave it
 * @param sha256 digest of the file's bytes, hexadecimal
 * @param format container, encoding and unit
 * @param sampleRateHz samples a second and channel
 * @param channel name of the tacho's channel
 * @param roles what each channel carries, in order
 * @param samples samples in the channel
 */
public record SourceFacts(
        String file,
        String sha256,
        SampleFormat format,
        double sampleRateHz,
        String channel,
        List<ChannelRole> roles,
        long samples) {
    public SourceFacts {
        roles = List.copyOf(roles);
    }

    SourceFacts withDigest(String digest) {
        return new SourceFacts(file, digest, format, sampleRateHz, channel, roles, samples);
    }

    SourceFacts withChannel(String name, List<ChannelRole> all) {
        return new SourceFacts(file, sha256, format, sampleRateHz, name, all, samples);
    }

    public double durationSeconds() {
        return samples / sampleRateHz;
    }
}
