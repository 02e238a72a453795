/**
 * Which contact of an unknown motor is which, from resistance readings of the unplugged motor. Start at
 * {@link org.steadyshaft.windings.WindingFinder}; readings and ranges come from {@link org.steadyshaft.windings.WindingTables}. Uses file.
 */
package org.steadyshaft.windings;
