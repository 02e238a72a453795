package org.steadyshaft.compare;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/**
 * A circuit against everything that a work needs, at all speeds and loads that it ran at.
 *
 * @param work the work
 * @param circuit the circuit
 * @param groups its runs for this work
 * @param checks the limits
 * @param missing groups of other circuits for this work that it has no like of: speeds and loads at which it was not recorded
 * @param holding whether it holds
 */
public record Standing(
        Work work, String circuit, List<Group> groups, List<WorkCheck> checks, List<Group> missing, Holding holding) {
    public Standing {
        groups = List.copyOf(groups);
        checks = List.copyOf(checks);
        missing = List.copyOf(missing);
    }

    /** Every work that some runs were made for, with every circuit that ran for it; works in the user's order. */
    static List<Standing> of(List<Work> works, List<String> circuits, List<Group> groups, List<WorkCheck> checks) {
        List<Standing> standings = new ArrayList<>();
        for (Work work : works) {
            List<Group> all = groups.stream().filter(work::applies).toList();
            for (String circuit : circuits) {
                List<Group> own =
                        all.stream().filter(g -> g.circuit().equals(circuit)).toList();
                List<WorkCheck> limits = checks.stream()
                        .filter(c -> c.work().equals(work) && c.circuit().equals(circuit))
                        .toList();
                if (!own.isEmpty()) {
                    standings.add(new Standing(work, circuit, own, limits, missing(all, own), Holding.of(limits, own)));
                }
            }
        }
        return standings;
    }

    /** One group for each level and load that others have and this circuit has not. */
    private static List<Group> missing(List<Group> all, List<Group> own) {
        List<Group> missing = new ArrayList<>();
        for (Group group : all) {
            boolean known =
                    own.stream().anyMatch(group::isBeside) || missing.stream().anyMatch(group::isBeside);
            if (!known) {
                missing.add(group);
            }
        }
        return missing;
    }

    /** Checks with a status, the furthest beyond their limits first. */
    public List<WorkCheck> with(WorkCheck.Status status) {
        return checks.stream()
                .filter(c -> c.status() == status)
                .sorted(Comparator.comparingDouble(c -> -c.shareOfLimit()))
                .toList();
    }

    /** How far beyond its limits it goes at the worst; below 1 where all values lie within. */
    public double worstShare() {
        return checks.stream().mapToDouble(WorkCheck::shareOfLimit).max().orElse(0);
    }
}
