/**
 * How fast it turns. Start at {@link org.steadyshaft.speed.SpectralTracker}, which finds the tacho frequency frame by
 * frame in a first pass; {@link org.steadyshaft.speed.CycleFinder} then locates every rising crossing in a second pass,
 * {@link org.steadyshaft.speed.PolePatternLearner} takes out the uneven spacing of the poles, and {@link
 * org.steadyshaft.speed.MeanSpeedMeter} states the mean with its uncertainty. Uses signal, numeric and published.
 */
package org.steadyshaft.speed;
