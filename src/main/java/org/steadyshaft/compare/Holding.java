package org.steadyshaft.compare;

import java.util.List;

/** Whether what was recorded holds what a work needs, taken together: the worst first. */
public enum Holding {
    DOES_NOT("does not", "\u2715"),
    CANNOT_TELL("cannot tell", "?"),
    MOSTLY("mostly", "\u223c"),
    HOLDS("holds", "\u2713"),
    NOT_RECORDED("not recorded", "\u2013");

    private final String word;
    private final String sign;

    Holding(String word, String sign) {
        this.word = word;
        this.sign = sign;
    }

    public String word() {
        return word;
    }

    /** A sign for those who do not see colours. */
    public String sign() {
        return sign;
    }

    /**
     * Does not: a limit is proven missed, or it ran away. Holds: every limit that was recorded is proven to hold, by recordings that can be
     * trusted. Mostly: whatever was found lies below its limit, but not all is proven. Cannot tell: something lies above its limit by
     * chance or not, or does not show in the recordings.
     *
     * @param checks what was recorded and what was not
     * @param groups the runs
     */
    static Holding of(List<WorkCheck> checks, List<Group> groups) {
        if (groups.stream().anyMatch(Group::ranAway) || has(checks, WorkCheck.Status.FAIL)) {
            return DOES_NOT;
        }
        List<WorkCheck> recorded = checks.stream()
                .filter(c -> c.status() != WorkCheck.Status.NOT_RECORDED)
                .toList();
        boolean above =
                recorded.stream().anyMatch(c -> c.status() == WorkCheck.Status.NOT_PROVEN && !(c.shareOfLimit() <= 1));
        if (recorded.isEmpty() || above || has(recorded, WorkCheck.Status.CANNOT_TELL)) {
            return CANNOT_TELL;
        }
        boolean trusted = groups.stream().allMatch(g -> g.doubtful().isEmpty());
        return trusted && !has(recorded, WorkCheck.Status.NOT_PROVEN) ? HOLDS : MOSTLY;
    }

    private static boolean has(List<WorkCheck> checks, WorkCheck.Status status) {
        return checks.stream().anyMatch(c -> c.status() == status);
    }
}
