package org.steadyshaft.simulate;

import java.util.List;
import java.util.OptionalDouble;
import java.util.Random;
import java.util.Set;
import java.util.function.DoubleUnaryOperator;
import org.steadyshaft.signal.BlockReader;
import org.steadyshaft.signal.DoubleSeries;
import org.steadyshaft.signal.SampleFormat;
import org.steadyshaft.signal.SampleSource;
import org.steadyshaft.signal.Tachometer;

/**
 * The voltage of a tacho on a shaft of known angle, as a recorder with a wrong clock samples it. Poles unevenly spaced turn
 * angle into phase piece by piece; the amplitude is proportional to speed and swings once a turn where the magnet is not
 * centred; harmonics, mains pick-up, switching spikes at given times and white noise are added. Same settings, same samples.
 */
public final class DrawnTacho implements SampleSource {
    /** Everything about the tacho and the recording but the shaft. Immutable: each {@code with} gives another. */
    public static final class Settings {
        private Tachometer tachometer = new Tachometer(8);
        private DoubleSeries pitchDeviationPercent = DoubleSeries.EMPTY;
        private double peakAtThousandRpm = 0.5;
        private double second = 0.02;
        private double third = 0.05;
        private double eccentricityPercent;
        private double humPeak;
        private DoubleUnaryOperator unitMains = t -> 0;
        private Set<Integer> missing = Set.of();
        private double noiseRms;
        private double spikePeak;
        private DoubleSeries spikeSeconds = DoubleSeries.EMPTY;
        private final double sampleRateHz;
        private double clockErrorPpm;
        private double clockDriftPpm;
        private final double durationSeconds;
        private long seed = 1;

        private Settings(double sampleRateHz, double durationSeconds) {
            this.sampleRateHz = sampleRateHz;
            this.durationSeconds = durationSeconds;
        }

        /**
         * A clean tacho of 8 evenly spaced pole pairs with 0.5 at 1000 rpm, recorded without noise.
         *
         * @param sampleRateHz rate that the recorder claims
         * @param durationSeconds length by the recorder's clock
         */
        public static Settings clean(double sampleRateHz, double durationSeconds) {
            return new Settings(sampleRateHz, durationSeconds);
        }

        private Settings copy() {
            Settings copy = new Settings(sampleRateHz, durationSeconds);
            copy.tachometer = tachometer;
            copy.pitchDeviationPercent = pitchDeviationPercent;
            copy.peakAtThousandRpm = peakAtThousandRpm;
            copy.second = second;
            copy.third = third;
            copy.eccentricityPercent = eccentricityPercent;
            copy.humPeak = humPeak;
            copy.unitMains = unitMains;
            copy.missing = missing;
            copy.noiseRms = noiseRms;
            copy.spikePeak = spikePeak;
            copy.spikeSeconds = spikeSeconds;
            copy.clockErrorPpm = clockErrorPpm;
            copy.clockDriftPpm = clockDriftPpm;
            copy.seed = seed;
            return copy;
        }

        public Settings withTachometer(Tachometer other) {
            Settings copy = copy();
            copy.tachometer = other;
            return copy;
        }

        /** @param deviationPercent one for each pole pair, or none; their sum is 0 */
        public Settings withPattern(double... deviationPercent) {
            Settings copy = copy();
            copy.pitchDeviationPercent = DoubleSeries.of(deviationPercent);
            return copy;
        }

        /**
         * @param peak amplitude at 1000 rpm, in the unit of the samples
         * @param secondShare amplitude of the second harmonic over the fundamental
         * @param thirdShare amplitude of the third harmonic over the fundamental
         */
        public Settings withShape(double peak, double secondShare, double thirdShare) {
            Settings copy = copy();
            copy.peakAtThousandRpm = peak;
            copy.second = secondShare;
            copy.third = thirdShare;
            return copy;
        }

        /** @param percent by how much the amplitude swings once a turn */
        public Settings withEccentricity(double percent) {
            Settings copy = copy();
            copy.eccentricityPercent = percent;
            return copy;
        }

        public Settings withHum(double peak, double hz) {
            return withHum(peak, t -> Math.sin(2 * Math.PI * hz * t + 1.1));
        }

        /**
         * Pick-up of mains that may swing and step.
         *
         * @param unit the mains over their nominal peak, by time
         */
        public Settings withHum(double peak, DoubleUnaryOperator unit) {
            Settings copy = copy();
            copy.humPeak = peak;
            copy.unitMains = unit;
            return copy;
        }

        /** @param poles pole pairs, from 0 on, that give no voltage: teeth that are missing, magnets that fell off */
        public Settings withMissing(Set<Integer> poles) {
            Settings copy = copy();
            copy.missing = Set.copyOf(poles);
            return copy;
        }

        /** White noise. */
        public Settings withNoise(double rms, long noiseSeed) {
            Settings copy = copy();
            copy.noiseRms = rms;
            copy.seed = noiseSeed;
            return copy;
        }

