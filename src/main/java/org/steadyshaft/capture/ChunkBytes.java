package org.steadyshaft.capture;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;

/** Reads small pieces of a file of chunks. */
final class ChunkBytes {
    private final FileChannel file;
    private final String name;

    ChunkBytes(FileChannel file, String name) {
        this.file = file;
        this.name = name;
    }

    /** Four characters that name a chunk or a form. */
    static String tag(ByteBuffer bytes, int at) {
        byte[] four = new byte[4];
        bytes.get(at, four);
        return new String(four, StandardCharsets.ISO_8859_1);
    }

    /**
     * Bytes of the file.
     *
     * @param what they are, for the message
     * @throws CaptureException if the file ends before they do
     */
    ByteBuffer bytes(long at, int count, String what, ByteOrder order) throws IOException {
        ByteBuffer buffer = ByteBuffer.allocate(count).order(order);
        while (buffer.hasRemaining() && file.read(buffer, at + buffer.position()) >= 0) {
            continue;
        }
        if (buffer.hasRemaining()) {
            throw new CaptureException(name + ": byte " + at + ": the file ends inside " + what + "; expected " + count
                    + " bytes, found " + buffer.position());
        }
        return buffer.flip();
    }
}
