package org.steadyshaft.compare;

import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import java.util.Optional;

/**
 * One run held against a work.
 *
 * @param held whether it holds its speed
 * @param work the work
 * @param applies whether the run's speed and load are among the work's; else it is the nearest there is
 * @param checks the limits that the run tells of or should
 */
public record RunJudgement(SpeedHeld held, Work work, boolean applies, List<WorkCheck> checks) {
    public RunJudgement {
        Objects.requireNonNull(held, "held");
        Objects.requireNonNull(work, "work");
        checks = List.copyOf(checks);
    }

    /** The check of a measure, if the work limits it and the run was held against it. */
    public Optional<WorkCheck> of(Measure measure) {
        return checks.stream().filter(c -> c.measure() == measure).findFirst();
    }

    /** Checks with a status, the furthest beyond their limits first. */
    public List<WorkCheck> with(WorkCheck.Status status) {
        return checks.stream()
                .filter(c -> c.status() == status)
                .sorted(Comparator.comparingDouble(c -> -c.shareOfLimit()))
                .toList();
    }
}
