package org.steadyshaft.capture;

import java.nio.ByteOrder;
import java.util.ArrayList;
import java.util.List;

/**
 * What a file of plain samples says of them.
 *
 * @param container kind of file, such as "WAV" or "AIFF"
 * @param order of the bytes of a sample
 * @param encoding how a sample is stored
 * @param validBits bits of a sample that carry information
 * @param channels number of channels
 * @param sampleRateHz frames a second
 * @param frameBytes bytes of one sample of every channel
 * @param dataOffset place of the first sample in the file
 * @param frames whole frames that are really there
 * @param remarks oddities that do not keep the file from being read
 */
record PcmHeader(
        String container,
        ByteOrder order,
        PcmEncoding encoding,
        int validBits,
        int channels,
        double sampleRateHz,
        int frameBytes,
        long dataOffset,
        long frames,
        List<String> remarks) {
    PcmHeader {
        if (channels < 1 || !(sampleRateHz >= 1) || frameBytes < channels || dataOffset < 0 || frames < 1) {
            throw new IllegalArgumentException("header out of range");
        }
        remarks = List.copyOf(new ArrayList<>(remarks));
    }
}
