package org.steadyshaft.capture;

import java.io.IOException;

/** A file that cannot be read as a recording or run sheet; the message says where, what was found and what was expected. */
public final class CaptureException extends IOException {
    private static final long serialVersionUID = 1L;

    public CaptureException(String message) {
        super(message);
    }

    public CaptureException(String message, Throwable cause) {
        super(message, cause);
    }
}
