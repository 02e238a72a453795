package org.steadyshaft.compare;

/** Whether a motor holds its speed, by what a work needs; the words of result.json. */
public enum SpeedHeld {
    YES("yes"),
    MOSTLY("mostly"),
    NO("no"),
    RUNAWAY("runaway"),
    CANNOT_TELL("cannot-tell");

    private final String word;

    SpeedHeld(String word) {
        this.word = word;
    }

    /** The word of result.json. */
    public String word() {
        return word;
    }
}
