package org.steadyshaft.simulate;

/** A shaft whose angle is known at every time: the truth behind a simulated capture. */
public interface ShaftAngle {
    /** Turns since time 0; its slope is {@link #rpm} / 60. */
    double turns(double timeSeconds);

    /** Speed [rpm]. */
    double rpm(double timeSeconds);

    /** The same shaft with its time counted from later on. */
    default ShaftAngle from(double startSeconds) {
        ShaftAngle whole = this;
        double before = turns(startSeconds);
        return new ShaftAngle() {
            @Override
            public double turns(double timeSeconds) {
                return whole.turns(startSeconds + timeSeconds) - before;
            }

            @Override
            public double rpm(double timeSeconds) {
                return whole.rpm(startSeconds + timeSeconds);
            }
        };
    }
}
