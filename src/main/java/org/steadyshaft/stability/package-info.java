/**
 * How steadily it turns. Start at {@link org.steadyshaft.stability.SteadyFinder}, which tells the steady stretches from
 * changes of speed; on them {@link org.steadyshaft.stability.LineFinder} finds the ripple lines with their causes,
 * {@link org.steadyshaft.stability.BlipDetector} the short jumps, and {@link org.steadyshaft.stability.RippleMeter}
 * what is left; {@link org.steadyshaft.stability.DriftMeter} measures the creep and
 * {@link org.steadyshaft.stability.AllanMeter} how far means over longer and longer times differ. Uses signal, numeric and published.
 */
package org.steadyshaft.stability;
