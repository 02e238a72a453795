package org.steadyshaft.ripple;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Optional;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;

class CauseFinderTest {
    private static CauseFinder finder(DriveHints hints) {
        return new CauseFinder(20, 0.1, hints);
    }

    @Test
    void aSlowSwingOfALoopIsHunting() {
        DriveHints loop = new DriveHints(OptionalDouble.empty(), Optional.of(true));
        assertEquals(RippleCause.HUNTING, finder(loop).causeOf(1.5, 0.5, false).cause());
        assertEquals(RippleCause.HUNTING, finder(loop).causeOf(5, 0.5, true).cause());
    }

    @Test
    void withoutALoopOrTooSmallItIsASwing() {
        DriveHints open = new DriveHints(OptionalDouble.empty(), Optional.of(false));
        assertEquals(RippleCause.SWING, finder(open).causeOf(1.5, 0.5, false).cause());
        assertEquals(Certainty.MEDIUM, finder(open).causeOf(1.5, 0.5, false).certainty());
        assertEquals(
                RippleCause.SWING,
                finder(DriveHints.NONE).causeOf(1.5, 0.29, false).cause());
    }

    /** Nobody said: what swings slowly may hunt, what keeps its rhythm as a belt does not. */
    @Test
    void whereNobodySaid() {
        assertEquals(
                new CauseFinder.Verdict(RippleCause.HUNTING, Certainty.LOW),
                finder(DriveHints.NONE).causeOf(1.5, 0.5, false));
        assertEquals(
                RippleCause.SWING,
                finder(DriveHints.NONE).causeOf(9.25, 0.5, true).cause());
    }

    @Test
    void onceOrTwiceATurnOfTheDrivenWheel() {
        DriveHints belt = new DriveHints(OptionalDouble.of(10), Optional.of(true));
        assertEquals(
                RippleCause.DRIVEN_WHEEL, finder(belt).causeOf(2.02, 1, false).cause());
        assertEquals(
                RippleCause.DRIVEN_WHEEL, finder(belt).causeOf(4.0, 1, false).cause());
        assertEquals(RippleCause.HUNTING, finder(belt).causeOf(2.9, 1, false).cause());
    }

    /** A belt is longer than the wheel is round; a loop could swing as slowly. */
    @Test
    void whatIsSlowerThanTheMotorAndNotOfTheWheelIsTheBelt() {
        DriveHints open = new DriveHints(OptionalDouble.of(10), Optional.of(false));
        assertEquals(
                new CauseFinder.Verdict(RippleCause.BELT, Certainty.LOW),
                finder(open).causeOf(1.3, 0.5, false));
        DriveHints unsaid = new DriveHints(OptionalDouble.of(10), Optional.empty());
        assertEquals(RippleCause.BELT, finder(unsaid).causeOf(1.3, 0.5, true).cause());
        assertEquals(
                RippleCause.HUNTING, finder(unsaid).causeOf(1.3, 0.5, false).cause());
        assertEquals(RippleCause.UNKNOWN, finder(open).causeOf(23, 0.5, true).cause());
    }

    /** 24 bars at 20 turns a second beat 480 times a second; a line half an order beside that, or at few beats a turn, has another source. */
    @Test
    void whatBeatsAsOftenATurnAsThereAreBarsIsTheCommutator() {
        assertEquals(
                new CauseFinder.Verdict(RippleCause.COMMUTATOR, Certainty.LOW),
                finder(DriveHints.NONE).causeOf(480.05, 0.2, true));
        assertEquals(
                RippleCause.UNKNOWN,
                finder(DriveHints.NONE).causeOf(490, 0.2, true).cause());
        assertEquals(
                RippleCause.UNKNOWN,
                finder(DriveHints.NONE).causeOf(100, 0.2, true).cause());
    }

    @Test
    void aFastLineOffTheMainsIsUnknown() {
        assertEquals(
                RippleCause.UNKNOWN,
                finder(DriveHints.NONE).causeOf(73, 1, true).cause());
        assertEquals(RippleCause.MAINS_MULTIPLE, CauseFinder.ofMultiple(3));
    }
}
