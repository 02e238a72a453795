package org.steadyshaft.analysis;

import org.steadyshaft.signal.SampleFormat;

/**
 * What a recording is.
 *
 * @param file name as the user gave it
 * @param sha256 digest of the file's bytes, hexadecimal
 * @param format container, encoding and unit
 * @param sampleRateHz samples a second and channel
 * @param channel name of the tacho's channel
 * @param channels number of channels
 * @param samples samples in the channel
 */
public record SourceFacts(
        String file,
        String sha256,
        SampleFormat format,
        double sampleRateHz,
        String channel,
        int channels,
        long samples) {
    public double durationSeconds() {
        return samples / sampleRateHz;
    }
}
