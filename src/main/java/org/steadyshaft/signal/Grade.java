package org.steadyshaft.signal;

import java.util.Collection;

/** Whether a recording can be trusted. */
public enum Grade {
    GOOD,
    DOUBTFUL,
    UNUSABLE;

    /** Unusable with any finding that stops, doubtful with any caution, else good. */
    public static Grade of(Collection<Finding> findings) {
        Grade grade = GOOD;
        for (Finding finding : findings) {
            if (finding.severity() == Finding.Severity.STOP) {
                return UNUSABLE;
            }
            if (finding.severity() == Finding.Severity.CAUTION) {
                grade = DOUBTFUL;
            }
        }
        return grade;
    }
}
