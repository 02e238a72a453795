package org.steadyshaft.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;

/**
 * Where a reader can go from a capture's page.
 *
 * @param previous folder of the capture before it in the batch; empty for the first
 * @param next folder of the capture after it; empty for the last
 * @param compared whether there is a page that compares circuits
 */
public record Ways(String previous, String next, boolean compared) {
    private static final String BEGINS = "<nav aria-label=\"Batch\">";
    private static final String ENDS = "</nav>";

    public Ways {
        Objects.requireNonNull(previous, "previous");
        Objects.requireNonNull(next, "next");
    }

    /** The ways of every page of a batch, whose folders are given in the batch's order. */
    public static List<Ways> of(List<String> folders, boolean compared) {
        List<Ways> ways = new ArrayList<>();
        for (int i = 0; i < folders.size(); i++) {
            String previous = i == 0 ? "" : folders.get(i - 1);
            String next = i + 1 == folders.size() ? "" : folders.get(i + 1);
            ways.add(new Ways(previous, next, compared));
        }
        return ways;
    }

    /** Address of the page before it; empty for the first. */
    public String previousHref() {
        return previous.isEmpty() ? "" : "../" + CaptureSummary.href(previous);
    }

    /** Address of the page after it; empty for the last. */
    public String nextHref() {
        return next.isEmpty() ? "" : "../" + CaptureSummary.href(next);
    }

    /**
     * A capture's page that leads these ways: the batch around a capture may change while the capture does not.
     *
     * @param page as it was written; what has no ways stays as it is
     */
    String in(String page) {
        int from = page.indexOf(BEGINS);
        int to = page.indexOf(ENDS, from);
        return from < 0 || to < 0 ? page : page.substring(0, from) + html() + page.substring(to + ENDS.length());
    }

    private String html() {
        return Pages.text("ways.jte", this).strip();
    }
}
