package org.steadyshaft.voltage;

import java.io.IOException;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.steadyshaft.signal.CycleTimes;
import org.steadyshaft.signal.KeptWaveform;
import org.steadyshaft.signal.Stretch;
import org.steadyshaft.signal.Tachometer;

/**
 * Fits v = theta' W(theta) + d/dt [W(theta) d(t)] + tones + offset to the steady running of a recording: smooth angle from the cycles, the
 * turn's voltage, pick-up, and the speed's fast lines with their covariance. Lines at the mains and twice the mains are always fitted;
 * others are sought in the rest until none is left.
 */
public final class WaveformReader {
    /** Highest shaft order of W: eight times the pole pairs hold the harmonics of usual magnets. */
    private static final int HARMONICS = 8;

    private static final int MOST_ORDERS = 256;

    /** Multiples of the mains looked for as speed, and as pick-up. */
    private static final int[] SPEED_MULTIPLES = {1, 2, 3, 4, 6};

    private static final int[] HUM_MULTIPLES = {1, 2, 3, 4, 5, 6, 7, 8};

    /** Lines are sought up to this multiple of the mains. */
    private static final double TOP_MULTIPLE = 6.5;

    /** Share of the clean band that is used. */
    private static final double CLEAN_SHARE = 0.97;

    /** Lines are read from the waveform where the smooth angle leaves this share of their swing. */
    private static final double LEAST_LEFT = 0.05;

    /** Slower than this the angle follows anything. */
    private static final double LOWEST_HZ = 0.02;

    /** A tacho this near to the mains or twice the mains is read with a slower angle too. */
    private static final double MOST_BEAT_HZ = 4;

    private static final double LEAST_BEAT_HZ = 0.2;

    /** Running means of so many beats pass a fifth of the beat. */
    private static final double MEANS_A_BEAT = 0.7;

    /** The slower angle is used where it leaves this share of the rest. */
    private static final double CLEARLY_LESS = 0.95;

    /**
     * A slow swing that moves the tacho's phase by more than this [rad] is too wide for a line, whose sidebands go with the first power of it: the
     * angle must follow it. Its second pair of sidebands is then 15 % of the first (Bessel's functions J2 and J1 at 0.6).
     */
    private static final double WIDE_RAD = 0.6;

    /** Faster ones are not followed: the poles' spacing lies there. */
    private static final double MOST_FOLLOWED_HZ = 15;

    /** Lines begin at so many times the swing that is followed. */
    private static final double ABOVE_FOLLOWED = 2;

    /** What else swings must be smaller than this share of the mains' lines for these to tell how lines come through. Our own figure. */
    private static final double OTHER_SHARE = 0.2;

    /** Times that new lines are sought. */
    private static final int ROUNDS = 4;

    /**
     * Peak over root mean square: 1.41 of a sine, 1.2 where its upper quarter is cut off, 1 of a square. A tacho's own shape seldom comes below;
     * where peaks are cut, the shape changes with the speed, and what the model makes of a swing is off by a third.
     */
    private static final double FLAT_CREST = 1.2;

    /** Of a squared wave the orders that are fitted leave more than this of its fundamental: what they leave has swings of its own. */
    private static final double SQUARE_NOISE = 0.08;

    private static final double SQUARE_THIRD = 0.15;

    private final Tachometer tachometer;
    private final double mainsHz;
    private final List<LearntTurn> others;

    /** @param mainsHz nominal frequency of the mains */
    public WaveformReader(Tachometer tachometer, double mainsHz) {
        this(tachometer, mainsHz, List.of());
    }

    /**
     * A reader that may ask other recordings of the same tacho what its poles give.
     *
     * @param mainsHz nominal frequency of the mains
     * @param others turns of the tacho as other recordings have them, best at other speeds
     */
    public WaveformReader(Tachometer tachometer, double mainsHz, List<LearntTurn> others) {
        this.others = List.copyOf(others);
        this.tachometer = tachometer;
        this.mainsHz = mainsHz;
    }

    /**
     * Reads the waveform.
     *
     * @param steady stretches of steady running, gaps and events left out
     * @return the model; empty where no stretch is long enough
     * @throws IOException if the recording cannot be read again
     */
    public Optional<WaveformReading> read(KeptWaveform waveform, CycleTimes cycles, List<Stretch> steady)
            throws IOException {
        return better(waveform, cycles, steady).map(r -> isCutOff(r) || isSquared(r) ? r.withoutLines() : r);
    }

