package org.steadyshaft.capture;

import java.util.HashMap;
import java.util.Map;

/**
 * Spellings of the units that exports write, in the languages makers use, lower case. What a second, minute, hour and the
 * prefixes mean: SI Brochure, 9th edition, tables 2, 7 and 8; the words are common practice.
 */
final class UnitWords {
    /** Seconds in a unit of time. */
    static final Map<String, Double> SECONDS = timeUnits();

    /** Volts in a unit of voltage. */
    static final Map<String, Double> VOLTS = voltUnits();

    /** Hertz in a unit of rate. */
    static final Map<String, Double> HERTZ = rateUnits();

    private UnitWords() {}

    private static Map<String, Double> timeUnits() {
        Map<String, Double> units = new HashMap<>();
        add(
                units,
                1,
                "s sec secs second seconds sek sekunde sekunden seconde secondes segundo segundos secondo secondi"
                        + " segundos seg sekund sekunder sekunda sekundy sekunti sekuntia saniye \u0441 \u0441\u0435\u043A \u79D2");
        add(
                units,
                1e-3,
                "ms msec msecs msek millis milli millisecond milliseconds millisekunde millisekunden milliseconde"
                        + " millisecondes milisegundo milisegundos millisecondo millisecondi milliseconden milisekundy"
                        + " \u043C\u0441 \u043C\u0441\u0435\u043A \u6BEB\u79D2 \u30DF\u30EA\u79D2");
        add(
                units,
                1e-6,
                "us \u00B5s \u03BCs usec usecs \u00B5sec \u03BCsec usek \u00B5sek micros micro microsec microsecond microseconds"
                        + " mikrosekunde mikrosekunden microseconde microsecondes microsegundo microsegundos"
                        + " microsecondo microsecondi microseconden mikrosekundy \u043C\u043A\u0441 \u5FAE\u79D2");
        add(
                units,
                1e-9,
                "ns nsec nsecs nanos nano nanosec nanosecond nanoseconds nanosekunde nanosekunden nanoseconde"
                        + " nanosecondes nanosegundo nanosegundos nanosecondi nanoseconden \u043D\u0441 \u7EB3\u79D2 \u30CA\u30CE\u79D2");
        add(units, 1e-12, "ps psec picosecond picoseconds picos pikosekunden");
        add(
                units,
                60,
                "min mins minute minutes minuten minuto minutos minuti minuut minuter minuty \u043C\u0438\u043D \u5206 \u5206\u949F");
        add(
                units,
                3600,
                "h hr hrs hour hours std stunde stunden heure heures hora horas ora ore uur timer godziny \u0447"
                        + " \u0447\u0430\u0441 \u5C0F\u65F6");
        return Map.copyOf(units);
    }

    private static Map<String, Double> voltUnits() {
        Map<String, Double> units = new HashMap<>();
        add(units, 1, "v volt volts voltios voltio vdc vac \u0432 \u4F0F");
        add(units, 1e-3, "mv millivolt millivolts milivoltios \u043C\u0432");
        add(units, 1e-6, "uv \u00B5v \u03BCv microvolt microvolts mikrovolt");
        add(units, 1e3, "kv kilovolt kilovolts");
        return Map.copyOf(units);
    }

    private static Map<String, Double> rateUnits() {
        Map<String, Double> units = new HashMap<>();
        add(units, 1, "hz hertz sa/s s/s samples/s sps samples/sec samples/second 1/s pts/s");
        add(units, 1e3, "khz kilohertz ksa/s ks/s ksps ksamples/s kpts/s");
        add(units, 1e6, "mhz megahertz msa/s ms/s msps msamples/s mpts/s");
        add(units, 1e9, "ghz gsa/s gs/s gsps");
        return Map.copyOf(units);
    }

    private static void add(Map<String, Double> units, double factor, String words) {
        for (String word : words.split(" ")) {
            units.put(word, factor);
        }
    }
}
