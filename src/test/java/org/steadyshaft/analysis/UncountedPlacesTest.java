package org.steadyshaft.analysis;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.steadyshaft.blip.RecorderFault;
import org.steadyshaft.signal.CycleTimes;
import org.steadyshaft.signal.Stretch;

/** Where the cycles are not counted: a slip and an open lead always, a burst of noise only where the count across it is off. */
class UncountedPlacesTest {
    private static final double CYCLE = 0.01;

    /** @param slip cycles by which the row is early from 2 s on */
    private static CycleTimes cycles(double slip) {
        CycleTimes.Builder cycles = new CycleTimes.Builder();
        for (int i = 0; i < 400; i++) {
            cycles.add(CYCLE * (i + (i < 200 ? 0 : slip)));
        }
        return cycles.build();
    }

    private static List<Stretch> places(double slip, RecorderFault.Kind kind) {
        Stretch where = new Stretch(1.95, 2.05);
        return new UncountedPlaces(cycles(slip)).of(List.of(new RecorderFault(kind, where, 0)));
    }

    private static void assertLeftOut(List<Stretch> places) {
        assertEquals(1, places.size());
        assertEquals(1.92, places.get(0).fromSeconds(), 1e-3);
        assertEquals(2.08, places.get(0).toSeconds(), 1e-3);
    }

    @Test
    void aSlipAndAnOpenLeadAreLeftOut() {
        assertLeftOut(places(0, RecorderFault.Kind.SAMPLES_LOST));
        assertLeftOut(places(0, RecorderFault.Kind.LEAD_OPEN));
    }

    @Test
    void aBurstIsLeftOutWhereTheCountIsOff() {
        assertEquals(List.of(), places(0, RecorderFault.Kind.NOISE_BURST));
        assertEquals(List.of(), places(0.05, RecorderFault.Kind.NOISE_BURST));
        assertLeftOut(places(-0.4, RecorderFault.Kind.NOISE_BURST));
        assertLeftOut(places(0.4, RecorderFault.Kind.CONTACT));
    }

    @Test
    void aStepOfTheLevelIsCounted() {
        assertEquals(List.of(), places(0.4, RecorderFault.Kind.LEVEL_STEP));
    }
}
