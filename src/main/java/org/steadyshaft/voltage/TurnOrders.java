package org.steadyshaft.voltage;

/**
 * The shaft orders of a turn's voltage without what {@link TurnVoltage} keeps to be quick: a hundredth of its size, for what a whole batch
 * holds in memory. Unchanging; may be shared by threads.
 */
public final class TurnOrders {
    private final double[] cosine;
    private final double[] sine;

    /** Takes the arrays over; nobody may change them. */
    TurnOrders(double[] cosine, double[] sine) {
        this.cosine = cosine;
        this.sine = sine;
    }

    /** Highest shaft order it holds. */
    public int orders() {
        return cosine.length;
    }

    /** @param order 1 to {@link #orders()} */
    double cosine(int order) {
        return cosine[order - 1];
    }

    /** @param order 1 to {@link #orders()} */
    double sine(int order) {
        return sine[order - 1];
    }

    /** Peak amplitude of an order; 1 to {@link #orders()}. */
    double amplitude(int order) {
        return Math.hypot(cosine(order), sine(order));
    }
}
