package org.steadyshaft.ripple;

/** Where a line was read. */
public enum ReadFrom {
    WAVEFORM("waveform"),
    CYCLES("cycles");

    private final String word;

    ReadFrom(String word) {
        this.word = word;
    }

    /** The word of result files. */
    public String word() {
        return word;
    }
}
