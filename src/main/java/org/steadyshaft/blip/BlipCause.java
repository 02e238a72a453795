package org.steadyshaft.blip;

/** What a blip likely comes from. */
public enum BlipCause {
    EXTRA_CONDUCTION("extra conduction", "the triac conducted when it should not: unwanted firing"),
    MISSED_FIRING("missed firing", "a half-cycle or two were left out: the triac did not fire or did not hold"),
    LOAD_TOUCH("load touch", "something touched the wheel or the shaft"),
    UNKNOWN("unknown", "no known cause looks like this");

    private final String word;
    private final String explanation;

    BlipCause(String word, String explanation) {
        this.word = word;
        this.explanation = explanation;
    }

    /** The word used in result files. */
    public String word() {
        return word;
    }

    /** What it means, in plain words. */
    public String explanation() {
        return explanation;
    }
}
