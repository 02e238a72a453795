package org.steadyshaft.compare;

import java.util.List;
import java.util.Optional;

/**
 * Everything that a batch of runs tells about which circuit is better.
 *
 * @param circuits names of the circuits, in the order in which they first came
 * @param runs the runs that were compared
 * @param groups runs of one circuit at about one speed with one load, by level, load and circuit
 * @param sags slowing under load, by circuit and setting
 * @param differences pairs of circuits, the proven ones first
 * @param unmatched groups that no other circuit could be compared with
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
        List<Unmatched> unmatched,
        List<Work> works,
        boolean own,
        List<WorkCheck> checks) {
    /**
     * A group without a partner.
     *
     * @param group the group
     * @param reason why
     */
    public record Unmatched(Group group, String reason) {}

    public Comparison {
        circuits = List.copyOf(circuits);
        runs = List.copyOf(runs);
        groups = List.copyOf(groups);
        sags = List.copyOf(sags);
        differences = List.copyOf(differences);
        unmatched = List.copyOf(unmatched);
        works = List.copyOf(works);
        checks = List.copyOf(checks);
    }

    /** Every circuit against every work that it ran for; works in the user's order. */
    public List<Standing> standings() {
        return Standing.of(works, circuits, groups, checks);
    }

    /** The first work, in the user's order, that runs of the batch were made for. */
    public Optional<Work> mainWork() {
        return works.stream().filter(w -> groups.stream().anyMatch(w::applies)).findFirst();
    }

    /** The first work, in the user's order, that a group's runs were made for. */
    public Optional<Work> workOf(Group group) {
        return works.stream().filter(w -> w.applies(group)).findFirst();
    }

    /** A group against the limits of a work. */
    public List<WorkCheck> checks(Work work, Group group) {
        return checks.stream()
                .filter(c -> c.work().equals(work) && c.isOf(group))
                .toList();
    }

    /** Whether a group holds what a work needs; not recorded where the work does not apply to it. */
    public Holding holding(Work work, Group group) {
        return work.applies(group) ? Holding.of(checks(work, group), List.of(group)) : Holding.NOT_RECORDED;
    }

    /** Whether a circuit is proven to miss a need of a work that it ran for. */
    public boolean somethingFails() {
        return checks.stream().anyMatch(c -> c.status() == WorkCheck.Status.FAIL);
    }
}
