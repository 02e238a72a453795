package org.steadyshaft.compare;

/** What circuits are compared by. Less is better in all of them. */
public enum Measure {
    RIPPLE(
            "ripple",
            "ripple, rms",
            "%",
            "ripple_rms_percent",
            "rms of the speed's swing while steady; noise, hum and blips left out"),
    SWING(
            "swing",
            "swing within a second",
            "%",
            "swing_percent",
            "mean of highest less lowest speed, second by second"),
    TWICE_MAINS(
            "twice mains",
            "swing at twice the mains",
            "%",
            "twice_mains_percent",
            "amplitude of the torque pulses' swing, 0 to peak"),
    WANDER("wander", "wander from second to second", "%", "wander_percent", "rms of the mean speed of single seconds"),
    BLIPS("blips", "blips", "a minute", "blips_per_minute", "jumps a minute"),
    SAG("sag", "sag under load", "%", "sag_percent", "(n_light - n_load) / n_load at the same setting"),
    SETTLING("settling", "settling time", "s", "settling_seconds", "time to settle after a step, mean of the steps"),
    HUNTING("hunting", "hunting", "%", "hunting_percent", "amplitude of hunting, 0 to peak");

    private final String word;
    private final String title;
    private final String unit;
    private final String limitKey;
    private final String meaning;

    Measure(String word, String title, String unit, String limitKey, String meaning) {
        this.word = word;
        this.title = title;
        this.unit = unit;
        this.limitKey = limitKey;
        this.meaning = meaning;
    }

    /** Whether circuits are compared by the ratio of their values, that is by logarithms: what scatters the more the larger it is. */
    public boolean isByRatio() {
        return this == RIPPLE || this == SWING || this == WANDER || this == SETTLING;
    }

    /** The word of comparison.json. */
    public String word() {
        return word;
    }

    public String title() {
        return title;
    }

    public String unit() {
        return unit;
    }

    /** Key in a limits file. */
    public String limitKey() {
        return limitKey;
    }

    public String meaning() {
        return meaning;
    }
}
