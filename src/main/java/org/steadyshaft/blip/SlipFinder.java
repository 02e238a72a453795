package org.steadyshaft.blip;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.steadyshaft.signal.CycleTimes;
import org.steadyshaft.signal.KeptWaveform;
import org.steadyshaft.signal.Stretch;

/**
 * Finds places where the recorder lost samples or wrote some twice, in the cycles: one or two are far too long or too short between cycles
 * that agree, and the waveform shows that the phase jumped there and the speed did not ({@link SlipJudge}). Small slips do not show here;
 * those are told with the voltage of one turn, which large ones would spoil.
 */
public final class SlipFinder {
    /** Cycles looked at on either side; the filter before the crossings spreads a slip over the odd cycle's neighbours, which do not count. */
    private static final int BESIDE = 4;

    private static final int SPREAD = 1;

    /** Smaller slips [cycles] are left to the look with the voltage of one turn. */
    private static final double LEAST = 0.05;

    /** The neighbours differ by no more than this share of the slip, and the means of both sides by no more than that. */
    private static final double NEIGHBOURS = 0.3;

    private static final double SIDES = 0.15;

    /** A crossing that was missed makes whole cycles, within this. */
    private static final double WHOLE = 0.08;

    /** A slip comes alone: where one cycle in so many is odd, it is the tacho's own. */
    private static final int LEAST_CYCLES_A_SLIP = 50;

    private final int polePairs;
    private final KeptWaveform waveform;
    private final double mainsHz;

    /** @param mainsHz nominal frequency of the mains */
    public SlipFinder(int polePairs, KeptWaveform waveform, double mainsHz) {
        this.polePairs = polePairs;
        this.waveform = waveform;
        this.mainsHz = mainsHz;
    }

    /** Cycles that are odd together, from one crossing to another, between cycles of a usual length. */
    record Odd(double fromSeconds, double toSeconds, double usualSeconds, double cycles) {}

    /**
     * The slips in order, each from the crossing before it to the one behind it; none where odd cycles are the rule.
     *
     * @throws IOException if the recording has to be read again and cannot be
     */
    public List<RecorderFault> find(CycleTimes cycles) throws IOException {
        List<Odd> odd = candidates(cycles);
        List<RecorderFault> slips = new ArrayList<>();
        if ((long) odd.size() * LEAST_CYCLES_A_SLIP > cycles.cycles()) {
            return slips;
        }
        SlipJudge judge = new SlipJudge(waveform, mainsHz);
        for (Odd one : odd) {
            double ahead = Math.rint(one.cycles) - one.cycles;
            if (judge.isSlip(one)) {
                slips.add(new RecorderFault(
                        ahead > 0 ? RecorderFault.Kind.SAMPLES_LOST : RecorderFault.Kind.SAMPLES_DOUBLED,
                        new Stretch(one.fromSeconds, one.toSeconds),
                        ahead));
            }
        }
        return slips;
    }

    private List<Odd> candidates(CycleTimes cycles) {
        List<Odd> odd = new ArrayList<>();
        int margin = BESIDE + SPREAD;
        for (int segment = 0; segment < cycles.segments(); segment++) {
            int first = cycles.firstOf(segment);
            int end = first + cycles.cyclesOf(segment);
            for (int i = first + margin; i + margin < end; i++) {
                Optional<Odd> found = odd(cycles, i);
                if (found.isPresent() && !isOfTheTurn(cycles, first + margin, end - margin, i, found.get())) {
                    odd.add(found.get());
                    i += SPREAD + 1;
                }
            }
        }
        return odd;
    }

    /** The odd cycle and its neighbours, if it is the oddest of them and the cycles beside agree. */
    private static Optional<Odd> odd(CycleTimes cycles, int cycle) {
        double[] beside = beside(cycles, cycle);
        double before = Arrays.stream(beside, 0, BESIDE).average().orElseThrow();
        double after = Arrays.stream(beside, BESIDE, 2 * BESIDE).average().orElseThrow();
        Arrays.sort(beside);
        double usual = usual(cycles, cycle);
        double own = Math.abs(length(cycles, cycle) - usual);
        boolean isOddest =
                own >= Math.abs(length(cycles, cycle - 1) - usual) && own > Math.abs(length(cycles, cycle + 1) - usual);
        double from = cycles.timeSeconds(cycle - SPREAD);
        double to = cycles.timeSeconds(cycle + SPREAD + 1);
        double off = off(cycles, cycle, usual);
        double size = Math.abs(off) * usual;
        double spread = Math.max(beside[2 * BESIDE - 1] - usual, usual - beside[0]);
        boolean isWhole = off > 0.5 && Math.abs(off - Math.rint(off)) < WHOLE;
        return isOddest
                        && Math.abs(off) >= LEAST
                        && !isWhole
                        && spread < NEIGHBOURS * size
                        && Math.abs(after - before) < SIDES * size
                ? Optional.of(new Odd(from, to, usual, off))
                : Optional.empty();
    }

    /** Lengths of the cycles before an odd one and its neighbours, nearest first, then of those behind. */
    private static double[] beside(CycleTimes cycles, int cycle) {
        double[] beside = new double[2 * BESIDE];
        for (int k = 0; k < BESIDE; k++) {
            beside[k] = length(cycles, cycle - SPREAD - 1 - k);
            beside[BESIDE + k] = length(cycles, cycle + SPREAD + 1 + k);
        }
        return beside;
    }

    private static double usual(CycleTimes cycles, int cycle) {
        double[] beside = beside(cycles, cycle);
        Arrays.sort(beside);
        return 0.5 * (beside[BESIDE - 1] + beside[BESIDE]);
    }

    /** By how many cycles one and its neighbours last longer than usual. */
    private static double off(CycleTimes cycles, int cycle, double usual) {
        return (cycles.timeSeconds(cycle + SPREAD + 1) - cycles.timeSeconds(cycle - SPREAD)) / usual - (2 * SPREAD + 1);
    }

    private static double length(CycleTimes cycles, int crossing) {
        return cycles.timeSeconds(crossing + 1) - cycles.timeSeconds(crossing);
    }

    /** Whether the same cycle of the turns beside it is as odd: a weak magnet, or a missing one. */
    private boolean isOfTheTurn(CycleTimes cycles, int first, int end, int cycle, Odd odd) {
        for (int other : new int[] {cycle - polePairs, cycle + polePairs}) {
            if (other >= first && other < end) {
                double same = off(cycles, other, usual(cycles, other));
                if (same * odd.cycles > 0.25 * odd.cycles * odd.cycles) {
                    return true;
                }
            }
        }
        return false;
    }
}
