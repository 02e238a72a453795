package org.steadyshaft.stability;

/** How sure a cause is. */
public enum Certainty {
    HIGH,
    MEDIUM,
    LOW
}
