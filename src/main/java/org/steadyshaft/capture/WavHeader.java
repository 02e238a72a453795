package org.steadyshaft.capture;

import java.util.ArrayList;
import java.util.List;

/**
 * What the chunks before the samples of a WAV file say.
 *
 * @param container "WAV" or "WAV RF64"
 * @param encoding how a sample is stored
 * @param validBits bits of a sample that carry information
 * @param channels number of channels
 * @param sampleRateHz frames a second
 * @param frameBytes bytes of one sample of every channel
 * @param dataOffset place of the first sample in the file
 * @param frames whole frames that are really there
 * @param remarks oddities that do not keep the file from being read
 */
record WavHeader(
        String container,
        WavEncoding encoding,
        int validBits,
        int channels,
        long sampleRateHz,
        int frameBytes,
        long dataOffset,
        long frames,
        List<String> remarks) {
    WavHeader {
        if (channels < 1 || sampleRateHz < 1 || frameBytes < channels || dataOffset < 0 || frames < 1) {
            throw new IllegalArgumentException("WAV header out of range");
        }
        remarks = List.copyOf(new ArrayList<>(remarks));
    }
}
