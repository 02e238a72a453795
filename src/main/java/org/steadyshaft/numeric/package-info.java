/**
 * Arithmetic that knows nothing of motors: doubles in, doubles out. Start at {@link
 * org.steadyshaft.numeric.RealTransform} for spectra, {@link org.steadyshaft.numeric.BandFilter} for filtering without
 * delay, {@link org.steadyshaft.numeric.Robust} for medians, {@link org.steadyshaft.numeric.PoissonLimits} for
 * rates, and {@link org.steadyshaft.numeric.TwoMeans} and {@link org.steadyshaft.numeric.PoissonRates} for comparisons. This room uses published and libraries.
 */
package org.steadyshaft.numeric;
