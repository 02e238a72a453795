package org.steadyshaft.voltage;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.steadyshaft.numeric.Robust;
import org.steadyshaft.signal.KeptWaveform;
import org.steadyshaft.signal.Stretch;

/**
 * The voltage of one turn learnt from a recording, and the recording cut into pieces that are looked at by it. Learnt from at most {@value
 * #MOST_LEARN_SECONDS} s spread over the recording, in rounds: average over the angle, what the angle lacks, average again. Pieces that
 * count from another pole than the first are turned to it before they are joined.
 */
public final class LocalModel {
    /** A piece without its margins. */
    private static final double CORE_SECONDS = 16;

    /** Known on either side of a piece. */
    private static final double MARGIN_SECONDS = 2.5;

    private static final double MOST_LEARN_SECONDS = 64;

    /** Harmonics of the pole pairs held by the turn's voltage. */
    private static final int HARMONICS = 5;

    /** Slow at first, so that hum is not taken for speed. */
    private static final double SLOW_SECONDS = 0.25;

    /** Averaged no longer than this beside pick-up that beats more slowly than the usual average bears. */
    private static final double MOST_SLOW_SECONDS = 0.5;

    private static final double CLEARLY_SLOWER = 1.3;

    /** And only where the level sways by so much of itself, as a beat makes it. */
    private static final double SWAYING = 0.05;

    /** The longer a cell, the more rounds until a sudden change within it is followed and not taken for noise. */
    private static final double ROUND_SECONDS = 0.008;

    private static final int MOST_ROUNDS = 8;

    /**
     * An angle that lacks no more than this anywhere, in radians of the tacho's cycle, is followed: a further round would change it by the
     * square of that.
     */
    private static final double FOLLOWED = 0.05;

    private static final double SHORT_CELL_SECONDS = 0.012;

    private final KeptWaveform waveform;
    private final RoughAngle rough;
    private final double mainsHz;
    private final TurnVoltage turn;

    private LocalModel(KeptWaveform waveform, RoughAngle rough, double mainsHz, TurnVoltage turn) {
        this.waveform = waveform;
        this.rough = rough;
        this.mainsHz = mainsHz;
        this.turn = turn;
    }

    /** A part of the recording: samples with margins, and the core that counts. */
    public record Part(int stretch, long first, int samples, Stretch core) {}

    /** Learns the model; empty where too little turned. */
    public static Optional<LocalModel> learn(KeptWaveform waveform, RoughAngle rough, double mainsHz)
            throws IOException {
        List<Part> parts = parts(waveform, rough);
        List<VoltagePiece> pieces = new ArrayList<>();
        for (Part part : chosen(parts)) {
            pieces.add(VoltagePiece.read(waveform, rough, part.stretch, part.first, part.samples));
        }
        if (pieces.isEmpty()) {
            return Optional.empty();
        }
        int orders = orders(waveform, rough, pieces);
        Optional<TurnVoltage> turn = new TurnLearner(pieces, orders).learn(true);
        if (turn.isEmpty()) {
            return Optional.empty();
        }
        for (int round = 0; round < 3; round++) {
            for (VoltagePiece piece : pieces) {
                piece.look(turn.get());
                piece.fit();
                if (round == 1) {
                    new PieceHum(piece, mainsHz, waveform.cleanHz()).remove();
                    piece.fit();
                }
                piece.refine(round == 0 ? SLOW_SECONDS : piece.cellSeconds());
            }
            turn = new TurnLearner(pieces, orders).learn(false);
            if (turn.isEmpty()) {
                return Optional.empty();
            }
        }
        return Optional.of(new LocalModel(waveform, rough, mainsHz, turn.get()));
    }

    /** Orders up to the fifth harmonic, as far as the waveform holds them at the highest speed looked at. */
    private static int orders(KeptWaveform waveform, RoughAngle rough, List<VoltagePiece> pieces) {
        double fastest = pieces.stream()
                .mapToDouble(VoltagePiece::meanAngularSpeed)
                .max()
                .orElse(1);
        double held = 0.9 * waveform.cleanHz() * 2 * Math.PI / fastest;
        return (int) Math.max(rough.polePairs(), Math.min(HARMONICS * rough.polePairs() + rough.polePairs() / 2, held));
    }

    /** The parts of the recording in which the shaft turned, fixed by position. */
    public List<Part> parts() {
        return parts(waveform, rough);
    }

