package org.steadyshaft.simulate;

import java.util.function.ToDoubleFunction;
import org.hipparchus.analysis.UnivariateFunction;
import org.hipparchus.analysis.solvers.BracketedUnivariateSolver;
import org.hipparchus.analysis.solvers.BracketingNthOrderBrentSolver;
import org.hipparchus.ode.ODEStateAndDerivative;
import org.hipparchus.ode.events.Action;
import org.hipparchus.ode.events.AdaptableInterval;
import org.hipparchus.ode.events.ODEEventDetector;
import org.hipparchus.ode.events.ODEEventHandler;

/** Ends an integration where a quantity of the state passes zero in one direction. */
final class StopAt implements ODEEventDetector, ODEEventHandler {
    /** Looked at this often at least; a mains half-cycle has forty of these. */
    private static final double CHECK_SECONDS = 2.5e-4;

    private static final double ACCURACY_SECONDS = 1e-9;
    private static final int MOST_ITERATIONS = 100;

    private final ToDoubleFunction<double[]> quantity;
    private final boolean rising;
    private boolean reached;

    StopAt(ToDoubleFunction<double[]> quantity, boolean rising) {
        this.quantity = quantity;
        this.rising = rising;
    }

    /** Whether it was this that ended the integration. */
    boolean reached() {
        return reached;
    }

    @Override
    public AdaptableInterval getMaxCheckInterval() {
        return AdaptableInterval.of(CHECK_SECONDS);
    }

    @Override
    public int getMaxIterationCount() {
        return MOST_ITERATIONS;
    }

    @Override
    public BracketedUnivariateSolver<UnivariateFunction> getSolver() {
        return new BracketingNthOrderBrentSolver(0, ACCURACY_SECONDS, 0, 5);
    }

    @Override
    public ODEEventHandler getHandler() {
        return this;
    }

    @Override
    public double g(ODEStateAndDerivative state) {
        return quantity.applyAsDouble(state.getPrimaryState());
    }

    @Override
    public Action eventOccurred(ODEStateAndDerivative state, ODEEventDetector detector, boolean increasing) {
        if (increasing != rising) {
            return Action.CONTINUE;
        }
        reached = true;
        return Action.STOP;
    }
}
