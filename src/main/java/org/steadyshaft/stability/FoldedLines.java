package org.steadyshaft.stability;

import java.util.ArrayList;
import java.util.List;

/**
 * Brings folded lines back to their source. One value a cycle cannot show ripple above half the tacho frequency in its place; but the
 * cycles come at uneven times as soon as the speed swings a little, and then a sine of the true frequency fits their values at
 * their own times better than any folded one, which is smeared over all the frequencies that the swing passes.
 */
final class FoldedLines {
    /** Multiples of the mains at which circuits make strong ripple. */
    private static final int[] MULTIPLES = {2, 1};

    /** The true frequency must fit this much better than the best folded one: at equal cycles both fit alike. */
    private static final double BETTER = 1.02;

    /** What is folded is smeared over so many times the swing of the speed. */
    private static final double SMEAR = 4;

    /** Near the tacho frequency the mean over a cycle and the filter leave nothing of a ripple: below this share its size cannot be told. */
    private static final double LEAST_LEFT = 0.1;

    private static final int STEPS_A_BIN = 4;

    private final List<LineFinder.Section> sections;
    private final double mainsHz;
    private final double cycleHz;
    private final double spreadHz;

    /** @param spreadShare how much the speed swings about its mean, as a share */
    FoldedLines(List<LineFinder.Section> sections, double mainsHz, double cycleHz, double spreadShare) {
        this.sections = sections;
        this.mainsHz = mainsHz;
        this.cycleHz = cycleHz;
        this.spreadHz = SMEAR * spreadShare * cycleHz;
    }

    static RippleCause cause(double sourceHz, double mainsHz) {
        return sourceHz > 1.5 * mainsHz ? RippleCause.FOLDED_TWICE_MAINS : RippleCause.FOLDED_MAINS;
    }

    /** The lines, largest first, with those that a folded source explains made one. */
    List<LineFinder.Tone> unfold(List<LineFinder.Tone> tones) {
        List<LineFinder.Tone> left = new ArrayList<>(tones);
        for (int multiple : MULTIPLES) {
            double nominal = multiple * mainsHz;
            if (2 * nominal > cycleHz && LineFinder.left(nominal / cycleHz) > LEAST_LEFT) {
                unfold(left, nominal);
            }
        }
        left.sort((a, b) -> Double.compare(b.percent(), a.percent()));
        return left;
    }

    private void unfold(List<LineFinder.Tone> tones, double nominalHz) {
        double foldedHz = Folding.foldedHz(nominalHz, cycleHz);
        double reachHz = CauseFinder.MAINS_TOLERANCE * nominalHz + spreadHz + 1.5 / sections.get(0).seconds;
        double best = 0;
        for (LineFinder.Tone tone : tones) {
            if (tone.hz() == tone.sourceHz() && Math.abs(tone.hz() - foldedHz) < reachHz) {
                best = Math.max(best, LineFinder.meanPower(sections, tone.hz()));
            }
        }
        if (best == 0) {
            return;
        }
        double sourceHz = strongestNear(nominalHz);
        double power = LineFinder.meanPower(sections, sourceHz);
        if (power < BETTER * best) {
            return;
        }
        tones.removeIf(tone -> tone.hz() == tone.sourceHz() && Math.abs(tone.hz() - foldedHz) < reachHz);
        double percent = Math.sqrt(power) / LineFinder.left(sourceHz / cycleHz);
        tones.add(new LineFinder.Tone(Folding.foldedHz(sourceHz, cycleHz), percent, sourceHz));
    }

    private double strongestNear(double nominalHz) {
        double step = 1 / sections.get(0).seconds / STEPS_A_BIN;
        double best = nominalHz;
        double most = 0;
        int steps = (int) Math.ceil(CauseFinder.MAINS_TOLERANCE * nominalHz / step);
        for (int i = -steps; i <= steps; i++) {
            double hz = nominalHz + i * step;
            double power = LineFinder.meanPower(sections, hz);
            if (power > most) {
                most = power;
                best = hz;
            }
        }
        double fine = step / STEPS_A_BIN;
        double centre = best;
        for (int i = -STEPS_A_BIN; i <= STEPS_A_BIN; i++) {
            double hz = centre + i * fine;
            double power = LineFinder.meanPower(sections, hz);
            if (power > most) {
                most = power;
                best = hz;
            }
        }
        return best;
    }
}
