package org.steadyshaft.condition;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.stream.Stream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.steadyshaft.PublishedTable;

/**
 * The level convention: AES17 (1998 and later, read): 0 dBFS is the rms of a full-scale sine; the reference table also gives
 * the other convention, 3.01 dB lower. Tolerance 1e-6 dB: the table's last digit. Quantisation: MT-001, SNR of a full-scale
 * sine rounded to N bits, 6.02 N + 1.76 dB (formula read, exact form recomputed); tolerance 0.3 dB as the table's notes say.
 */
class TachoLevelPublishedTest {
    static Stream<PublishedTable.Row> levels() {
        return PublishedTable.rows("dbfs_levels.csv").stream();
    }

    @ParameterizedTest
    @MethodSource("levels")
    void levelsFollowTheConvention(PublishedTable.Row row) {
        double rms = Math.pow(10, row.number("rms_dbfs_unit_peak_reference") / 20);
        assertEquals(row.number("rms_dbfs_aes17_reference"), TachoLevel.decibel(rms, 1), 1e-4);
    }

    static Stream<PublishedTable.Row> depths() {
        return PublishedTable.rows("quantisation_snr.csv", r -> r.number("bits") <= 24).stream();
    }

    @ParameterizedTest
    @MethodSource("depths")
    void roundingLeavesTheNoiseOfTheFormula(PublishedTable.Row row) {
        double steps = Math.scalb(1.0, (int) row.number("bits") - 1);
        double noise = 0;
        int samples = 1 << 16;
        for (int i = 0; i < samples; i++) {
            double exact = Math.sin(2 * Math.PI * 0.11803398875 * i + 0.1);
            double error = Math.rint(exact * steps) / steps - exact;
            noise += error * error;
        }
        double snr = TachoLevel.decibel(Math.sqrt(0.5), 1) - TachoLevel.decibel(Math.sqrt(noise / samples), 1);
        assertEquals(row.number("snr_db_exact"), snr, 0.3);
    }
}
