/**
 * How many cycles a tacho gives a turn, from a recording of a shaft that was turned by hand: {@link org.steadyshaft.poles.HandTurn} counts,
 * {@link org.steadyshaft.poles.PoleCount} judges. Uses signal.
 */
package org.steadyshaft.poles;
