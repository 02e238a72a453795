package org.steadyshaft.analysis;

import org.steadyshaft.signal.DoubleSeries;

/**
 * A short piece of the waveform for the report.
 *
 * @param fromSeconds time of its first sample
 * @param sampleRateHz samples a second
 * @param values the samples
 */
public record WaveformExtract(double fromSeconds, double sampleRateHz, DoubleSeries values) {}
