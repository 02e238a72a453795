package org.steadyshaft.signal;

import java.io.IOException;
import java.util.List;

/**
 * A recording that can be opened again and again and is read in blocks, so that no stage ever needs the whole waveform.
 * Sample k of every channel was taken at time k / {@link #sampleRateHz()} after the first.
 */
public interface SampleSource {
    /** The name of the recording as the user gave it. */
    String name();

    /** Samples a second and channel; finite and above zero. */
    double sampleRateHz();

    /** Samples in each channel; at least 0. */
    long samples();

    /** Number of channels; at least 1. */
    int channels();

    /** The name of a channel as the file gives it, or its number counted from 1. */
    String channelName(int channel);

    /** How the samples are stored. */
    SampleFormat format();

    /** What is odd about the file but does not keep it from being read, in plain words; empty if nothing is. */
    List<String> remarks();

    /**
     * Opens the recording at its first sample.
     *
     * @throws IOException if the file cannot be opened
     */
    BlockReader open() throws IOException;

    /** Whether {@link #openAt} finds any sample without reading all those before it. */
    default boolean opensAnywhere() {
        return false;
    }

    /**
     * Opens the recording at a sample, which is the first one that will be read.
     *
     * @param sample from 0 on; at or behind the end nothing will be read
     * @throws IOException if the file cannot be opened, or be read up to there
     */
    default BlockReader openAt(long sample) throws IOException {
        BlockReader reader = open();
        long left = sample;
        while (left > 0) {
            int count = reader.read(new double[channels()][(int) Math.min(left, 1 << 14)]);
            if (count == 0) {
                break;
            }
            left -= count;
        }
        return reader;
    }
}
