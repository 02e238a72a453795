package org.steadyshaft.cli;

import java.io.IOException;
import java.nio.file.AccessDeniedException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.FileSystemException;

/** Why a file could not be written, in words. */
final class Reasons {
    private Reasons() {}

    static String of(IOException e) {
        if (e instanceof AccessDeniedException denied) {
            return "permission denied for " + denied.getFile();
        }
        if (e instanceof FileAlreadyExistsException taken) {
            return taken.getFile() + " is there already and is no folder";
        }
        if (e instanceof FileSystemException other) {
            return other.getReason() + ": " + other.getFile();
        }
        return e.getMessage();
    }
}
