package org.steadyshaft.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;
import org.steadyshaft.blip.BlipCause;
import org.steadyshaft.ripple.Hunting;
import org.steadyshaft.ripple.RippleCause;
import org.steadyshaft.signal.FindingCode;
import org.steadyshaft.stability.Alarm;

/** Everything that the report can find has a rule, and where a hand would come near live parts the rule says so. */
class AdviceTest {
    static Stream<Arguments> everything() {
        return Stream.of(
                        names("finding", FindingCode.values()),
                        names("ripple", RippleCause.values()),
                        names("blip", BlipCause.values()),
                        names("hunting", Hunting.Trend.values()),
                        names("alarm", Alarm.Code.values()),
                        Stream.of("POLE_PATTERN", "DRIFT", "OVERSHOOT", "DROOP").map(n -> Arguments.of("other", n)),
                        Stream.of(Arguments.of("ripple", "COINCIDES")))
                .flatMap(s -> s);
    }

    private static Stream<Arguments> names(String group, Enum<?>[] values) {
        return Arrays.stream(values).map(value -> Arguments.of(group, value.name()));
    }

    @ParameterizedTest(name = "{0} {1}")
    @MethodSource("everything")
    void hasARule(String group, String name) {
        Advice.Rule rule = Advice.usual().rule(group, name).orElseThrow();
        assertTrue(rule.causes().endsWith("."), rule.causes());
        assertTrue(rule.next().endsWith("."), rule.next());
    }

    /** Words for parts that carry the mains or turn, and work on them: such a rule must carry the caution. */
    @ParameterizedTest(name = "{0} {1}")
    @MethodSource("everything")
    void namesTheMainsWhereAHandComesNear(String group, String name) {
        Advice.Rule rule = Advice.usual().rule(group, name).orElseThrow();
        List<String> live =
                List.of("triac", "snubber", "gate", "belt", "loop's gain", "diac", "motor's cable", "unplug", "knob");
        boolean near = live.stream().anyMatch(word -> rule.next().contains(word));
        assertTrue(!near || rule.mains(), group + " " + name + ": " + rule.next());
    }

    @Test
    void theCautionDefersToLocalRules() {
        String caution = Advice.usual().caution();
        for (String word : List.of("Unplug", "local rules", "licensed", "heatsinks", "earth clip", "tacho")) {
            assertTrue(caution.contains(word), word);
        }
    }

    @Test
    void whatDoesNotExistHasNone() {
        assertEquals(java.util.Optional.empty(), Advice.usual().rule("blip", "GREMLIN"));
    }
}
