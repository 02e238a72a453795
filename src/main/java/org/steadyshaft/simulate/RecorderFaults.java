package org.steadyshaft.simulate;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import org.steadyshaft.signal.AlteredSource;
import org.steadyshaft.signal.BlockReader;
import org.steadyshaft.signal.SampleSource;

/**
 * What goes wrong between a tacho and its file: bursts of noise, a contact that crackles or opens, steps of level, offset and pick-up, samples
 * that are lost or written twice. The clock's faults fall on all channels, the others on the first. One pass. Times are those of the source; what is lost or doubled moves what comes
 * after it in the file. Same faults and seed, same samples.
 */
public final class RecorderFaults extends AlteredSource {
    /** Kinds of faults; {@link Fault#size()} means something else for each. */
    public enum Kind {
        /** White noise; size is its rms [V]. */
        NOISE_BURST,
        /** Only a share of the voltage comes through; size is that share, 0 to 1. */
        CRACKLE,
        /** Nothing comes through but noise; size is its rms [V]. */
        OPEN_LEAD,
        /** From here on the voltage is larger by this share of itself; size above -1. */
        LEVEL_STEP,
        /** From here on so much is added [V]. */
        OFFSET_STEP,
        /** From here on a sine at the mains with this peak is added [V]. */
        HUM_STEP,
        /** So many samples are missing. */
        LOST_SAMPLES,
        /** The last so many samples stand there twice. */
        DOUBLED_SAMPLES;

        /** The word used in scenario and truth files. */
        public String word() {
            return name().toLowerCase(Locale.ROOT).replace('_', '-');
        }

        private boolean isOfTheClock() {
            return this == LOST_SAMPLES || this == DOUBLED_SAMPLES;
        }
    }

    /**
     * One fault.
     *
     * @param atSeconds when it begins; 0 or more
     * @param lengthSeconds how long it lasts; a step lasts to the end and losses have no length
     * @param size see {@link Kind}
     */
    public record Fault(Kind kind, double atSeconds, double lengthSeconds, double size) {
        public Fault {
            if (!(atSeconds >= 0) || !(lengthSeconds >= 0) || !Double.isFinite(size)) {
                throw new IllegalArgumentException(kind.word() + " at " + atSeconds + " s of " + lengthSeconds
                        + " s and size " + size + "; expected times from 0 on and a size");
            }
            boolean fits = switch (kind) {
                case NOISE_BURST, OPEN_LEAD -> size >= 0;
                case CRACKLE -> size >= 0 && size <= 1;
                case LEVEL_STEP -> size > -1;
                case OFFSET_STEP, HUM_STEP -> true;
                case LOST_SAMPLES, DOUBLED_SAMPLES -> size >= 1 && size <= MOST_SAMPLES;
            };
            if (!fits) {
                throw new IllegalArgumentException(kind.word() + " of size " + size + " is out of its range");
            }
        }
    }

    /** More than ten seconds at a usual rate is another recording. */
    private static final int MOST_SAMPLES = 1_000_000;

    private static final int BLOCK_SAMPLES = 4096;

    private final List<Fault> faults;
    private final double mainsHz;
    private final long seed;

    /**
     * @param volts whose first channel is the tacho
     * @param mainsHz frequency of the pick-up
     * @param seed of the noise
     */
    public RecorderFaults(SampleSource volts, List<Fault> faults, double mainsHz, long seed) {
        super(volts);
        List<Fault> inOrder = new ArrayList<>(faults);
        inOrder.sort(Comparator.comparingDouble(Fault::atSeconds));
        this.faults = List.copyOf(inOrder);
        this.mainsHz = mainsHz;
        this.seed = seed;
    }

    @Override
    public long samples() {
        long samples = source.samples();
        for (Fault fault : faults) {
            long at = first(fault);
            if (fault.kind == Kind.LOST_SAMPLES) {
                samples -= Math.max(0, Math.min(source.samples(), at + (long) fault.size) - at);
            } else if (fault.kind == Kind.DOUBLED_SAMPLES && at < source.samples()) {
                samples += (long) fault.size;
            }
        }
        return samples;
    }

