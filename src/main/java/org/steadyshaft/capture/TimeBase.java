package org.steadyshaft.capture;

/**
 * The sampling interval of a column of time stamps, fitted by least squares over all of them as they stream by: rounded
 * and repeated stamps average out. Only sums are kept; they are taken about the first stamp and updated without
 * cancellation.
 */
final class TimeBase {
    private long count;
    private double first;
    private double meanIndex;
    private double meanTime;
    private double indexSquares;
    private double products;
    private double last;
    private double largestStep;
    private long distinct = 1;

    void add(double time) {
        if (count == 0) {
            first = time;
            last = time;
        }
        double index = count++;
        double fromFirst = time - first;
        double indexAway = index - meanIndex;
        meanIndex += indexAway / count;
        meanTime += (fromFirst - meanTime) / count;
        indexSquares += indexAway * (index - meanIndex);
        products += indexAway * (fromFirst - meanTime);
        largestStep = Math.max(largestStep, time - last);
        distinct += time > last ? 1 : 0;
        last = time;
    }

    long count() {
        return count;
    }

    double last() {
        return last;
    }

    /**
     * Standard uncertainty of the fitted interval, as a share of it, where stamps repeat: their rounding of q / sqrt(12) to N
     * different values leaves a slope of sqrt(12) times that over q N^1.5. 0 where most stamps differ.
     */
    double roundingShare() {
        return 2 * distinct < count ? Math.pow(distinct, -1.5) : 0;
    }

    /** Fitted interval; 0 with fewer than two stamps or equal ones. */
    double interval() {
        return indexSquares > 0 ? products / indexSquares : 0;
    }

    /** The largest step from one stamp to the next. */
    double largestStep() {
        return largestStep;
    }
}
