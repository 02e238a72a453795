package org.steadyshaft.condition;

import java.io.IOException;
import java.util.Arrays;
import org.steadyshaft.numeric.Robust;
import org.steadyshaft.published.Mains;
import org.steadyshaft.signal.FundamentalTrack;
import org.steadyshaft.signal.KeptWaveform;

/**
 * Tells a tacho that turns at the frequency of the mains, or a small multiple of it, from pick-up of the mains itself. The tone is mixed
 * down; a shaft is what
 *
 * <ul>
 *   <li>came there from another speed or left for one, as a motor starts and stops,
 *   <li>changes its frequency from second to second faster than a grid, whose many turning masses do not let it, or
 *   <li>has a phase that swings with a whole number of turns of the shaft, from uneven poles.
 * </ul>
 *
 * Level tells nothing: a lead that is touched changes it tenfold.
 */
public final class MainsOrTacho {
    /** What the tone of a channel is. */
    public enum Verdict {
        /** Not at the mains: a tacho, or nothing. */
        ELSEWHERE,
        /** At the mains, and yet a shaft. */
        TACHO,
        /** The mains, for all that can be seen. */
        MAINS
    }

    private static final int MOST_ORDERS = 2;

    /** Share of the rotating frames that lie at the mains where all the channel shows may be the mains. */
    private static final double MOST_FRAMES = 0.85;

    private static final double SERIES_HZ = 100;

    /** A Hann window of this length: its zeros lie at 50 Hz and multiples, where the other lines of the mains are. */
    private static final double WINDOW_SECONDS = 0.04;

    private static final int SECOND = (int) SERIES_HZ;

    /**
     * An interconnected grid changes its frequency from one second to the next by 1 to 4 mHz (standard deviation, common practice),
     * 3e-5 to 8e-5 of it; a small one by twice that.
     */
    private static final double GRID_CHANGE = 1.6e-4;

    /** And the change must exceed what noise does by this factor. */
    private static final double CLEAR_OF_NOISE = 3;

    private static final int FEWEST_SECONDS = 6;

    /** Sidebands are sought in the middle of longer recordings. */
    private static final int SIDEBAND_SECONDS = 240;

    /** A sideband stands this far above its surroundings on both sides. */
    private static final double CLEAR_SIDEBAND = 8;

    /** More is asked in a shorter recording: it has few seconds to judge by, and a touch on the lead spreads over some of its few lines. */
    private static final double LONG_SECONDS = 30;

    /** Sidebands below this share of the tone may be crumbs of anything. */
    private static final double LEAST_SIDEBAND = 0.001;

    private static final int MOST_POLES = 24;

    /** The mixed-down series holds sidebands to here, a little weakened. */
    private static final double SIDEBAND_REACH_HZ = 30;

    private static final double LEAST_SIDEBAND_HZ = 1;

    /** Off the mains by more than this and still next to it: a shaft on its way. */
    private static final double ON_ITS_WAY = 0.01;

    private static final double NEXT = 0.15;
    private static final int FEWEST_ON_ITS_WAY = 4;

    private final double mainsHz;
    private final int polePairs;

    /** @param polePairs cycles of the tacho a turn, as far as anyone says */
    public MainsOrTacho(double mainsHz, int polePairs) {
        this.mainsHz = mainsHz;
        this.polePairs = polePairs;
    }

    /** @throws IOException if the recording has to be read again and cannot be */
    public Verdict judge(KeptWaveform waveform, FundamentalTrack track) throws IOException {
        int order = order(track);
        if (order == 0) {
            return Verdict.ELSEWHERE;
        }
        if (comesAndGoes(track, order * mainsHz)) {
            return Verdict.TACHO;
        }
        Series series = Series.of(waveform, order * mainsHz);
        if (series.seconds() < FEWEST_SECONDS) {
            return Verdict.MAINS;
        }
        double most =
                series.shortness() * Math.max(GRID_CHANGE * order * mainsHz, CLEAR_OF_NOISE * series.noiseChange());
        boolean shaft = series.change() > most || hasSidebands(series, order * mainsHz);
        return shaft ? Verdict.TACHO : Verdict.MAINS;
    }

