package org.steadyshaft.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.steadyshaft.analysis.Analysed;
import org.steadyshaft.analysis.CaptureLabel;
import org.steadyshaft.analysis.Outcome;
import org.steadyshaft.compare.Needs;
import org.steadyshaft.compare.RunMeter;
import org.steadyshaft.compare.SpeedHeld;
import org.steadyshaft.simulate.DrawnSpeed;
import org.steadyshaft.simulate.DrawnTacho;
import org.steadyshaft.simulate.DrawnTacho.Settings;

/** What a page says first, of drawn captures whose speed is known. */
class MotorVerdictTest {
    private static MotorVerdict of(DrawnSpeed speed, double seconds) {
        Settings settings = Settings.clean(8000, seconds).withNoise(0.003, 5);
        return verdict(Analysed.of(new DrawnTacho("made", speed, settings)));
    }

    /** By the starting points. */
    static MotorVerdict verdict(Outcome outcome) {
        return MotorVerdict.of(outcome, new RunMeter().measure("made", outcome), Needs.startingPoints());
    }

    @Test
    void aSteadyShaftHoldsItsSpeed() {
        MotorVerdict verdict = of(DrawnSpeed.level(907).line(6.3, 0.1, 0.4), 20);
        assertEquals(SpeedHeld.YES, verdict.held(), verdict.words());
        assertTrue(verdict.headline().startsWith("Holds its speed, 907 rpm: no jump of more than"), verdict.words());
        assertTrue(verdict.basis().contains("throwing clay") && verdict.basis().contains("starting points"));
    }

    @Test
    void jumpsAreCountedWithTheirSizeAndTheTime() {
        DrawnSpeed speed = DrawnSpeed.level(907);
        for (double at : new double[] {3, 7.1, 11.4, 15}) {
            speed = speed.blip(at, 0.02, 6, 0.2);
        }
        MotorVerdict verdict = of(speed, 18);
        assertEquals(SpeedHeld.NO, verdict.held(), verdict.words());
        assertTrue(
                verdict.headline()
                        .matches(
                                "Does NOT hold its speed, 9\\d\\d rpm: 4 jumps of about \\+[56].*% in 1\\d s \\(2 a minute allowed\\)\\."),
                verdict.headline());
    }

    @Test
    void oneJumpInAShortTimeIsNotYetTooMany() {
        MotorVerdict verdict = of(DrawnSpeed.level(907).blip(8, 0.02, 6, 0.2), 18);
        assertEquals(SpeedHeld.MOSTLY, verdict.held(), verdict.words());
        assertTrue(verdict.headline().contains("1 jump of +"), verdict.headline());
        assertTrue(verdict.headline().contains("too short a time to say how often"), verdict.headline());
    }

    @Test
    void aScreenOfAScopeIsTooShort() {
        MotorVerdict verdict = of(DrawnSpeed.level(907), 0.3);
        assertEquals(SpeedHeld.CANNOT_TELL, verdict.held(), verdict.words());
        assertTrue(verdict.headline().contains("the recording is too short"), verdict.headline());
        assertFalse(verdict.words().contains("never steady"), verdict.words());
    }

    /** Six seconds from 600 to 9,000 rpm and rising: to ask for a longer recording would be the wrong thing to say. */
    @Test
    void whatOnlyRunsUpIsNotToldToBeTooShort() {
        MotorVerdict verdict = of(DrawnSpeed.level(600).ramp(0, 6, 1400), 5.9);
        assertEquals(SpeedHeld.CANNOT_TELL, verdict.held(), verdict.words());
        assertTrue(verdict.words().contains("never steady, but ran from 6"), verdict.words());
        assertTrue(verdict.words().contains("unplug it before anything else"), verdict.words());
        assertFalse(verdict.words().contains("too short"), verdict.words());
    }

    @Test
    void aRunUpIsNoPartOfWhatIsHeld() {
        MotorVerdict verdict = of(DrawnSpeed.level(300).ramp(1, 16, 200), 40);
        assertTrue(verdict.headline().contains("900 rpm, in the 2"), verdict.words());
        assertTrue(verdict.headline().contains(" s of 40 s that were steady"), verdict.words());
        assertFalse(of(DrawnSpeed.level(907), 20).words().contains("that were steady"));
    }

    @Test
    void aSwingBeyondTheLimitIsToldOnce() {
        MotorVerdict verdict = of(DrawnSpeed.level(907).line(1.3, 3, 0.4), 40);
        assertEquals(SpeedHeld.NO, verdict.held(), verdict.words());
        assertTrue(
                verdict.headline().contains("swings by 2") || verdict.headline().contains("hunts"), verdict.headline());
    }

    @Test
    void whatGivesNoSpeedCannotBeTold() {
        Outcome bad = new Outcome.Rejected("x.wav", CaptureLabel.NONE, "x.wav: is empty; expected a recording");
        MotorVerdict verdict = verdict(bad);
        assertEquals(SpeedHeld.CANNOT_TELL, verdict.held());
        assertEquals("This recording gives no speed. X.wav: is empty; expected a recording.", verdict.words());
    }

    /** No work is meant for 60 rpm: the nearest is taken, and said to be. */
    @Test
    void withoutAWorkTheNearestIsNamed() {
        MotorVerdict verdict = of(DrawnSpeed.level(60), 40);
        assertTrue(verdict.basis().contains("No work's limits are meant for this speed"), verdict.basis());
        assertTrue(verdict.basis().contains("winding coils"), verdict.basis());
    }
}
