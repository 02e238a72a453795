package org.steadyshaft.numeric;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.steadyshaft.Thorough;

/**
 * How often the 95 % interval of the mean of an autoregressive series holds the true mean, 0.
 *
 * <p>Blocks of six correlation times. 1600 runs a case when thorough, standard error 0.6 %; 499 replicates each. Measured with the seeds below: the
 * widened interval covers 92.8 to 94.1 %, the plain one 85.9 (six blocks) to 92.9 %; with the measured correlation time of 1000
 * values the widened one covers 93.7 to 94.9 %. What is missing from 95 % is mostly the likeness lost between blocks.
 */
class BlockBootstrapTruthTest {
    private static final int RUNS = Thorough.count(400, 1600);
    private static final int BLOCK_TIMES = 6;

    @ParameterizedTest
    @CsvSource({"0.7, 1000", "0.7, 400", "0.7, 200", "0.9, 2000", "0.5, 200"})
    void knownCorrelationTime(double phi, int count) {
        int block = (int) Math.round(BLOCK_TIMES * AutoregressiveSeries.timeSamples(phi));
        Random random = new Random(23);
        int plain = 0;
        int widened = 0;
        int student = 0;
        for (int run = 0; run < RUNS; run++) {
            BootstrapReplicates made = resampled(AutoregressiveSeries.of(phi, count, random), block, random);
            plain += made.percentileInterval(0.95).holds(0) ? 1 : 0;
            widened += made.widenedInterval(0.95).holds(0) ? 1 : 0;
            student += made.asMeanEstimate().interval(0.95).holds(0) ? 1 : 0;
        }
        covers(widened, "widened");
        covers(student, "Student's");
        assertTrue(plain < widened, plain + " plain, " + widened + " widened intervals hold the truth, seed 23");
    }

    /** The blocks chosen by the correlation time of each series itself. */
    @ParameterizedTest
    @ValueSource(doubles = {0, 0.5, 0.7, 0.9})
    void measuredCorrelationTime(double phi) {
        Random random = new Random(29);
        int widened = 0;
        for (int run = 0; run < RUNS; run++) {
            double[] values = AutoregressiveSeries.of(phi, 1000, random);
            int block = (int) Math.ceil(BLOCK_TIMES * CorrelationTime.of(values).timeSamples());
            BootstrapReplicates made = resampled(values, Math.min(block, values.length / 2), random);
            widened += made.widenedInterval(0.95).holds(0) ? 1 : 0;
        }
        covers(widened, "widened, phi " + phi);
    }

    private static BootstrapReplicates resampled(double[] values, int block, Random random) {
        return new BlockBootstrap(block, 499, random.nextLong()).resample(values, BootstrapPublishedTest::mean);
    }

    private static void covers(int held, String what) {
        double percent = 100.0 * held / RUNS;
        double scatter = 200 * Math.sqrt(0.95 * 0.05 / RUNS);
        assertTrue(
                percent >= 93 - scatter && percent <= 96.5 + scatter,
                percent + " % of the intervals hold the truth: " + what);
    }

    /** Mean of the correlation times of 400 series of 200 times' length, within 8 % of (1 + phi) / (1 - phi). */
    @ParameterizedTest
    @ValueSource(doubles = {0, 0.5, 0.7, 0.9})
    void correlationTime(double phi) {
        double truth = AutoregressiveSeries.timeSamples(phi);
        Random random = new Random(31);
        Moments times = new Moments();
        for (int run = 0; run < 400; run++) {
            double[] values = AutoregressiveSeries.of(phi, (int) Math.max(1000, 200 * truth), random);
            times.add(CorrelationTime.of(values).timeSamples());
        }
        assertEquals(truth, times.mean(), 0.08 * truth, "seed 31");
    }
}
