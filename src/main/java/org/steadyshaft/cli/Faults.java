package org.steadyshaft.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import org.steadyshaft.file.WholeFiles;
import org.steadyshaft.report.ResultFiles;

/** Faults of the program itself: told as such, with the trace kept in a file for whoever mends it. */
final class Faults {
    private Faults() {}

    /** Whether it is the machine's memory that did not suffice, which is no fault. */
    static boolean isMemory(Throwable fault) {
        return fault instanceof OutOfMemoryError;
    }

    /** What to tell of a capture that could not be analysed for it. */
    static String words(Throwable fault) {
        return isMemory(fault)
                ? "needs more memory than Java may take here; expected to fit (give Java more with -Xmx, or use --jobs 1)"
                : "a fault in this program, not in the recording ("
                        + fault.getClass().getSimpleName() + ")";
    }

    /** Keeps the trace in a file, whole or not at all. */
    static void keep(Path file, Throwable fault) throws IOException {
        WholeFiles.write(file, out -> {
            out.write(ResultFiles.FAULT_MARK + " "
                    + Optional.ofNullable(Faults.class.getPackage().getImplementationVersion())
                            .orElse("(not from a jar)")
                    + ", Java " + Runtime.version() + "\n");
            fault.printStackTrace(new PrintWriter(out, true));
        });
    }

    /** Keeps the trace where temporary files are; says where, in words that go on behind the fault's. */
    static String keptElsewhere(Throwable fault) {
        try {
            Path folder = Files.createTempDirectory("steadyshaft-fault-");
            keep(folder.resolve(ResultFiles.FAULT), fault);
            return "; its trace is in " + folder.resolve(ResultFiles.FAULT);
        } catch (IOException | RuntimeException e) {
            return "; its trace could not be kept";
        }
    }
}
