/**
 * What to record so that a limit can be proven: rate, level, length, speeds and a list of runs. Start at
 * {@link org.steadyshaft.plan.Planner}. Uses numeric.
 */
package org.steadyshaft.plan;
