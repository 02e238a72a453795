package org.steadyshaft.ripple;

/** How sure a cause is. */
public enum Certainty {
    HIGH,
    MEDIUM,
    LOW
}
