package org.steadyshaft.analysis;

/** What a channel of a recording carries. */
public enum ChannelRole {
    TACHO("tacho"),
    MAINS("mains"),
    GATE("gate pulses"),
    CANDIDATE("perhaps a tacho too: name the right channel if this is it"),
    OTHER("something else"),
    NOT_LOOKED_AT("not looked at");

    private final String word;

    ChannelRole(String word) {
        this.word = word;
    }

    /** The word in reports. */
    public String word() {
        return word;
    }
}