    private Optional<WaveformReading> better(KeptWaveform waveform, CycleTimes cycles, List<Stretch> steady)
            throws IOException {
        Optional<WaveformReading> usual = read(waveform, cycles, steady, PieceCutter.MEAN_SECONDS, Optional.empty());
        if (usual.isEmpty()) {
            return usual;
        }
        if (usual.get().isHiddenByTheShaft() && !others.isEmpty()) {
            Optional<TurnMemory> memory = TurnMemory.of(usual.get().learnt(), others);
            if (memory.isPresent()) {
                Optional<WaveformReading> known = read(waveform, cycles, steady, PieceCutter.MEAN_SECONDS, memory);
                return known.filter(k -> k.toldLines() > usual.get().toldLines())
                        .map(k -> k.withReasonsOf(usual.get()))
                        .or(() -> usual);
            }
        }
        double beat = beatHz(usual.get().shaftHz() * tachometer.polePairs());
        if (beat > MOST_BEAT_HZ) {
            return followed(waveform, cycles, steady, usual.get());
        }
        // pick-up beside the tacho, and ripple as fast as it, sway the crossings slowly: a slower angle leaves that
        // where it is
        Optional<WaveformReading> slow =
                read(waveform, cycles, steady, MEANS_A_BEAT / Math.max(LEAST_BEAT_HZ, beat), Optional.empty());
        WaveformReading better = slow.filter(
                        r -> r.noiseVolts() < CLEARLY_LESS * usual.get().noiseVolts())
                .orElse(usual.get());
        Optional<WaveformReading> calm = read(
                waveform, CalmCycles.of(cycles, better.motion()), steady, PieceCutter.MEAN_SECONDS, Optional.empty());
        return Optional.of(
                calm.filter(r -> r.noiseVolts() < better.noiseVolts()).orElse(better));
    }

    /**
     * The reading with an angle that follows a wide slow swing, where there is one and that leaves clearly less; else the reading. Of several the
     * slowest is the swing: the others are its sidebands further out.
     */
    private Optional<WaveformReading> followed(
            KeptWaveform waveform, CycleTimes cycles, List<Stretch> steady, WaveformReading usual) throws IOException {
        double cycleHz = usual.shaftHz() * tachometer.polePairs();
        OptionalDouble wideHz = usual.lines().stream()
                .filter(l -> l.mainsMultiple() == 0 && l.hz() < MOST_FOLLOWED_HZ)
                .filter(l -> l.amplitudePercent() / 100 * cycleHz / l.hz() > WIDE_RAD)
                .mapToDouble(SpeedLine::hz)
                .min();
        if (wideHz.isEmpty()) {
            return Optional.of(usual);
        }
        double meanSeconds = PieceCutter.MEAN_SECONDS * usual.fromHz() / (ABOVE_FOLLOWED * wideHz.getAsDouble());
        return read(waveform, cycles, steady, Math.min(PieceCutter.MEAN_SECONDS, meanSeconds), Optional.empty())
                .filter(r -> r.noiseVolts() < CLEARLY_LESS * usual.noiseVolts())
                .or(() -> Optional.of(usual));
    }

    /** How far the tacho is from the mains or twice the mains [Hz]. */
    private double beatHz(double cycleHz) {
        return Math.min(Math.abs(cycleHz - mainsHz), Math.abs(cycleHz - 2 * mainsHz));
    }

    /** Whether the wave of a pitch, uneven poles left out, is flatter than a tacho's, as cut peaks or a comparator make it. */
    private boolean isCutOff(WaveformReading reading) {
        int poles = tachometer.polePairs();
        return reading.turn().orders() >= 3 * poles && reading.turn().crest(poles) < FLAT_CREST;
    }

    /** Whether the orders that are fitted leave much of a wave with sharp edges. */
    private boolean isSquared(WaveformReading reading) {
        TurnVoltage turn = reading.turn();
        int poles = tachometer.polePairs();
        return reading.noiseVolts() > SQUARE_NOISE * reading.tachoVolts()
                && turn.orders() >= 3 * poles
                && turn.amplitude(3 * poles) > SQUARE_THIRD * turn.amplitude(poles);
    }

