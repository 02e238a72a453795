package org.steadyshaft.poles;

import java.util.List;
import java.util.stream.IntStream;

/**
 * Marks on a wheel under a lamp on the mains, which flashes at twice its frequency: at 120 f / m rpm, and at whole multiples of that, m marks
 * seem to stand still.
 *
 * @param marks evenly round the wheel
 * @param mainsHz of the lamp
 */
public record Strobe(int marks, double mainsHz) {
    public Strobe {
        if (marks < 1 || !(mainsHz > 0)) {
            throw new IllegalArgumentException(marks + " marks at " + mainsHz + " Hz");
        }
    }

    /** The lowest speed at which they seem to stand still [rpm]. */
    public double rpm() {
        return 120 * mainsHz / marks;
    }

    /** The first speeds at which they seem to stand still: one cannot be told from another by eye. */
    public List<Double> standing(int count) {
        return IntStream.rangeClosed(1, count).mapToObj(k -> k * rpm()).toList();
    }
}
