package org.steadyshaft.analysis;

import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import org.steadyshaft.ripple.DriveHints;

/**
 * Reads what the run sheet says of the drive: the belt's ratio, and whether the circuit controls the speed; where no column says that, the
 * circuit's name may.
 */
public final class DriveWords {
    private static final String BELT_RATIO = "belt_ratio";
    private static final String LOOP = "loop";
    private static final Set<String> YES = Set.of("yes", "y", "true", "1", "closed");
    private static final Set<String> NO = Set.of("no", "n", "false", "0", "open", "none");

    /** A controller alone is no such word: a phase controller closes no loop. */
    private static final Set<String> NAMES_OF_LOOPS = Set.of("loop", "closed", "pid", "feedback");

    private static final Set<String> NOT_A_LOOP = Set.of("open", "no", "not", "without");

    private DriveWords() {}

    static DriveHints hints(CaptureLabel label) {
        return new DriveHints(
                ratio(word(label, BELT_RATIO)), loop(word(label, LOOP)).or(() -> byName(label.circuit())));
    }

    /** Whether the user says that the circuit controls the speed; empty if nobody said. */
    public static Optional<Boolean> isLoop(CaptureLabel label) {
        return hints(label).loop();
    }

    private static String word(CaptureLabel label, String column) {
        for (Map.Entry<String, String> cell : label.others().entrySet()) {
            String name = cell.getKey().strip().toLowerCase(Locale.ROOT).replace(' ', '_');
            if (name.equals(column)) {
                return cell.getValue().strip().toLowerCase(Locale.ROOT);
            }
        }
        return "";
    }

    private static Optional<Boolean> loop(String word) {
        return YES.contains(word) ? Optional.of(true) : NO.contains(word) ? Optional.of(false) : Optional.empty();
    }

    /** Whether a circuit is called one that controls the speed, or one that does not; empty where its name says neither. */
    private static Optional<Boolean> byName(String circuit) {
        List<String> words = List.of(circuit.toLowerCase(Locale.ROOT).split("[^\\p{L}]+"));
        if (words.stream().anyMatch(NOT_A_LOOP::contains)) {
            return Optional.of(false);
        }
        return words.stream().anyMatch(NAMES_OF_LOOPS::contains) ? Optional.of(true) : Optional.empty();
    }

    /** A number above 0, with a point or a comma; else nobody said. */
    private static OptionalDouble ratio(String word) {
        try {
            double ratio = Double.parseDouble(word.replace(',', '.'));
            return ratio > 0 && Double.isFinite(ratio) ? OptionalDouble.of(ratio) : OptionalDouble.empty();
        } catch (NumberFormatException e) {
            return OptionalDouble.empty();
        }
    }
}
