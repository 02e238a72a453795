package org.steadyshaft.response;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.steadyshaft.signal.SpeedTrack;
import org.steadyshaft.signal.Stretch;

/**
 * Finds changes of the set-point: the speed goes from one lasting level to another within some seconds. What is a step and what
 * the answer to a load is told by {@link Transition}. Run-up from standstill and run-down to it are no steps: no level precedes or
 * follows them. Nor is a change over which the recording has a gap, as it cannot be followed, or one slower than ten seconds.
 */
public final class StepFinder {
    /**
     * The steps, in order.
     *
     * @param steady the steady stretches of the track, in order, none over a gap
     */
    public List<Step> find(SpeedTrack track, List<Stretch> steady) {
        List<Step> steps = new ArrayList<>();
        for (SpeedGrid grid : SpeedGrid.of(track)) {
            Swings swings = new Swings(grid);
            List<Stretch> levels = Levels.of(grid, steady);
            swings.share(levels);
            double limit = swings.limit();
            for (Transition transition : Transition.between(grid, levels)) {
                if (transition.isStep(swings.smooth(), limit)) {
                    Optional<Step> step = new StepMeter(grid, transition, swings.smooth(), limit).measure();
                    step.ifPresent(steps::add);
                }
            }
        }
        return steps;
    }
}
