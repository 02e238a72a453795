package org.steadyshaft.compare;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.steadyshaft.blip.BlipCause;
import org.steadyshaft.signal.FindingCode;
import org.steadyshaft.signal.Grade;
import org.steadyshaft.stability.Alarm;

class RunJudgeTest {
    private static SpeedHeld held(double ripplePercent, int blips, Run.Trust trust) {
        Run made = new MadeRuns(ripplePercent, 0.02, 0, 0.3, 0, 0)
                .run("r", MadeRuns.label("rc", "mid", "none"), 900, 60, MadeRuns.random(3));
        List<Run.Jump> jumps = Stream.generate(() -> new Run.Jump(4, BlipCause.UNKNOWN))
                .limit(blips)
                .toList();
        Run run = new Run(
                made.name(),
                made.label(),
                trust,
                made.meanRpm(),
                made.dataRpm(),
                made.blocks(),
                made.ripple(),
                made.lines(),
                new Run.Jumps(jumps, 1, 0.3),
                Optional.empty(),
                Optional.empty(),
                List.of(),
                made.trace(),
                made.spectrum());
        return new RunJudge(LimitsReader.startingPoints()).judge(run).held();
    }

    private static Run.Trust alarmed(Alarm.Code code) {
        return new Run.Trust(Grade.GOOD, List.of(), List.of(code));
    }

    @Test
    void byLimits() {
        assertEquals(SpeedHeld.YES, held(0.2, 0, Run.Trust.WHOLE));
        assertEquals(SpeedHeld.MOSTLY, held(0.2, 1, Run.Trust.WHOLE), "one jump in a minute, two allowed");
        assertEquals(SpeedHeld.NO, held(0.2, 12, Run.Trust.WHOLE));
        assertEquals(SpeedHeld.NO, held(0.9, 0, Run.Trust.WHOLE));
        assertEquals(SpeedHeld.MOSTLY, held(0.48, 0, Run.Trust.WHOLE), "right at the limit");
    }

    @Test
    void byAlarmsAndDoubts() {
        assertEquals(SpeedHeld.RUNAWAY, held(0.2, 0, alarmed(Alarm.Code.RUNAWAY)));
        assertEquals(SpeedHeld.RUNAWAY, held(0.2, 12, alarmed(Alarm.Code.OVERSPEED)));
        assertEquals(SpeedHeld.CANNOT_TELL, held(0.2, 0, alarmed(Alarm.Code.LEAD_OPEN)));
        assertEquals(
                SpeedHeld.CANNOT_TELL,
                held(0.2, 30, new Run.Trust(Grade.DOUBTFUL, List.of(FindingCode.POLE_COUNT), List.of())));
    }

    @Test
    void withoutWorksThereIsNoJudge() {
        assertThrows(IllegalArgumentException.class, () -> new RunJudge(List.of()));
    }
}
