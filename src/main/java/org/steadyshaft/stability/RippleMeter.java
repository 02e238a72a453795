package org.steadyshaft.stability;

import java.util.List;
import java.util.Optional;
import org.steadyshaft.numeric.Moments;
import org.steadyshaft.signal.SpeedTrack;
import org.steadyshaft.signal.Stretch;

/** Measures peak-to-peak and rms ripple over the steady stretches. */
public final class RippleMeter {
    /** @return the ripple; empty without a steady stretch */
    public Optional<Ripple> measure(SpeedTrack track, List<Stretch> steady, List<Blip> blips) {
        SteadySpeed speed = new SteadySpeed(track, steady);
        Moments all = new Moments();
        double widest = 0;
        for (SteadySpeed.Piece piece : speed.pieces()) {
            Moments moments = new Moments();
            int blip = 0;
            for (int i = 0; i < piece.cycles(); i++) {
                double time = piece.timeSeconds[i];
                while (blip < blips.size() && blips.get(blip).toSeconds() < time) {
                    blip++;
                }
                if (blip == blips.size() || time < blips.get(blip).fromSeconds()) {
                    moments.add(piece.deviationPercent[i]);
                    all.add(piece.deviationPercent[i]);
                }
            }
            widest = Math.max(widest, moments.count() > 0 ? moments.largest() - moments.smallest() : 0);
        }
        if (all.count() == 0) {
            return Optional.empty();
        }
        return Optional.of(new Ripple(widest, all.rms(), Folding.observableToHz(speed.meanCycleHz())));
    }
}
