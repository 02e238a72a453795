/**
 * The one pass over a recording. Start at {@link org.steadyshaft.front.ChannelFront}: a {@link org.steadyshaft.front.RatePilot} looks at
 * frames here and there to tell how high the tacho may lie, a {@link org.steadyshaft.front.RatePlan} says how far the rate may be lowered,
 * and the {@link org.steadyshaft.front.FrontPass} decodes, surveys and decimates chunk by chunk. What comes out is the kept
 * waveform that every later stage reads. Uses signal, numeric, condition and speed.
 */
package org.steadyshaft.front;
