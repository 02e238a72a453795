package org.steadyshaft.compare;

import java.util.List;

/**
 * What the user's work needs.
 *
 * @param works kinds of work, in the user's order; one or more
 * @param own whether the user said so; else they are the program's starting points
 */
public record Needs(List<Work> works, boolean own) {
    public Needs {
        works = List.copyOf(works);
        if (works.isEmpty()) {
            throw new IllegalArgumentException("no work");
        }
    }

    /** The starting points that come with the program. */
    public static Needs startingPoints() {
        return new Needs(LimitsReader.startingPoints(), false);
    }
}
