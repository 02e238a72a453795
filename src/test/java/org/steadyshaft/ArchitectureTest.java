package org.steadyshaft;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.tngtech.archunit.base.DescribedPredicate;
import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.domain.JavaModifier;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.lang.ArchCondition;
import com.tngtech.archunit.lang.ConditionEvents;
import com.tngtech.archunit.lang.SimpleConditionEvent;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Holds the table of rooms: which room may use which. */
class ArchitectureTest {
    private static final String ROOT = "org.steadyshaft.";
    private static final List<String> STAGES =
            List.of("condition", "speed", "voltage", "blip", "ripple", "stability", "response");

    /** The table, as in DEVELOPERS.md. */
    private static final Map<String, Set<String>> MAY_USE = Map.ofEntries(
            Map.entry("signal", Set.of()),
            Map.entry("published", Set.of()),
            Map.entry("numeric", Set.of("published")),
            Map.entry("file", Set.of("signal")),
            Map.entry("capture", Set.of("signal", "file")),
            Map.entry("simulate", Set.of("signal", "numeric", "file")),
            Map.entry("condition", Set.of("signal", "numeric", "published")),
            Map.entry("speed", Set.of("signal", "numeric", "published")),
            Map.entry("voltage", Set.of("signal", "numeric")),
            Map.entry("stability", Set.of("signal", "numeric", "published")),
            Map.entry("response", Set.of("signal", "numeric", "published")),
            Map.entry("front", Set.of("signal", "numeric", "condition", "speed")),
            Map.entry("blip", Set.of("signal", "numeric", "voltage")),
            Map.entry("ripple", Set.of("signal", "numeric", "published", "voltage")),
            Map.entry(
                    "analysis",
                    Set.of(
                            "signal",
                            "front",
                            "condition",
                            "speed",
                            "voltage",
                            "blip",
                            "ripple",
                            "stability",
                            "response")),
            Map.entry("compare", Set.of("signal", "numeric", "published", "file", "analysis")),
            Map.entry("plan", Set.of("numeric")),
            Map.entry("windings", Set.of("signal", "file")),
            Map.entry("poles", Set.of("signal")),
            Map.entry("report", Set.of("signal", "file", "analysis", "compare", "plan", "poles", "windings")),
            Map.entry("cli", Set.of()));

    private static final JavaClasses MAIN = new ClassFileImporter()
            .withImportOption(ImportOption.Predefined.DO_NOT_INCLUDE_TESTS)
            .importPackages("org.steadyshaft");

    static Stream<String> roomsBelowCli() {
        return MAY_USE.keySet().stream().filter(room -> !room.equals("cli")).sorted();
    }

    @ParameterizedTest
    @MethodSource("roomsBelowCli")
    void aRoomUsesOnlyWhatTheTableAllows(String room) {
        Set<String> others = new TreeSet<>(MAY_USE.keySet());
        others.remove(room);
        others.removeAll(MAY_USE.get(room));
        for (String other : others) {
            noClasses()
                    .that()
                    .resideInAPackage(ROOT + room + "..")
                    .should()
                    .dependOnClassesThat(isIn(other).and(DescribedPredicate.not(handedOut(room))))
                    .allowEmptyShould(true)
                    .check(MAIN);
        }
    }

    /** Reports and comparisons read the records of the stages that the analysis hands out; they call no stage. */
    private static DescribedPredicate<JavaClass> handedOut(String user) {
        return new DescribedPredicate<>("handed out to " + user) {
            @Override
            public boolean test(JavaClass used) {
                boolean fromStage = STAGES.contains(roomOf(used));
                return Set.of("report", "compare").contains(user) && fromStage && (used.isRecord() || used.isEnum());
            }
        };
    }

    private static DescribedPredicate<JavaClass> isIn(String room) {
        return new DescribedPredicate<>("in " + room) {
            @Override
            public boolean test(JavaClass candidate) {
                return roomOf(candidate).equals(room);
            }
        };
    }

    private static String roomOf(JavaClass candidate) {
        String name = candidate.getPackageName();
        return name.startsWith(ROOT) ? name.substring(ROOT.length()).split("\\.")[0] : "";
    }

    @Test
    void everyClassIsInARoomOfTheTable() {
        Set<String> found = new TreeSet<>();
        MAIN.forEach(c -> found.add(roomOf(c)));
        assertTrue(MAY_USE.keySet().containsAll(found), "rooms found: " + found);
        assertTrue(found.size() >= 10, "rooms found: " + found);
    }

    /**
     * Lines of a stranger's file meet only expressions whose cost grows with their length and no faster; ClockTime's own are short, and so
     * are the cells it looks at.
     */
    @Test
    void expressionsOnRecordingsAreLinear() {
        noClasses()
                .that()
                .resideInAPackage(ROOT + "capture..")
                .and()
                .doNotHaveSimpleName("ClockTime")
                .should()
                .dependOnClassesThat()
                .resideInAPackage("java.util.regex..")
                .orShould()
                .callMethod(String.class, "matches", String.class)
                .orShould()
                .callMethod(String.class, "replaceAll", String.class, String.class)
                .orShould()
                .callMethod(String.class, "replaceFirst", String.class, String.class)
                .check(MAIN);
    }

    @Test
    void onlyCliPrintsOrExits() {
        noClasses()
                .that()
                .resideOutsideOfPackage(ROOT + "cli..")
                .should()
                .accessField(System.class, "out")
                .orShould()
                .accessField(System.class, "err")
                .orShould()
                .callMethod(System.class, "exit", int.class)
                .check(MAIN);
    }

    @Test
    void noRoomAsksTheClock() {
        noClasses()
                .should()
                .callMethod(System.class, "currentTimeMillis")
                .orShould()
                .callMethod(Instant.class, "now")
                .orShould()
                .callMethod(LocalDate.class, "now")
                .check(MAIN);
    }

    @Test
    void aRecordHoldsNoArray() {
        classes()
                .that()
                .areRecords()
                .should(new ArchCondition<>("hold no array") {
                    @Override
                    public void check(JavaClass record, ConditionEvents events) {
                        record.getFields().stream()
                                .filter(f -> f.getRawType().isArray()
                                        && !f.getModifiers().contains(JavaModifier.STATIC))
                                .forEach(f -> events.add(
                                        SimpleConditionEvent.violated(record, f.getFullName() + " is an array")));
                    }
                })
                .check(MAIN);
    }

    @Test
    void everyRoomSaysWhatItIs() throws IOException {
        Path root = Path.of("src/main/java/org/steadyshaft");
        try (Stream<Path> rooms = Files.list(root)) {
            for (Path room : rooms.filter(Files::isDirectory).toList()) {
                String text = Files.readString(room.resolve("package-info.java"));
                assertTrue(text.contains("{@link"), room + ": package-info names no entry point");
            }
        }
    }

    @Test
    void theTopLevelHoldsWhatItShouldAndNothingElse() throws IOException {
        Set<String> allowed = Set.of(
                "README.md",
                "DEVELOPERS.md",
                "LICENSE",
                "pom.xml",
                "src",
                "recordings",
                "reports",
                "target",
                "simulated");
        try (Stream<Path> entries = Files.list(Path.of("."))) {
            List<String> strangers = entries.map(p -> p.getFileName().toString())
                    .filter(name -> !name.startsWith(".") && !allowed.contains(name))
                    .toList();
            assertTrue(strangers.isEmpty(), "at the top level: " + strangers);
        }
    }
}
