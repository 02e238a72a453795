/**
 * The voltage of an AC tacho as a function of the shaft's angle: v(t) = theta'(t) W(theta(t)), W periodic in one turn. Start at {@link
 * org.steadyshaft.voltage.TurnVoltage}, the W of one tacho. What lies between the model and the recording is speed that the smooth angle
 * lacks, hum, offset and noise, each with its own place in the waveform. This room uses signal and numeric.
 */
package org.steadyshaft.voltage;
