package org.steadyshaft.file;

import java.io.EOFException;
import java.io.IOException;
import java.nio.channels.ClosedByInterruptException;
import java.nio.charset.CharacterCodingException;
import java.nio.file.AccessDeniedException;
import java.nio.file.DirectoryNotEmptyException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.FileSystemException;
import java.nio.file.FileSystemLoopException;
import java.nio.file.NoSuchFileException;
import java.nio.file.NotDirectoryException;
import java.util.Locale;
import java.util.zip.ZipException;
import org.steadyshaft.signal.PlainText;

/** Why a file could not be read or written, in words; never the bare text of an exception that says nothing to a user. */
public final class Reasons {
    private Reasons() {}

    public static String of(IOException e) {
        return PlainText.of(words(e));
    }

    private static String words(IOException e) {
        if (e instanceof AccessDeniedException denied) {
            return "permission denied for " + denied.getFile();
        }
        if (e instanceof FileAlreadyExistsException taken) {
            return taken.getFile() + " is there already and is no folder";
        }
        if (e instanceof NoSuchFileException missing) {
            return missing.getFile() + " is not there, or is there no longer";
        }
        if (e instanceof NotDirectoryException file) {
            return file.getFile() + " is no folder";
        }
        if (e instanceof DirectoryNotEmptyException folder) {
            return folder.getFile() + " is a folder; expected a file or nothing in its place";
        }
        if (e instanceof FileSystemLoopException loop) {
            return loop.getFile() + " leads back to itself";
        }
        if (e instanceof FileSystemException other) {
            return ofTheSystem(other);
        }
        if (e instanceof ZipException) {
            return "the packed data are damaged";
        }
        if (e instanceof EOFException) {
            return "it ends too early";
        }
        if (e instanceof CharacterCodingException) {
            return "found bytes that are no text";
        }
        if (e instanceof ClosedByInterruptException) {
            return "interrupted";
        }
        String message = e.getMessage();
        return message == null || message.isBlank()
                ? "the system gives no reason"
                : message.toLowerCase(Locale.ROOT).contains("no space left")
                        ? "no space left on the disk"
                        : firstLine(message);
    }

    private static String ofTheSystem(FileSystemException e) {
        String reason = e.getReason();
        if (reason == null || reason.isBlank()) {
            return "the system gives no reason for " + e.getFile();
        }
        return reason.toLowerCase(Locale.ROOT) + ": " + e.getFile();
    }

    private static String firstLine(String message) {
        return message.lines().findFirst().orElse("the system gives no reason");
    }
}