        /** @param times increasing, of the switching instants */
        public Settings withSpikes(double peak, DoubleSeries times) {
            Settings copy = copy();
            copy.spikePeak = peak;
            copy.spikeSeconds = times;
            return copy;
        }

        /** @param ppm how much faster than it claims the recorder samples */
        public Settings withClockError(double ppm) {
            Settings copy = copy();
            copy.clockErrorPpm = ppm;
            return copy;
        }

        /** @param ppmPerMinute by how much the clock grows faster, as it does while it warms */
        public Settings withClockDrift(double ppmPerMinute) {
            Settings copy = copy();
            copy.clockDriftPpm = ppmPerMinute;
            return copy;
        }

        public Tachometer tachometer() {
            return tachometer;
        }

        public double durationSeconds() {
            return durationSeconds;
        }
    }

    private final String name;
    private final ShaftAngle shaft;
    private final Settings settings;

    public DrawnTacho(String name, ShaftAngle shaft, Settings settings) {
        this.name = name;
        this.shaft = shaft;
        this.settings = settings;
    }

    @Override
    public String name() {
        return name;
    }

    @Override
    public double sampleRateHz() {
        return settings.sampleRateHz;
    }

    @Override
    public long samples() {
        return Math.round(settings.durationSeconds * settings.sampleRateHz);
    }

    @Override
    public int channels() {
        return 1;
    }

    @Override
    public String channelName(int channel) {
        return "1";
    }

    @Override
    public SampleFormat format() {
        return new SampleFormat(
                "simulated",
                "numbers",
                "V",
                OptionalDouble.empty(),
                OptionalDouble.empty(),
                SampleFormat.RecorderKind.SOUND_CARD);
    }

    @Override
    public List<String> remarks() {
        return List.of();
    }

    @Override
    public BlockReader open() {
        return new Reader();
    }

    private final class Reader implements BlockReader {
        /** A switching spike rings at some kilohertz and is gone in a fraction of a millisecond (common practice). */
        private static final double SPIKE_HZ = 4000;

        private static final double SPIKE_SECONDS = 0.0002;

        private final Random noise = new Random(settings.seed);
        private final double stepSeconds = 1 / (settings.sampleRateHz * (1 + settings.clockErrorPpm * 1e-6));
        private long sample;
        private int spike = -1;

        @Override
        public int read(double[][] block) {
            int count = (int) Math.min(block[0].length, samples() - sample);
            for (int i = 0; i < count; i++) {
                block[0][i] = volts(seconds(sample++));
            }
            return count;
        }

        /** Time of a sample: a clock that grows faster takes it a little earlier. */
        private double seconds(long number) {
            double even = number * stepSeconds;
            return even * (1 - 0.5e-6 * settings.clockDriftPpm * even / 60);
        }

        private double volts(double timeSeconds) {
            double turns = shaft.turns(timeSeconds);
            double cycles = cycles(turns);
            double phase = 2 * Math.PI * cycles;
            double off = settings.eccentricityPercent / 100 * Math.cos(2 * Math.PI * turns);
            double peak = settings.peakAtThousandRpm * shaft.rpm(timeSeconds) / 1000 * (1 + off);
            double wave = Math.sin(phase)
                    + settings.second * Math.sin(2 * phase + 0.7)
                    + settings.third * Math.sin(3 * phase + 0.3);
            double hum = settings.humPeak == 0 ? 0 : settings.humPeak * settings.unitMains.applyAsDouble(timeSeconds);
            double rough = settings.noiseRms > 0 ? settings.noiseRms * noise.nextGaussian() : 0;
            int pole = (int) Math.floorMod((long) Math.floor(cycles), (long) settings.tachometer.polePairs());
            double seen = settings.missing.contains(pole) ? 0 : peak * wave;
            return seen + hum + rough + spike(timeSeconds);
        }

        private double spike(double timeSeconds) {
            while (spike + 1 < settings.spikeSeconds.size() && settings.spikeSeconds.get(spike + 1) <= timeSeconds) {
                spike++;
            }
            if (spike < 0 || settings.spikePeak == 0) {
                return 0;
            }
            double since = timeSeconds - settings.spikeSeconds.get(spike);
            return settings.spikePeak * Math.exp(-since / SPIKE_SECONDS) * Math.cos(2 * Math.PI * SPIKE_HZ * since);
        }

        /** Cycles of the tacho after so many turns: each pole pair takes its own share of the turn. */
        private double cycles(double allTurns) {
            int poles = settings.tachometer.polePairs();
            if (settings.pitchDeviationPercent.isEmpty()) {
                return allTurns * poles;
            }
            double whole = Math.floor(allTurns);
            double left = (allTurns - whole) * poles;
            int pole = 0;
            double pitch = pitch(0);
            while (pole < poles - 1 && left >= pitch) {
                left -= pitch;
                pitch = pitch(++pole);
            }
            return whole * poles + pole + left / pitch;
        }

        private double pitch(int pole) {
            return 1 + settings.pitchDeviationPercent.get(pole) / 100;
        }

        @Override
        public void close() {
            // nothing is held open
        }
    }
}