    /** The multiple of the mains at which nearly all rotating frames lie; 0 if there is none. */
    private int order(FundamentalTrack track) {
        double[] hz = track.rotating(track::frequencyHz);
        for (int order = 1; order <= MOST_ORDERS; order++) {
            double centre = order * mainsHz;
            long near = Arrays.stream(hz)
                    .filter(f -> Math.abs(f / centre - 1) < Mains.FREQUENCY_TOLERANCE)
                    .count();
            if (hz.length > 0
                    && near >= MOST_FRAMES * hz.length
                    && Math.abs(Robust.median(hz) / centre - 1) < Mains.REACH) {
                return order;
            }
        }
        return 0;
    }

    /** Whether the tone runs up to the mains frequency or away from it, frame by frame. */
    private static boolean comesAndGoes(FundamentalTrack track, double centreHz) {
        int row = 0;
        int longest = 0;
        for (int i = 1; i < track.frames(); i++) {
            double now = track.frequencyHz(i);
            double before = track.frequencyHz(i - 1);
            boolean follows = track.rotates(i) && track.rotates(i - 1) && Math.abs(now / before - 1) < NEXT;
            boolean away = Math.abs(now / centreHz - 1) > ON_ITS_WAY;
            row = follows && away ? row + 1 : 0;
            longest = Math.max(longest, row);
        }
        return longest >= FEWEST_ON_ITS_WAY;
    }

    /** Sidebands on both sides at m turns of the shaft, for the pole count that is said and for any other. */
    private boolean hasSidebands(Series series, double hz) {
        for (int poles = 1; poles <= MOST_POLES; poles++) {
            for (int m = 1; m < poles && m * hz / poles < SIDEBAND_REACH_HZ; m++) {
                boolean own = poles == polePairs;
                boolean inLowestTerms = gcd(m, poles) == 1;
                double limit = CLEAR_SIDEBAND * (own ? 1 : 2) * series.shortness();
                if ((own || inLowestTerms)
                        && m * hz / poles > LEAST_SIDEBAND_HZ
                        && series.isPair((double) m / poles, limit)) {
                    return true;
                }
            }
        }
        return false;
    }

    private static int gcd(int a, int b) {
        return b == 0 ? a : gcd(b, a % b);
    }

    /** The tone mixed down to nothing: amplitude and phase a hundred times a second. */
    private static final class Series {
        private final double[] re;
        private final double[] im;
        private final double centreHz;
        private final double[] phase;
        private final int from;
        private final int to;

        private Series(double[] re, double[] im, double centreHz) {
            this.re = re;
            this.im = im;
            this.centreHz = centreHz;
            this.phase = new double[re.length];
            this.from = Math.max(0, re.length / 2 - SIDEBAND_SECONDS * SECOND / 2);
            this.to = Math.min(re.length, from + SIDEBAND_SECONDS * SECOND);
            double before = 0;
            for (int i = 0; i < re.length; i++) {
                // smoothed over a second: what is slower than that is the tone, what is faster its sidebands
                double a = 0;
                double b = 0;
                for (int k = Math.max(0, i - SECOND / 2); k < Math.min(re.length, i + SECOND / 2); k++) {
                    a += re[k];
                    b += im[k];
                }
                double now = Math.atan2(b, a);
                phase[i] = i == 0 ? now : before + Math.IEEEremainder(now - before, 2 * Math.PI);
                before = phase[i];
            }
        }

        static Series of(KeptWaveform waveform, double centreHz) throws IOException {
            int hop = (int) Math.max(1, Math.round(waveform.rateHz() / SERIES_HZ));
            int length = (int) Math.max(4, Math.round(WINDOW_SECONDS * waveform.rateHz()));
            int count = (int) Math.max(0, (waveform.samples() - length) / hop);
            double[] re = new double[count];
            double[] im = new double[count];
            double[] block = new double[length];
            double[] cos = new double[length];
            double[] sin = new double[length];
            for (int i = 0; i < length; i++) {
                double weight = (1 - Math.cos(2 * Math.PI * (i + 0.5) / length)) * 2 / length;
                double angle = 2 * Math.PI * centreHz * i / waveform.rateHz();
                cos[i] = weight * Math.cos(angle);
                sin[i] = -weight * Math.sin(angle);
            }
            for (int n = 0; n < count; n++) {
                long first = (long) n * hop;
                waveform.read(first, block, length);
                double a = 0;
                double b = 0;
                for (int i = 0; i < length; i++) {
                    a += block[i] * cos[i];
                    b += block[i] * sin[i];
                }
                double turns = centreHz * first / waveform.rateHz();
                double back = -2 * Math.PI * (turns - Math.floor(turns));
                re[n] = a * Math.cos(back) - b * Math.sin(back);
                im[n] = a * Math.sin(back) + b * Math.cos(back);
            }
            return new Series(re, im, centreHz);
        }

