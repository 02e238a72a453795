package org.steadyshaft.stability;

/** What a blip likely comes from. */
public enum BlipCause {
    EXTRA_CONDUCTION("extra conduction", "the triac conducted when it should not: unwanted firing"),
    MISSED_FIRING_OR_LOAD_TOUCH(
            "missed firing or load touch", "a firing was missed, or something touched the wheel or the shaft");

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
