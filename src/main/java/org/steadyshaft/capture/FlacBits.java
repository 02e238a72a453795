package org.steadyshaft.capture;

import java.io.Closeable;
import java.io.EOFException;
import java.io.IOException;
import java.lang.invoke.MethodHandles;
import java.lang.invoke.VarHandle;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.channels.FileChannel;
import java.util.Arrays;

/**
 * Reads a file bit by bit, the highest bit of a byte first, through one buffer, and sums up the checksums of a frame on
 * the way. Every method throws {@link EOFException} where the file ends too early.
 *
 * <p>The place is one number counted in bits; a read loads the eight bytes around it and shifts, so at least 57 bits
 * are at hand. Behind the last byte of the file the buffer holds zeros, so that the hot loop need not look for the end
 * at every bit.
 */
final class FlacBits implements Closeable {
    private static final int BUFFER_BYTES = 1 << 16;
    private static final int PAD_BYTES = 24;
    private static final int WORD_BITS = 57;
    private static final int LONGEST_FRAME_HEADER_BYTES = 16;
    private static final VarHandle WORD = MethodHandles.byteArrayViewVarHandle(long[].class, ByteOrder.BIG_ENDIAN);

    private final FileChannel file;
    private final String name;
    private final byte[] bytes = new byte[BUFFER_BYTES + PAD_BYTES];
    private long bufferAt;
    private int limit;
    private int bit;
    private int lastSafeBit = -1;
    private boolean ended;
    private int summedTo;
    private int sum16;
    private long frame = -1;
    private long frameAt;

    FlacBits(FileChannel file, String name) {
        this.file = file;
        this.name = name;
    }

    /** Place in the file of the byte that holds the next bit. */
    long byteAt() {
        return bufferAt + (bit >>> 3);
    }

    /** Whether the file ends here. */
    boolean atEnd() throws IOException {
        load();
        return ended && bit >= 8 * limit;
    }

    /** The next bits, at most 57, without going on; zeros behind the end of the file. */
    long peek(int count) throws IOException {
        load();
        return word() >>> 1 >>> 63 - count;
    }

    /** An unsigned number of 0 to 57 bits. */
    long unsigned(int count) throws IOException {
        long value = peek(count);
        go(count);
        return value;
    }

    /** A number of 1 to 57 bits in two's complement. */
    long signed(int count) throws IOException {
        load();
        long value = word() >> 64 - count;
        go(count);
        return value;
    }

    /**
     * The number of zeros before the next one; passes the one, too.
     *
     * @throws CaptureException if it is above {@code most}
     */
    long unary(long most) throws IOException {
        long zeros = 0;
        for (long word = peek(WORD_BITS); word == 0; word = peek(WORD_BITS)) {
            zeros += WORD_BITS;
            if (zeros > most) {
                break;
            }
            go(WORD_BITS);
        }
        int rest = Long.numberOfLeadingZeros(word());
        if (zeros + rest > most) {
            throw damaged("a run of more than " + most + " zero bits; expected fewer");
        }
        go(rest + 1);
        return zeros + rest;
    }

    /**
     * Rice codes with {@code low} low bits, about one load, one count and three shifts each: quotient in unary, low
     * bits, sign folded into the lowest. RFC 9639 section 9.2.7.1.
     */
    void rice(int low, long[] out, int from, int to) throws IOException {
        for (int i = from; i < to; i++) {
            if (bit > lastSafeBit) {
                load();
            }
            long word = word();
            int zeros = Long.numberOfLeadingZeros(word);
            long folded;
            if (zeros + low < WORD_BITS) {
                // the one that ends the run stands in front of the low bits and takes back the 1 too few
                folded = ((zeros - 1L) << low) + (word << zeros >>> 63 - low);
                bit += zeros + 1 + low;
            } else {
                folded = unary(0xFFFFFFFFL >>> low) << low | unsigned(low);
            }
            out[i] = folded >>> 1 ^ -(folded & 1);
        }
        go(0);
    }

