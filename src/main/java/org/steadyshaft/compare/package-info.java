/**
 * Which circuit is better. Start at {@link org.steadyshaft.compare.Comparer}; {@link org.steadyshaft.compare.RunMeter} reduces an
 * analysed capture to what it needs, {@link org.steadyshaft.compare.LimitsReader} reads what kinds of work need. Uses signal,
 * numeric, published and analysis.
 */
package org.steadyshaft.compare;
