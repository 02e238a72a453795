/**
 * Captures with known truth, for tests and for the demo. Start at {@link org.steadyshaft.simulate.Scenario}, which {@link
 * org.steadyshaft.simulate.ScenarioReader} reads from a file: a {@link org.steadyshaft.simulate.Machine} (motor, mains,
 * load) is run by a {@link org.steadyshaft.simulate.Drive}, which gives a {@link org.steadyshaft.simulate.Motion}; {@link
 * org.steadyshaft.simulate.DrawnTacho} turns it into a voltage and {@link org.steadyshaft.simulate.SoundCard} into what a
 * recorder keeps; {@link org.steadyshaft.simulate.TruthFile} writes down what is true of it. A {@link
 * org.steadyshaft.simulate.DrawnSpeed} stands in for a machine where a test wants a speed with round figures. Uses signal
 * and numeric.
 */
package org.steadyshaft.simulate;
