package org.steadyshaft.file;

import java.io.IOException;

/** A folder into which nothing may be written as it is; the message says why and what to do. */
public final class OutputRefusal extends IOException {
    private static final long serialVersionUID = 1L;

    OutputRefusal(String message) {
        super(message);
    }
}