    /** Goes on to a whole byte. */
    void align() {
        bit = bit + 7 & ~7;
    }

    /** Goes to a byte of the file, before or behind this one. */
    void moveTo(long place) throws IOException {
        if (place >= bufferAt && place <= bufferAt + limit) {
            bit = (int) (8 * (place - bufferAt));
            summedTo = bit >>> 3;
            return;
        }
        bufferAt = place;
        file.position(place);
        limit = 0;
        bit = 0;
        lastSafeBit = -1;
        ended = false;
        summedTo = 0;
    }

    /** Begins a frame here, at a whole byte: checksums begin anew, and what is found damaged is named by its number. */
    void beginFrame(long number) throws IOException {
        if ((bit >>> 3) + LONGEST_FRAME_HEADER_BYTES + 8 > limit) {
            refill();
        }
        frame = number;
        frameAt = byteAt();
        summedTo = bit >>> 3;
        sum16 = 0;
    }

    /**
     * Goes on, byte by byte, to where the frame's checksum comes out right and the mark of another frame or the end of the file
     * follows; without decoding, so a compare a byte and a look-up.
     *
     * @return whether there is such a place
     */
    boolean goToFrameEnd() throws IOException {
        align();
        for (int at = bit >>> 3; ; at++) {
            int last = ended ? limit : limit - 1;
            while (at < last && bytes[at] != (byte) 0xFF) {
                at++;
            }
            bit = 8 * at;
            if (at < last && (bytes[at + 1] & 0xFE) == 0xF8) {
                sumUp();
                if (sum16 == 0) {
                    return true;
                }
            }
            if (at >= last && ended) {
                sumUp();
                return sum16 == 0;
            }
            if (at >= last) {
                refill();
                at = (bit >>> 3) - 1;
            }
        }
    }

    /** CRC-8 of the frame so far; only inside its header, which never is longer than what the buffer holds. */
    int headerSum() {
        return FlacSums.crc8(bytes, (int) (frameAt - bufferAt), bit >>> 3);
    }

    /** CRC-16 of the frame so far. */
    int frameSum() {
        sumUp();
        return sum16;
    }

    /** What to throw where something is found that cannot be; the message says in which frame. */
    CaptureException damaged(String found) {
        String place = frame < 0 ? "byte " + byteAt() : "frame " + frame + " at byte " + frameAt;
        return new CaptureException(name + ": " + place + ": " + found + "; the recording is damaged there");
    }

    private long word() {
        return (long) WORD.get(bytes, bit >>> 3) << (bit & 7);
    }

    private void go(int count) throws EOFException {
        bit += count;
        if (bit > 8 * limit) {
            throw new EOFException();
        }
    }

    private void load() throws IOException {
        if (bit > lastSafeBit) {
            refill();
        }
    }

    private void sumUp() {
        sum16 = FlacSums.crc16(sum16, bytes, summedTo, bit >>> 3);
        summedTo = bit >>> 3;
    }

    /** Moves what is left to the front of the buffer and fills it up. */
    private void refill() throws IOException {
        if (bit > 8 * limit) {
            throw new EOFException();
        }
        if (ended) {
            return;
        }
        sumUp();
        int from = bit >>> 3;
        System.arraycopy(bytes, from, bytes, 0, limit - from);
        bufferAt += from;
        bit &= 7;
        summedTo = 0;
        ByteBuffer free = ByteBuffer.wrap(bytes, limit - from, BUFFER_BYTES - limit + from);
        while (free.hasRemaining() && !ended) {
            ended = file.read(free) < 0;
        }
        limit = free.position();
        Arrays.fill(bytes, limit, limit + PAD_BYTES, (byte) 0);
        lastSafeBit = 8 * (limit - 8) + 7;
    }

    @Override
    public void close() throws IOException {
        file.close();
    }
}
