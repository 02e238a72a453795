package org.steadyshaft.numeric;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.List;
import java.util.stream.IntStream;

/**
 * Does independent parts of a job on all processors and gives their results in order. Parts are fixed by position, never by the number of
 * threads, so the result is the same whatever the machine. The threads are those of the common pool, which all captures of a batch share.
 */
public final class InOrder {
    private InOrder() {}

    /** One part of a job. */
    @FunctionalInterface
    public interface Part<T> {
        /** @param index from 0 */
        T run(int index) throws IOException;
    }

    /**
     * The results of parts 0 to count - 1.
     *
     * @throws IOException if a part throws one
     */
    public static <T> List<T> map(int count, Part<T> part) throws IOException {
        try {
            return IntStream.range(0, count)
                    .parallel()
                    .mapToObj(index -> unchecked(part, index))
                    .toList();
        } catch (UncheckedIOException e) {
            throw e.getCause();
        }
    }

    private static <T> T unchecked(Part<T> part, int index) {
        try {
            return part.run(index);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
