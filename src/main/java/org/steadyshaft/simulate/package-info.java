/**
 * Captures with known truth, for tests and for the demo. Start at {@link org.steadyshaft.simulate.DrawnTacho}, which turns
 * a {@link org.steadyshaft.simulate.DrawnSpeed} (a speed over time made of parts with known figures) into the voltage of a
 * tacho; {@link org.steadyshaft.simulate.PotteryDemo} lists the captures of the demo. Uses signal and numeric.
 */
package org.steadyshaft.simulate;
