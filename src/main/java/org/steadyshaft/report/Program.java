package org.steadyshaft.report;

/** What the program calls itself. */
public final class Program {
    private Program() {}

    /** Its name and version, as pages and messages have it. */
    public static String words() {
        String version = Program.class.getPackage().getImplementationVersion();
        return "steadyshaft " + (version == null ? "(not from a jar)" : version);
    }
}
