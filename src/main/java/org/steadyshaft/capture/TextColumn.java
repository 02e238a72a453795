package org.steadyshaft.capture;

import com.google.re2j.Pattern;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import org.steadyshaft.signal.PlainText;

/**
 * What the header says of one column, by its name and its unit. A unit of time that is not known is kept by its name, so
 * that it can be refused and is never taken for seconds.
 *
 * @param name as the header gives it, cleaned; the column's number from 1 where no line names it
 * @param unit as the header gives it; absent where it gives none
 * @param says what the column holds by that
 * @param factor what turns its numbers into seconds or volts; 1 where no unit is known
 */
record TextColumn(String name, Optional<String> unit, Says says, double factor) {
    /** What the name and unit of a column say that it holds. */
    enum Says {
        /** Times in a unit that is known. */
        TIME_WITH_UNIT,
        /** Times without a unit. */
        TIME,
        /** Times in something that is no known unit. */
        TIME_IN_UNKNOWN_UNIT,
        /** Numbers of the samples. */
        COUNT,
        /** Speeds or frequencies, by their unit. */
        SPEED_WITH_UNIT,
        /** Speeds or frequencies, by the name alone. */
        SPEED,
        /** Voltages in a unit that is known. */
        VOLTS,
        /** Something else than a voltage or a current, by its unit. */
        OTHER_QUANTITY,
        /** Nothing of all that. */
        NOTHING
    }

    private static final int LONGEST_NAME = 60;

    private static final Set<String> TIME_NAMES = set(
            ("time times timestamp timestamps timebase elapsed uptime clock second seconds zeit zeiten zeitstempel uhrzeit sekunden"
                    + " temps tiempo tempo tijd tid tiden czas cas \u010Das aika id\u0151 ido zaman heure hora"
                    + " \u0432\u0440\u0435\u043C\u044F \u03C7\u03C1\u03CC\u03BD\u03BF\u03C2 \u65F6\u95F4"
                    + " \u6642\u9593 \u6642\u523B"));

    /** Single letters that name the time only as the first word. */
    private static final Set<String> TIME_LETTERS = Set.of("t", "x");

    /** Words beside "time" that are no unit. */
    private static final Set<String> NO_UNITS =
            set(("a b c d ch ch1 ch2 ch3 ch4 channel abs absolute rel relative local utc gmt"
                    + " axis achse base value values data stamp stamps start since of the from day date elapsed total run running"
                    + " real host sample sampling at x t e and index col column achse wert seit ab trigger"));

    private static final Set<String> COUNT_NAMES =
            set(("index idx sample samples no nr n num number point points punkt punkte count"
                    + " row zeile seq sequence id record i k"));

    private static final Set<String> SPEED_NAMES = set(
            ("speed rpm drehzahl geschwindigkeit vitesse velocidad velocita velocit\u00E0 toerental hastighed omdrejninger"
                    + " obroty otacky frequency freq frequenz frequence fr\u00E9quence frecuencia frequenza rps upm"));

    private static final Pattern SPEED_UNIT = Pattern.compile(
            "(?i)(rpm|upm|rps|r/min|r\\.p\\.m\\.?|u/min|umin|1/min|min-1|min\\^-1|min\u207B\u00B9|/min|rev/min|revs?/min|tr/min|giri/min|obr/min|ot/min"
                    + "|omw/min|varv/min|v/min|o/min|1/s|rev/s|u/s|rad/s|m/s|km/h|mph|k?m?hz|hertz)");

    private static final Pattern OTHER_UNIT = Pattern.compile(
            "(?i)(\u00B0 ?[cfk]?|deg ?[cf]?|celsius|kelvin|%|percent|prozent|k?w|watts?|va|k?pa|bar|psi|g|kg|n|k?nm|db[a-z]*)");

    private static final Pattern PER_TIME =
            Pattern.compile("(?i)[\\s\\[(_](u|1|r|rev|tr|giri|obr|ot)/(min|s)[\\])]?\\s*$");
    private static final Pattern HUMP = Pattern.compile("(\\p{Ll}{2})(\\p{Lu})");
    private static final Pattern BETWEEN_WORDS = Pattern.compile("[^\\p{L}\\p{N}\u00B5]+");
    private static final Pattern DIGITS = Pattern.compile("[0-9]+");
    private static final Pattern NO_WORDS = Pattern.compile("[\uFFFD\uFEFF\"]+");
    private static final Pattern BLANKS = Pattern.compile("[\\s\\p{Z}]+");
    private static final Pattern OUTER_QUOTES = Pattern.compile("^['`]+|['`]+$");

    private static Set<String> set(String words) {
        return Set.copyOf(Arrays.asList(words.split(" ")));
    }

    TextColumn {
        if (name.isEmpty() || !(factor > 0)) {
            throw new IllegalArgumentException("column '" + name + "' with a factor of " + factor);
        }
    }

    /**
     * Reads a column's header.
     *
     * @param name as it stands; empty where no line names it
     * @param number of the column, from 1
     * @param unitCell of a line of units; empty where there is none
     */
    static TextColumn of(String name, int number, String unitCell) {
        String clean = clean(TextHeader.cut(name));
        Optional<String> unit = unitCell.isEmpty() ? Units.inName(clean) : Optional.of(unitCell);
        String shown = clean.isEmpty() ? Integer.toString(number) : clean;
        return decided(shown, clean, unit);
    }

