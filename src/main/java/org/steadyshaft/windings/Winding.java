package org.steadyshaft.windings;

/** What may lie between two contacts. */
public enum Winding {
    ARMATURE("armature", "armature", "trace both wires to the brushes"),
    FIELD("field", "field", "make sure that neither end leads to a brush"),
    TACHO("tacho", "tacho", "turn the shaft by hand: a meter on AC shows a voltage between these two"),
    CUT_OUT("cut_out", "thermal cut-out", "trace it: it lies in line with a winding, and opens when warm");

    private final String key;
    private final String title;
    private final String test;

    Winding(String key, String title, String test) {
        this.key = key;
        this.title = title;
        this.test = test;
    }

    /** Its word in tables. */
    public String key() {
        return key;
    }

    public String title() {
        return title;
    }

    /** The second test, which must agree. */
    public String test() {
        return test;
    }
}
