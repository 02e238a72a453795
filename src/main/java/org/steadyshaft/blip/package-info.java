/**
 * Sudden changes of the speed, and what only looks like one. Start at {@link org.steadyshaft.blip.EventFinder}: candidates in the angle
 * series of each piece ({@link org.steadyshaft.voltage.LocalModel}), judged in the waveform around them against what the recording can do;
 * {@link org.steadyshaft.blip.ShaftEvents} is what comes out, {@link org.steadyshaft.blip.BlipMaker} makes the list of blips of it and
 * {@link org.steadyshaft.blip.CleanTrack} the speed without them. Uses signal, numeric and voltage.
 */
package org.steadyshaft.blip;