        double seconds() {
            return re.length / SERIES_HZ;
        }

        /** How many times more is asked of it than of a long one. */
        double shortness() {
            return Math.max(1, LONG_SECONDS / seconds());
        }

        /** Robust standard deviation of the change of the frequency from second to second [Hz]. */
        double change() {
            int seconds = re.length / SECOND;
            if (seconds < FEWEST_SECONDS) {
                return 0;
            }
            double[] changes = new double[seconds - 2];
            for (int j = 0; j < changes.length; j++) {
                int at = j * SECOND + SECOND / 2;
                changes[j] = (phase[at + 2 * SECOND >= phase.length ? phase.length - 1 : at + 2 * SECOND]
                                - 2 * phase[at + SECOND]
                                + phase[at])
                        / (2 * Math.PI);
            }
            return Robust.sigma(changes);
        }

        /** What additive noise alone makes of that: it swings the level as much as the phase, and the level has no other cause. */
        double noiseChange() {
            double[] level = new double[re.length];
            for (int i = 0; i < re.length; i++) {
                level[i] = Math.hypot(re[i], im[i]);
            }
            double median = Robust.median(level);
            double[] fast = new double[Math.max(1, level.length - 2 * 2)];
            for (int i = 0; i < fast.length; i++) {
                // values four hundredths apart share no samples; the second difference leaves slow changes of level out
                fast[i] = i + 8 < level.length ? level[i] - 2 * level[i + 4] + level[i + 8] : 0;
            }
            double noise = Robust.sigma(fast) / Math.sqrt(6) / Math.max(median, Double.MIN_NORMAL);
            double independent = SECOND * WINDOW_SECONDS > 0 ? 1 / WINDOW_SECONDS : 1;
            return Math.sqrt(6 / independent) * noise / (2 * Math.PI);
        }

        /** Whether lines stand clear at both sides of the tone at a share of its own frequency, along its own phase. */
        boolean isPair(double share, double limit) {
            double tone = Math.max(line(0), Double.MIN_NORMAL);
            return clear(share, limit, tone) && clear(-share, limit, tone);
        }

        private boolean clear(double share, double limit, double tone) {
            double binShare = SERIES_HZ / (to - from) / centreHz;
            double height = line(share);
            if (height < LEAST_SIDEBAND * tone) {
                return false;
            }
            double[] beside = new double[12];
            for (int k = 0; k < 6; k++) {
                beside[2 * k] = line(share + (4 + 1.5 * k) * binShare);
                beside[2 * k + 1] = line(share - (4 + 1.5 * k) * binShare);
            }
            return height > limit * Robust.median(beside);
        }

        /**
         * Amplitude of a line at a share of the tone's frequency beside it, Hann weighted over the recording; of the phase alone, for a touch
         * on the lead changes the level.
         */
        private double line(double share) {
            double a = 0;
            double b = 0;
            for (int i = from; i < to; i++) {
                double weight = 1 - Math.cos(2 * Math.PI * (i - from + 0.5) / (to - from));
                double turn = phase[i] + share * (phase[i] + 2 * Math.PI * centreHz * i / SERIES_HZ);
                double level = Math.max(Math.hypot(re[i], im[i]), Double.MIN_NORMAL);
                a += weight / level * (re[i] * Math.cos(turn) + im[i] * Math.sin(turn));
                b += weight / level * (im[i] * Math.cos(turn) - re[i] * Math.sin(turn));
            }
            return Math.hypot(a, b) / (to - from);
        }
    }
}
