package org.steadyshaft.compare;

import java.util.List;

/**
 * Everything that a batch of runs tells about which circuit is better.
 *
 * @param circuits names of the circuits, in the order in which they first came
 * @param runs the runs that were compared
 * @param groups runs of one circuit in one band with one load, by band, load and circuit
 * @param sags slowing under load, by circuit and setting
 * @param differences pairs of circuits, the proven ones first
 * @param works kinds of work whose needs were checked
 * @param own whether these needs are the user's; else they are the program's starting points
 * @param checks circuits against these needs
 */
public record Comparison(
        List<String> circuits,
        List<Run> runs,
        List<Group> groups,
        List<Sag> sags,
        List<Difference> differences,
        List<Work> works,
        boolean own,
        List<WorkCheck> checks) {
    public Comparison {
        circuits = List.copyOf(circuits);
        runs = List.copyOf(runs);
        groups = List.copyOf(groups);
        sags = List.copyOf(sags);
        differences = List.copyOf(differences);
        works = List.copyOf(works);
        checks = List.copyOf(checks);
    }

    /** Whether a circuit is proven to miss a need of a work that it ran for. */
    public boolean somethingFails() {
        return checks.stream().anyMatch(c -> c.status() == WorkCheck.Status.FAIL);
    }
}
