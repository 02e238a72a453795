/**
 * What every stage speaks. Start at {@link org.steadyshaft.signal.SampleSource}: a recording that can be read again
 * and again in blocks. A {@link org.steadyshaft.signal.KeptWaveform} is one channel of it at a rate that suits the tacho, {@link
 * org.steadyshaft.signal.FundamentalTrack} the tacho frequency seen by short-time spectra, {@link
 * org.steadyshaft.signal.CycleTimes} the rising crossings, {@link org.steadyshaft.signal.SpeedTrack} the speed a cycle,
 * {@link org.steadyshaft.signal.Tachometer} the one place where frequency becomes speed, and {@link
 * org.steadyshaft.signal.Finding} what is said about a recording. This room uses no other.
 */
package org.steadyshaft.signal;