    private Optional<WaveformReading> read(
            KeptWaveform waveform,
            CycleTimes cycles,
            List<Stretch> steady,
            double meanSeconds,
            Optional<TurnMemory> known)
            throws IOException {
        int poles = tachometer.polePairs();
        PieceCutter.Cut cut = new PieceCutter(waveform, cycles, poles, meanSeconds).cut(steady);
        if (cut.pieces().isEmpty()) {
            return Optional.empty();
        }
        double cleanHz = CLEAN_SHARE * waveform.cleanHz();
        double fastestHz =
                cut.pieces().stream().mapToDouble(AnglePiece::shaftHz).max().orElse(1);
        int highest = (int) Math.min(Math.min(MOST_ORDERS, HARMONICS * poles), Math.floor(cleanHz / fastestHz));
        if (highest < poles) {
            return Optional.empty();
        }
        TurnVoltage turn = new RowAligner(poles, highest).align(cut.pieces(), cut.row());
        double toHz = Math.min(TOP_MULTIPLE * mainsHz, cleanHz - poles * fastestHz);
        SmoothAngle smooth = cut.slowest().get();
        TurnMemory memory = known.orElse(TurnMemory.none(highest));
        Orders orders = new Orders(cut.pieces(), poles, memory);
        VoltageFit fit = new VoltageFit(cut.pieces(), poles, memory.over(turn), memory);
        return Optional.of(model(fit, orders, smooth, toHz, cleanHz));
    }

    private WaveformReading model(VoltageFit fit, Orders orders, SmoothAngle smooth, double toHz, double cleanHz) {
        double topHz = Math.min(cleanHz, Math.max(toHz, HUM_MULTIPLES[HUM_MULTIPLES.length - 1] * mainsHz));
        MainsClock mains = new MainsClock(mainsHz, orders);
        OptionalDouble seen = mains.find(spectrum(fit, topHz));
        double clock = seen.orElse(mainsHz);
        FitPlan plan = new FitPlan(
                clock, seen.isPresent(), mains.doubtful(), orders, HUM_MULTIPLES, SPEED_MULTIPLES, toHz, cleanHz);
        fit.use(plan.columns());
        fit.settle();
        if (new PhaseFollower(fit, plan).follow()) {
            fit.settle();
        }
        double fromHz = fromHz(smooth);
        LineSearch search = new LineSearch(orders, plan, tachometer.polePairs(), fromHz, toHz);
        RestSpectrum rest = spectrum(fit, topHz);
        boolean alone = seen.isPresent() && isAlone(search, rest, fit);
        FoundResponse response = alone ? new ResponseFinder(fit, orders, smooth, rest).find() : FoundResponse.TRUE;
        plan.use(response);
        if (!response.isTrue()) {
            fit.use(plan.columns());
            fit.settle();
            rest = spectrum(fit, topHz);
        }
        for (int round = 0; round < ROUNDS; round++) {
            LineSearch.Found found = search.find(rest, fit.columns(), largestPercent(fit));
            if (found.lineHz().isEmpty() && found.toneHz().isEmpty()) {
                break;
            }
            plan.add(found);
            fit.use(plan.columns());
            fit.settle();
            rest = spectrum(fit, topHz);
        }
        if (response.isTrue() && fit.bend()) {
            fit.settle();
            fit.bend();
            fit.settle();
            rest = spectrum(fit, topHz);
        }
        return new ModelReader(fit, orders, plan, seen.isPresent(), smooth, fromHz, toHz).read(rest);
    }

    /** Whether beside the lines that are asked nothing of some size swings: else their two parts are not their own. */
    private static boolean isAlone(LineSearch search, RestSpectrum rest, VoltageFit fit) {
        List<Integer> asked = ResponseFinder.asked(fit.columns());
        double largest = 0;
        double other = 0;
        for (int j = 0; j < fit.columns().lineHz().size(); j++) {
            double percent = largestPercent(fit, j);
            if (asked.contains(j)) {
                largest = Math.max(largest, percent);
            } else {
                other = Math.max(other, percent);
            }
        }
        other = Math.max(other, search.largestOther(rest, fit.columns().only(asked)));
        return other < OTHER_SHARE * largest;
    }

    /** Lowest frequency of which the smooth angle leaves enough. */
    private static double fromHz(SmoothAngle smooth) {
        double hz = LOWEST_HZ;
        while (1 - smooth.gain(hz) < LEAST_LEFT) {
            hz *= 1.02;
        }
        return hz;
    }

    private static double largestPercent(VoltageFit fit) {
        double largest = 0;
        for (int j = 0; j < fit.columns().lineHz().size(); j++) {
            largest = Math.max(largest, largestPercent(fit, j));
        }
        return largest;
    }

    private static double largestPercent(VoltageFit fit, int line) {
        double largest = 0;
        for (int p = 0; p < fit.pieces().size(); p++) {
            largest = Math.max(largest, 100 * Math.hypot(fit.line(p, line, 0), fit.line(p, line, 1)));
        }
        return largest;
    }

    private static RestSpectrum spectrum(VoltageFit fit, double topHz) {
        return RestSpectrum.of(fit.pieces(), fit.turn(), fit.rests(), topHz);
    }
}