    private long first(Fault fault) {
        return Math.min(source.samples(), Math.round(fault.atSeconds * sampleRateHz()));
    }

    @Override
    public BlockReader open() throws IOException {
        return new Reader(source.open());
    }

    private final class Reader implements BlockReader {
        private final BlockReader in;
        private final double[][] raw = new double[channels()][BLOCK_SAMPLES];
        private final Random noise = new Random(seed ^ 0x5DEECE66DL);
        private final double[][] last;
        private int filled;
        private int used;
        private long sample;
        private long written;
        private long toRepeat;
        private int repeatFrom;
        private long toSkip;
        private int nextOfClock;

        Reader(BlockReader in) {
            this.in = in;
            double longest = faults.stream()
                    .filter(f -> f.kind == Kind.DOUBLED_SAMPLES)
                    .mapToDouble(Fault::size)
                    .max()
                    .orElse(0);
            this.last = new double[Math.max(1, (int) longest)][channels()];
        }

        @Override
        public int read(double[][] block) throws IOException {
            int count = 0;
            while (count < block[0].length) {
                if (toRepeat > 0) {
                    put(last[repeatFrom++ % last.length], block, count++);
                    toRepeat--;
                    continue;
                }
                if (used == filled) {
                    filled = in.read(raw);
                    used = 0;
                    if (filled == 0) {
                        return count;
                    }
                }
                beginOfClock();
                if (toRepeat > 0) {
                    continue;
                }
                double[] values = last[(int) (written % last.length)];
                double tacho = bent(raw[0][used]);
                sample++;
                used++;
                if (toSkip > 0) {
                    toSkip--;
                    continue;
                }
                written++;
                values[0] = tacho;
                for (int c = 1; c < values.length; c++) {
                    values[c] = raw[c][used - 1];
                }
                put(values, block, count++);
            }
            return count;
        }

        private static void put(double[] values, double[][] block, int at) {
            for (int c = 0; c < values.length; c++) {
                block[c][at] = values[c];
            }
        }

        /** What is lost or doubled at the sample that comes next. */
        private void beginOfClock() {
            while (nextOfClock < faults.size()
                    && (!faults.get(nextOfClock).kind.isOfTheClock() || first(faults.get(nextOfClock)) <= sample)) {
                Fault fault = faults.get(nextOfClock++);
                if (fault.kind == Kind.LOST_SAMPLES) {
                    toSkip += (long) fault.size;
                } else if (fault.kind == Kind.DOUBLED_SAMPLES) {
                    toRepeat = (long) fault.size;
                    repeatFrom = (int) (Math.floorMod(written - toRepeat, (long) last.length));
                    return;
                }
            }
        }

        /** What the faults make of the next sample. */
        private double bent(double value) {
            double bent = value;
            for (Fault fault : faults) {
                if (first(fault) > sample) {
                    break;
                }
                boolean lasts = sample < Math.round((fault.atSeconds + fault.lengthSeconds) * sampleRateHz());
                switch (fault.kind) {
                    case NOISE_BURST -> bent += lasts ? fault.size * noise.nextGaussian() : 0;
                    case CRACKLE -> bent *= lasts ? fault.size : 1;
                    case OPEN_LEAD -> bent = lasts ? fault.size * noise.nextGaussian() : bent;
                    case LEVEL_STEP -> bent *= 1 + fault.size;
                    case OFFSET_STEP -> bent += fault.size;
                    case HUM_STEP -> bent += fault.size * Math.sin(2 * Math.PI * mainsHz * sample / sampleRateHz());
                    case LOST_SAMPLES, DOUBLED_SAMPLES -> {
                        // done where they begin
                    }
                }
            }
            return bent;
        }

        @Override
        public void close() throws IOException {
            in.close();
        }
    }
}