    private static List<Part> parts(KeptWaveform waveform, RoughAngle rough) {
        List<Part> parts = new ArrayList<>();
        List<Stretch> known = rough.known();
        double end = waveform.durationSeconds();
        for (int s = 0; s < known.size(); s++) {
            double from = Math.max(0, known.get(s).fromSeconds());
            double to = Math.min(end, known.get(s).toSeconds());
            int count = (int) Math.max(1, Math.round((to - from) / CORE_SECONDS));
            for (int i = 0; i < count; i++) {
                double a = from + (to - from) * i / count;
                double b = from + (to - from) * (i + 1) / count;
                long first = waveform.firstNotBefore(Math.max(from, a - MARGIN_SECONDS));
                long last = Math.min(waveform.samples(), waveform.firstNotBefore(Math.min(to, b + MARGIN_SECONDS)));
                if (last - first > 64) {
                    parts.add(new Part(s, first, (int) (last - first), new Stretch(a, b)));
                }
            }
        }
        return parts;
    }

    /** Longest parts first come into question; evenly spread over the recording. */
    private static List<Part> chosen(List<Part> parts) {
        double longest =
                parts.stream().mapToDouble(p -> p.core.durationSeconds()).max().orElse(0);
        List<Part> long_ = parts.stream()
                .filter(p -> p.core.durationSeconds() > 0.5 * longest)
                .toList();
        double each = Math.max(longest, 1e-3);
        int most = (int) Math.min(long_.size(), Math.max(1, Math.round(MOST_LEARN_SECONDS / each)));
        List<Part> chosen = new ArrayList<>();
        for (int i = 0; i < most; i++) {
            chosen.add(long_.get((int) ((long) i * long_.size() / most)));
        }
        return chosen;
    }

    /** A part looked at: hum taken out, the angle refined, fitted place by place. */
    public VoltagePiece look(Part part) throws IOException {
        VoltagePiece piece = VoltagePiece.read(waveform, rough, part.stretch, part.first, part.samples);
        align(piece);
        piece.fit();
        double slow = slowSeconds(piece, SLOW_SECONDS);
        if (!isShort(piece) || piece.mostSlowLack(slow) > FOLLOWED) {
            piece.refine(slow);
            piece.look(turn);
            piece.fit();
        }
        hum(piece);
        refine(piece);
        return piece;
    }

    /**
     * Time over which the angle is averaged so that pick-up is not taken for speed [s]: so long, or longer where it beats slowly, but not so long
     * that the shaft's own wander is lost.
     */
    public double slowSeconds(VoltagePiece piece, double leastSeconds) {
        double beats = new PieceHum(piece, mainsHz, waveform.cleanHz()).beatsAveragedSeconds();
        boolean isLonger = beats > CLEARLY_SLOWER * leastSeconds
                && Robust.sigma(piece.series().levels()) > SWAYING;
        return isLonger ? Math.min(MOST_SLOW_SECONDS, beats) : leastSeconds;
    }

    private void refine(VoltagePiece piece) {
        int rounds = (int) Math.max(2, Math.min(MOST_ROUNDS, Math.round(piece.cellSeconds() / ROUND_SECONDS)));
        for (int round = 0; round < rounds; round++) {
            if (round > 0 && isShort(piece) && piece.mostLack() < FOLLOWED) {
                return;
            }
            piece.refine(piece.cellSeconds());
            piece.look(turn);
            piece.fit();
        }
    }

    /** Whether no sudden change of the speed is over within a cell, so that the angle shows what it lacks. */
    private static boolean isShort(VoltagePiece piece) {
        return piece.cellSeconds() < SHORT_CELL_SECONDS;
    }

    /** Fits the pick-up with the present angle and takes it out. */
    private void hum(VoltagePiece piece) {
        new PieceHum(piece, mainsHz, waveform.cleanHz()).remove();
        piece.fit();
    }

    /**
     * Looks once more, from a given reference angle at every sample: the hum first, then the angle refined.
     *
     * @param cuts times at which samples are missing or double: after each the turn may stand at any pole, and is turned to the one that
     *     explains most
     */
    public void again(VoltagePiece piece, double[] angle, double[] cuts) {
        piece.setAngle(angle, cuts);
        for (int part = 0; cuts.length > 0 && part <= cuts.length; part++) {
            double from = part == 0 ? piece.firstSeconds() : cuts[part - 1];
            double to = part == cuts.length ? piece.timeSeconds(piece.samples()) : cuts[part];
            piece.turnToBestPole(turn, from, to);
        }
        piece.look(turn);
        piece.fit();
        hum(piece);
        refine(piece);
    }

    /** Turns the reference to the pole from which the turn's voltage explains most. */
    private void align(VoltagePiece piece) {
        piece.turnBy(piece.bestPole(turn));
        piece.look(turn);
    }

    public TurnVoltage turn() {
        return turn;
    }

    /** Pick-up that beats more slowly with the tacho [Hz] is left in the pieces. */
    public static double slowestBeatHz() {
        return PieceHum.SLOWEST_BEAT_HZ;
    }

    public double mainsHz() {
        return mainsHz;
    }

    public KeptWaveform waveform() {
        return waveform;
    }
}
