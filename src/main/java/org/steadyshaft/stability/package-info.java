/**
 * How steadily it turns over longer times. Start at {@link org.steadyshaft.stability.SteadyFinder}, which tells the steady stretches from
 * changes of speed; on them {@link org.steadyshaft.stability.DriftMeter} measures the creep and
 * {@link org.steadyshaft.stability.AllanMeter} how far means over longer and longer times differ;
 * {@link org.steadyshaft.stability.AlarmFinder} tells runaways, standstills and an opened lead. Uses signal, numeric and published.
 */
package org.steadyshaft.stability;
