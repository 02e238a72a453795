package org.steadyshaft.capture;

/**
 * What the metadata before the frames of a FLAC file say.
 *
 * @param sampleRateHz samples a second and channel
 * @param channels number of channels
 * @param bits bits of a sample
 * @param blocksDiffer whether the header gives different sizes for the smallest and the largest block
 * @param promisedSamples samples in each channel; 0 where the recorder did not know
 * @param md5 MD5 of the samples, hexadecimal; empty where it is not given
 * @param firstFrameAt place of the first frame in the file
 */
record FlacHeader(
        int sampleRateHz,
        int channels,
        int bits,
        boolean blocksDiffer,
        long promisedSamples,
        String md5,
        long firstFrameAt) {
    FlacHeader {
        if (sampleRateHz < 1 || channels < 1 || bits < 1 || promisedSamples < 0 || firstFrameAt < 0) {
            throw new IllegalArgumentException("FLAC header out of range");
        }
    }
}
