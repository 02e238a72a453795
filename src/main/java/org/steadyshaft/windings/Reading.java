package org.steadyshaft.windings;

import java.util.Objects;
import java.util.Optional;

/**
 * What a meter reads between two contacts of the unplugged motor.
 *
 * @param from a contact, or "frame"
 * @param to another contact
 * @param ohms 0 or more; infinite where nothing connects them
 * @param jumps whether the reading jumps while the shaft is turned by hand; absent where nobody tried
 * @param volts whether a meter on AC shows a voltage while the shaft is turned by hand; absent where nobody tried
 * @param brushes whether the wires lead to the brushes; absent where nobody looked
 * @param opensWarm whether it opens when warmed; absent where nobody tried
 */
public record Reading(
        String from,
        String to,
        double ohms,
        Optional<Boolean> jumps,
        Optional<Boolean> volts,
        Optional<Boolean> brushes,
        Optional<Boolean> opensWarm) {
    /** The name of the motor's iron in a table. */
    public static final String FRAME = "frame";

    public Reading {
        Objects.requireNonNull(jumps, "jumps");
        if (from.isBlank() || to.isBlank() || from.equals(to) || !(ohms >= 0)) {
            throw new IllegalArgumentException(ohms + " ohm between '" + from + "' and '" + to + "'");
        }
    }

    public boolean isToFrame() {
        return from.equalsIgnoreCase(FRAME) || to.equalsIgnoreCase(FRAME);
    }

    public boolean isOpen() {
        return Double.isInfinite(ohms);
    }

    public boolean touches(String contact) {
        return from.equals(contact) || to.equals(contact);
    }

    /** The contact at the other end. */
    public String other(String contact) {
        return from.equals(contact) ? to : from;
    }

    public String pair() {
        return from + " and " + to;
    }
}
