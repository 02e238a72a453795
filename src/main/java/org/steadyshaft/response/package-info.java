/**
 * How the speed answers when something changes. Start at {@link org.steadyshaft.response.StepFinder}, which finds changes of
 * the set-point and measures each; {@link org.steadyshaft.response.LoadEventFinder} finds where a load is put on or taken
 * off; {@link org.steadyshaft.response.Regulation} compares a light run with a loaded one. Uses signal, numeric and published.
 */
package org.steadyshaft.response;
