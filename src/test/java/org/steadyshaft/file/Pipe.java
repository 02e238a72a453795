package org.steadyshaft.file;

import java.io.IOException;
import java.nio.file.Path;
import java.util.concurrent.TimeUnit;

/** A named pipe, which nobody writes to. */
public final class Pipe {
    private Pipe() {}

    /** Makes one; false where the system has no such thing. */
    public static boolean made(Path pipe) throws InterruptedException {
        try {
            Process process = new ProcessBuilder("mkfifo", pipe.toString()).start();
            return process.waitFor(10, TimeUnit.SECONDS) && process.exitValue() == 0;
        } catch (IOException e) {
            return false;
        }
    }
}