    private static TextColumn decided(String shown, String name, Optional<String> unit) {
        List<String> words = words(name);
        if (unit.isPresent() && Units.volts(unit.get()).isPresent()) {
            return new TextColumn(
                    shown, unit, Says.VOLTS, Units.volts(unit.get()).getAsDouble());
        }
        if (speedUnit(name, unit, words)) {
            return new TextColumn(shown, unit, Says.SPEED_WITH_UNIT, 1);
        }
        OptionalDouble seconds = unit.isPresent() ? secondsIn(words(unit.get())) : OptionalDouble.empty();
        if (seconds.isPresent()) {
            return new TextColumn(shown, unit, Says.TIME_WITH_UNIT, seconds.getAsDouble());
        }
        if (unit.isPresent() && OTHER_UNIT.matcher(unit.get()).matches()) {
            return new TextColumn(shown, unit, Says.OTHER_QUANTITY, 1);
        }
        if (unit.isPresent() && areAll(words(unit.get()), COUNT_NAMES)) {
            return new TextColumn(shown, unit, Says.COUNT, 1);
        }
        if (saysTime(words)) {
            return time(shown, unit, words);
        }
        return byLastWord(shown, unit, words);
    }

    private static TextColumn time(String shown, Optional<String> unit, List<String> words) {
        if (unit.isPresent()) {
            boolean other = areAll(words(unit.get()), NO_UNITS);
            return new TextColumn(shown, unit, other ? Says.TIME : Says.TIME_IN_UNKNOWN_UNIT, 1);
        }
        OptionalDouble seconds = secondsIn(words);
        if (seconds.isPresent()) {
            return new TextColumn(shown, Optional.of(unitOf(words)), Says.TIME_WITH_UNIT, seconds.getAsDouble());
        }
        if (words.stream().anyMatch(COUNT_NAMES::contains) && words.size() > 1) {
            return new TextColumn(shown, unit, Says.COUNT, 1);
        }
        List<String> strange = words.stream()
                .filter(w -> !TIME_NAMES.contains(w)
                        && !NO_UNITS.contains(w)
                        && !DIGITS.matcher(w).matches())
                .toList();
        return strange.isEmpty()
                ? new TextColumn(shown, unit, Says.TIME, 1)
                : new TextColumn(shown, Optional.of(strange.get(strange.size() - 1)), Says.TIME_IN_UNKNOWN_UNIT, 1);
    }

    /** Names such as "micros", "elapsed_ms", "tacho_mV" or "sample". */
    private static TextColumn byLastWord(String shown, Optional<String> unit, List<String> words) {
        String last = words.isEmpty() ? "" : words.get(words.size() - 1);
        if (unit.isEmpty() && last.length() > 1 && Units.seconds(last).isPresent()) {
            return new TextColumn(
                    shown,
                    Optional.of(last),
                    Says.TIME_WITH_UNIT,
                    Units.seconds(last).getAsDouble());
        }
        if (unit.isEmpty() && Units.volts(last).isPresent()) {
            return new TextColumn(
                    shown, Optional.of(last), Says.VOLTS, Units.volts(last).getAsDouble());
        }
        if (words.stream().anyMatch(COUNT_NAMES::contains)) {
            return new TextColumn(shown, unit, Says.COUNT, 1);
        }
        boolean speed = words.stream().anyMatch(SPEED_NAMES::contains);
        return new TextColumn(shown, unit, speed ? Says.SPEED : Says.NOTHING, 1);
    }

    private static boolean speedUnit(String name, Optional<String> unit, List<String> words) {
        boolean whole = SPEED_UNIT.matcher(name.trim()).matches();
        boolean inUnit = unit.isPresent() && SPEED_UNIT.matcher(unit.get()).matches();
        boolean last = words.size() > 1
                && SPEED_UNIT.matcher(words.get(words.size() - 1)).matches();
        boolean perMinute = PER_TIME.matcher(name).find();
        return whole || inUnit || last || perMinute;
    }

    private static boolean areAll(List<String> words, Set<String> known) {
        return !words.isEmpty() && known.containsAll(words);
    }

    private static boolean saysTime(List<String> words) {
        return words.stream().anyMatch(TIME_NAMES::contains) || !words.isEmpty() && TIME_LETTERS.contains(words.get(0));
    }

    /** Seconds in the last of the words that is a unit of time; words that name times as such do not count as one. */
    private static OptionalDouble secondsIn(List<String> words) {
        String unit = unitOf(words);
        return unit.isEmpty() ? OptionalDouble.empty() : Units.seconds(unit);
    }

    private static String unitOf(List<String> words) {
        String unit = "";
        for (String word : words) {
            boolean both =
                    TIME_NAMES.contains(word) && words.size() > 1 && !word.startsWith("sec") && !word.startsWith("sek");
            unit = Units.seconds(word).isPresent() && !both ? word : unit;
        }
        return unit;
    }

    /** The words of a name, lower case: "timeMs", "time_ms" and "Time [ms]" alike. */
    private static List<String> words(String name) {
        List<String> words = new ArrayList<>();
        String apart = HUMP.matcher(name).replaceAll("$1 $2");
        for (String word : BETWEEN_WORDS.split(apart)) {
            if (!word.isEmpty()) {
                words.add(word.toLowerCase(Locale.ROOT));
            }
        }
        return words;
    }

    /** A name that can stand on a page: no quotes around it, no control characters, single blanks, not too long. */
    private static String clean(String name) {
        String words = NO_WORDS.matcher(PlainText.of(name)).replaceAll(" ");
        String text = BLANKS.matcher(words).replaceAll(" ").strip();
        text = OUTER_QUOTES.matcher(text).replaceAll("").strip();
        return text.length() <= LONGEST_NAME ? text : text.substring(0, LONGEST_NAME - 3) + "...";
    }

    boolean saysTime() {
        return says == Says.TIME_WITH_UNIT || says == Says.TIME || says == Says.TIME_IN_UNKNOWN_UNIT;
    }
}
