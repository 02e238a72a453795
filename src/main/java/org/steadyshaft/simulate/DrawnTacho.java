package org.steadyshaft.simulate;

import java.util.List;
import java.util.OptionalDouble;
import java.util.Random;
import org.steadyshaft.signal.BlockReader;
import org.steadyshaft.signal.DoubleSeries;
import org.steadyshaft.signal.SampleFormat;
import org.steadyshaft.signal.SampleSource;
import org.steadyshaft.signal.Tachometer;

/**
 * The voltage of a tacho at a drawn speed, as an ideal recorder with a wrong clock would sample it. The shaft's angle is
 * the speed integrated over time; poles unevenly spaced turn angle into phase piece by piece; amplitude is proportional to
 * speed; harmonics, mains pick-up and white noise are added. Same settings, same samples.
 */
public final class DrawnTacho implements SampleSource {
    /**
     * Everything about the tacho and the recording but the speed.
     *
     * @param tachometer cycles a turn
     * @param pitchDeviationPercent one for each pole pair, or none; their sum is 0
     * @param peakAtThousandRpm amplitude at 1000 rpm, in the unit of the samples
     * @param second amplitude of the second harmonic over the fundamental
     * @param third amplitude of the third harmonic over the fundamental
     * @param humPeak amplitude of the mains pick-up
     * @param mainsHz its frequency
     * @param noiseRms white noise
     * @param sampleRateHz rate that the recorder claims
     * @param clockErrorPpm how much faster the recorder really samples
     * @param durationSeconds length by the recorder's clock
     * @param seed of the noise
     */
    public record Settings(
            Tachometer tachometer,
            DoubleSeries pitchDeviationPercent,
            double peakAtThousandRpm,
            double second,
            double third,
            double humPeak,
            double mainsHz,
            double noiseRms,
            double sampleRateHz,
            double clockErrorPpm,
            double durationSeconds,
            long seed) {
        /** A clean tacho of 8 evenly spaced pole pairs with 0.5 at 1000 rpm, recorded without noise. */
        public static Settings clean(double sampleRateHz, double durationSeconds) {
            return new Settings(
                    new Tachometer(8),
                    DoubleSeries.EMPTY,
                    0.5,
                    0.02,
                    0.05,
                    0,
                    50,
                    0,
                    sampleRateHz,
                    0,
                    durationSeconds,
                    1);
        }

        public Settings withTachometer(Tachometer other) {
            return new Settings(
                    other,
                    pitchDeviationPercent,
                    peakAtThousandRpm,
                    second,
                    third,
                    humPeak,
                    mainsHz,
                    noiseRms,
                    sampleRateHz,
                    clockErrorPpm,
                    durationSeconds,
                    seed);
        }

        public Settings withPattern(double... deviationPercent) {
            return new Settings(
                    tachometer,
                    DoubleSeries.of(deviationPercent),
                    peakAtThousandRpm,
                    second,
                    third,
                    humPeak,
                    mainsHz,
                    noiseRms,
                    sampleRateHz,
                    clockErrorPpm,
                    durationSeconds,
                    seed);
        }

        public Settings withShape(double peak, double secondShare, double thirdShare) {
            return new Settings(
                    tachometer,
                    pitchDeviationPercent,
                    peak,
                    secondShare,
                    thirdShare,
                    humPeak,
                    mainsHz,
                    noiseRms,
                    sampleRateHz,
                    clockErrorPpm,
                    durationSeconds,
                    seed);
        }

        public Settings withHum(double peak, double hz) {
            return new Settings(
                    tachometer,
                    pitchDeviationPercent,
                    peakAtThousandRpm,
                    second,
                    third,
                    peak,
                    hz,
                    noiseRms,
                    sampleRateHz,
                    clockErrorPpm,
                    durationSeconds,
                    seed);
        }

        public Settings withNoise(double rms, long noiseSeed) {
            return new Settings(
                    tachometer,
                    pitchDeviationPercent,
                    peakAtThousandRpm,
                    second,
                    third,
                    humPeak,
                    mainsHz,
                    rms,
                    sampleRateHz,
                    clockErrorPpm,
                    durationSeconds,
                    noiseSeed);
        }

        public Settings withClockError(double ppm) {
            return new Settings(
                    tachometer,
                    pitchDeviationPercent,
                    peakAtThousandRpm,
                    second,
                    third,
                    humPeak,
                    mainsHz,
                    noiseRms,
                    sampleRateHz,
                    ppm,
                    durationSeconds,
                    seed);
        }
    }

    private final String name;
    private final DrawnSpeed speed;
    private final Settings settings;

    public DrawnTacho(String name, DrawnSpeed speed, Settings settings) {
        this.name = name;
        this.speed = speed;
        this.settings = settings;
    }

    @Override
    public String name() {
        return name;
    }

    @Override
    public double sampleRateHz() {
        return settings.sampleRateHz();
    }

    @Override
    public long samples() {
        return Math.round(settings.durationSeconds() * settings.sampleRateHz());
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
        private final Random noise = new Random(settings.seed());
        private final double stepSeconds = 1 / (settings.sampleRateHz() * (1 + settings.clockErrorPpm() * 1e-6));
        private long sample;
        private double turns;
        private double rpm = speed.rpm(0);

        @Override
        public int read(double[][] block) {
            int count = (int) Math.min(block[0].length, samples() - sample);
            for (int i = 0; i < count; i++) {
                block[0][i] = volts(sample * stepSeconds);
                sample++;
                double next = speed.rpm(sample * stepSeconds);
                turns += 0.5 * (rpm + next) / 60 * stepSeconds;
                rpm = next;
            }
            return count;
        }

        private double volts(double timeSeconds) {
            double phase = 2 * Math.PI * cycles(turns);
            double peak = settings.peakAtThousandRpm() * rpm / 1000;
            double wave = Math.sin(phase)
                    + settings.second() * Math.sin(2 * phase + 0.7)
                    + settings.third() * Math.sin(3 * phase + 0.3);
            double hum = settings.humPeak() * Math.sin(2 * Math.PI * settings.mainsHz() * timeSeconds + 1.1);
            double rough = settings.noiseRms() > 0 ? settings.noiseRms() * noise.nextGaussian() : 0;
            return peak * wave + hum + rough;
        }

        /** Cycles of the tacho after so many turns: each pole pair takes its own share of the turn. */
        private double cycles(double allTurns) {
            int poles = settings.tachometer().polePairs();
            if (settings.pitchDeviationPercent().isEmpty()) {
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
            return 1 + settings.pitchDeviationPercent().get(pole) / 100;
        }

        @Override
        public void close() {
            // nothing is held open
        }
    }
}
