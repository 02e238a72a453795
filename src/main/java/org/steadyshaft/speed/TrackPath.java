package org.steadyshaft.speed;

import java.util.Arrays;
import org.steadyshaft.signal.DoubleSeries;
import org.steadyshaft.signal.FundamentalTrack;

/**
 * Chooses one candidate a frame, or none, so that the whole path explains the lines well and moves smoothly: the path of
 * least cost by dynamic programming (Viterbi's algorithm). Cost of a candidate: -ln of the share of line power it
 * explains; cost of a move: proportional to the ratio of the frequencies in octaves; a shaft cannot jump an octave in a
 * frame, a wrongly chosen harmonic does.
 */
final class TrackPath implements LineFamilies.Taker {
    /** Cost of "nothing turns" where lines are seen: as a candidate that explains a sixth of them. */
    private static final double NOTHING_COST = 1.8;

    private static final double MOVE_COST = 4;
    private static final double START_STOP_COST = 0.7;
    private static final double LEAST_SHARE = 0.02;

    private final DoubleSeries.Builder frequencyHz = new DoubleSeries.Builder();
    private final DoubleSeries.Builder magnitude = new DoubleSeries.Builder();
    private final DoubleSeries.Builder share = new DoubleSeries.Builder();
    private final DoubleSeries.Builder second = new DoubleSeries.Builder();
    private final DoubleSeries.Builder sweep = new DoubleSeries.Builder();
    private int[] frameEnd = new int[256];
    private int frames;

    @Override
    public void candidate(double lineHz, double lineMagnitude, double lineShare, double secondMagnitude) {
        frequencyHz.add(lineHz);
        magnitude.add(lineMagnitude);
        share.add(lineShare);
        second.add(secondMagnitude);
    }

    /**
     * @param frameSweep change of the frequency from the frame's middle to the next frame's, as a share of that in the middle
     */
    void endFrame(double frameSweep) {
        sweep.add(frameSweep);
        addFrameEnd(frequencyHz.size());
    }

    private void addFrameEnd(int candidates) {
        if (frames == frameEnd.length) {
            frameEnd = Arrays.copyOf(frameEnd, 2 * frames);
        }
        frameEnd[frames++] = candidates;
    }

    /** Appends the frames of another path. */
    void add(TrackPath next) {
        int before = frequencyHz.size();
        for (int i = 0; i < next.frequencyHz.size(); i++) {
            candidate(next.frequencyHz.get(i), next.magnitude.get(i), next.share.get(i), next.second.get(i));
        }
        for (int frame = 0; frame < next.frames; frame++) {
            sweep.add(next.sweep.get(frame));
            addFrameEnd(before + next.frameEnd[frame]);
        }
    }

    FundamentalTrack best(
            double firstSeconds, double hopSeconds, double frameSeconds, double toAmplitude, DoubleSeries noise) {
        int[] chosen = choose();
        DoubleSeries.Builder hz = new DoubleSeries.Builder();
        DoubleSeries.Builder amplitude = new DoubleSeries.Builder();
        DoubleSeries.Builder secondAmplitude = new DoubleSeries.Builder();
        for (int frame = 0; frame < frames; frame++) {
            boolean turns = chosen[frame] < frameEnd[frame];
            hz.add(turns ? frequencyHz.get(chosen[frame]) : 0);
            amplitude.add(turns ? toAmplitude * magnitude.get(chosen[frame]) : 0);
            secondAmplitude.add(turns ? toAmplitude * second.get(chosen[frame]) : 0);
        }
        return new FundamentalTrack(
                firstSeconds, hopSeconds, frameSeconds, hz.build(), amplitude.build(), secondAmplitude.build(), noise);
    }

    /** States of a frame are its candidates and, after them, "nothing"; state numbers run on over the frames. */
    private int[] choose() {
        int states = frequencyHz.size() + frames;
        double[] cost = new double[states];
        int[] from = new int[states];
        int previous = 0;
        int previousFrom = -1;
        for (int frame = 0, state = 0; frame < frames; frame++) {
            int begin = state;
            int candidates = candidatesOf(frame);
            for (int c = 0; c <= candidates; c++, state++) {
                cost[state] = ownCost(frame, c);
                if (previousFrom >= 0) {
                    arrive(cost, from, state, frame, c, previousFrom, previous);
                }
            }
            previousFrom = begin;
            previous = candidates;
        }
        return walkBack(cost, from, states);
    }

    private int candidatesOf(int frame) {
        return frameEnd[frame] - firstOf(frame);
    }

    private int firstOf(int frame) {
        return frame == 0 ? 0 : frameEnd[frame - 1];
    }

    private double ownCost(int frame, int c) {
        if (c == candidatesOf(frame)) {
            return c == 0 ? 0 : NOTHING_COST;
        }
        return -Math.log(share.get(firstOf(frame) + c) + LEAST_SHARE);
    }

    private void arrive(double[] cost, int[] from, int state, int frame, int c, int previousFrom, int previous) {
        double least = Double.POSITIVE_INFINITY;
        for (int b = 0; b <= previous; b++) {
            double total = cost[previousFrom + b] + moveCost(frame, b, c);
            if (total < least) {
                least = total;
                from[state] = previousFrom + b;
            }
        }
        cost[state] += least;
    }

    private double moveCost(int frame, int b, int c) {
        boolean stood = b == candidatesOf(frame - 1);
        boolean stands = c == candidatesOf(frame);
        if (stood || stands) {
            return stood == stands ? 0 : START_STOP_COST;
        }
        double fromHz = frequencyHz.get(firstOf(frame - 1) + b) * (1 + 0.5 * sweep.get(frame - 1));
        double toHz = frequencyHz.get(firstOf(frame) + c) * (1 - 0.5 * sweep.get(frame));
        return MOVE_COST * Math.abs(Math.log(toHz / fromHz));
    }

    /** Turns state numbers into candidate numbers; "nothing" becomes the number after the frame's last candidate. */
    private int[] walkBack(double[] cost, int[] from, int states) {
        int[] chosen = new int[frames];
        int end = states;
        int state = 0;
        for (int frame = frames - 1; frame >= 0; frame--) {
            int begin = end - candidatesOf(frame) - 1;
            if (frame == frames - 1) {
                state = begin;
                for (int s = begin; s < end; s++) {
                    state = cost[s] < cost[state] ? s : state;
                }
            }
            chosen[frame] = firstOf(frame) + state - begin;
            state = from[state];
            end = begin;
        }
        return chosen;
    }
}
