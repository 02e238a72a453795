package org.steadyshaft.compare;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.TreeSet;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class SpeedBandTest {
    private static final int HIGHEST_RPM = 30000;

    @Test
    void every_speed_lies_in_its_band_and_in_no_other() {
        TreeSet<SpeedBand> bands = new TreeSet<>();
        for (int tenths = 10; tenths <= 10 * HIGHEST_RPM; tenths++) {
            double rpm = 0.1 * tenths;
            SpeedBand band = SpeedBand.of(rpm);
            assertTrue(band.contains(rpm), rpm + " rpm in " + band);
            bands.add(band);
        }
        for (SpeedBand band : bands) {
            assertEquals(
                    1, bands.stream().filter(b -> b.contains(band.fromRpm())).count(), band.toString());
        }
        // log10(30000) = 4.477 decades of eight bands: 35 whole ones and a part
        assertEquals(36, bands.size());
    }

    @Test
    void bands_join_without_a_gap_at_the_very_bits() {
        SpeedBand band = SpeedBand.of(1);
        assertEquals(1, band.fromRpm());
        int steps = 0;
        while (band.toRpm() <= HIGHEST_RPM) {
            SpeedBand next = SpeedBand.of(band.toRpm());
            assertEquals(band.toRpm(), next.fromRpm(), band + " and " + next);
            assertEquals(Math.pow(10, 0.125), next.toRpm() / next.fromRpm(), 1e-12);
            assertEquals(band, SpeedBand.of(Math.nextDown(band.toRpm())));
            assertEquals(band, SpeedBand.of(band.fromRpm()));
            assertFalse(band.contains(band.toRpm()));
            assertTrue(band.compareTo(next) < 0);
            band = next;
            steps++;
        }
        assertEquals(35, steps);
    }

    @ParameterizedTest
    @ValueSource(doubles = {1, 10, 100, 1000, 10000})
    void a_decade_begins_a_band(double rpm) {
        assertEquals(rpm, SpeedBand.of(rpm).fromRpm());
        assertEquals(rpm, SpeedBand.of(Math.nextDown(rpm)).toRpm());
    }

    @Test
    void words_are_whole_speeds() {
        assertEquals("562 to 750 rpm", SpeedBand.of(600).words());
    }

    @ParameterizedTest
    @ValueSource(doubles = {0, -1, Double.NaN, Double.POSITIVE_INFINITY})
    void what_is_no_speed_has_no_band(double rpm) {
        assertThrows(IllegalArgumentException.class, () -> SpeedBand.of(rpm));
    }
}
