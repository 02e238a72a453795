package org.steadyshaft.front;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import org.steadyshaft.condition.ChunkSurvey;
import org.steadyshaft.condition.LevelSurvey;
import org.steadyshaft.condition.Spikes;
import org.steadyshaft.signal.KeptWaveform;
import org.steadyshaft.signal.SampleSource;

/**
 * A channel after the one pass over the recording.
 *
 * @param channel counted from 0
 * @param bends how much the waveform bends, piece by piece: mean second difference of its samples
 * @param plan how far its rate was lowered
 * @param waveform what the later stages read
 */
public record ChannelFront(
        int channel, LevelSurvey levels, Spikes spikes, List<float[]> bends, RatePlan plan, KeptWaveform waveform) {
    /** A place that bends this many times as much as any that the pilot saw is looked at too. */
    private static final double UNSEEN = 1.5;

    private static final int MOST_PLACES = 32;

    /** A second look may find a higher tacho, and a third a still higher one. */
    private static final int LOOKS = 3;

    /** The wanted channels; the rate of each is as low as its tacho allows, wherever in the recording that is highest. */
    public static List<ChannelFront> of(SampleSource recording, int from, int to, double mainsHz) throws IOException {
        SampleSource source = HeldSource.of(recording);
        RatePilot pilot = new RatePilot(source, mainsHz);
        Set<Long> seen = new TreeSet<>();
        Arrays.stream(pilot.spread()).forEach(seen::add);
        double[] highest = pilot.highestHz(pilot.spread());
        List<RatePlan> plans = new ArrayList<>();
        for (int c = from; c < to; c++) {
            plans.add(RatePlan.of(source.sampleRateHz(), source.samples(), highest[c]));
        }
        List<ChannelFront> fronts = new FrontPass(source, from, plans).run();
        for (int look = 0; look < LOOKS; look++) {
            Set<Long> unseen = new TreeSet<>();
            fronts.forEach(front -> front.addUnseen(seen, pilot.frameSamples(), source.samples(), unseen));
            if (unseen.isEmpty()) {
                return fronts;
            }
            double[] more = pilot.highestHz(unseen.stream().mapToLong(p -> p).toArray());
            seen.addAll(unseen);
            boolean higher = false;
            for (int c = from; c < to; c++) {
                RatePlan plan = RatePlan.of(source.sampleRateHz(), source.samples(), more[c]);
                if (more[c] > highest[c] && plan.factor() < plans.get(c - from).factor()) {
                    plans.set(c - from, plan);
                    highest[c] = more[c];
                    higher = true;
                }
            }
            fronts = higher ? new FrontPass(source, from, plans).run() : fronts;
        }
        return fronts;
    }

    /** Adds the places where the waveform bends far more than in any frame that was looked at, the worst first. */
    private void addUnseen(Set<Long> seen, int frameSamples, long samples, Set<Long> unseen) {
        if (plan.factor() == 1) {
            return;
        }
        double most = 0;
        List<Place> others = new ArrayList<>();
        long at = 0;
        for (float[] chunk : bends) {
            for (float bend : chunk) {
                long middle = at + ChunkSurvey.bendSamples() / 2;
                boolean inside = seen.stream().anyMatch(p -> p <= middle && middle < p + frameSamples);
                if (inside) {
                    most = Math.max(most, bend);
                } else {
                    others.add(new Place(middle, bend));
                }
                at += ChunkSurvey.bendSamples();
            }
        }
        double limit = UNSEEN * most;
        List<Place> worst = others.stream()
                .filter(p -> p.bend > limit)
                .sorted(Comparator.comparingDouble((Place p) -> -p.bend).thenComparingLong(p -> p.middle))
                .toList();
        List<Long> taken = new ArrayList<>();
        for (Place place : worst) {
            boolean near = taken.stream().anyMatch(t -> Math.abs(t - place.middle) < frameSamples / 2);
            if (!near && taken.size() < MOST_PLACES) {
                taken.add(place.middle);
                unseen.add(Math.max(0, Math.min(samples - frameSamples, place.middle - frameSamples / 2)));
            }
        }
    }

    /** The middle of a piece, and how much the waveform bends there. */
    private record Place(long middle, double bend) {}
}
