/**
 * What swings regularly in the speed. Start at {@link org.steadyshaft.ripple.RippleReader}: fast lines come from the waveform, slow ones
 * from the cycles freed of the fast, each with its interval and its cause. Uses signal, numeric, published and voltage.
 */
package org.steadyshaft.ripple;
