package org.steadyshaft.capture;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;

/**
 * How one sample stands in a file of plain samples; integers are scaled so that full scale is 1. The order of the bytes is
 * that of the buffer. Each encoding has
 * its own loop: one shared loop with a call for each sample would be compiled for all of them at once and run slower.
 */
enum PcmEncoding {
    SIGNED_8(1, "PCM 8 bit signed") {
        @Override
        void decode(ByteBuffer bytes, int frames, int frameBytes, int offset, double[] out) {
            for (int i = 0, at = offset; i < frames; i++, at += frameBytes) {
                out[i] = bytes.get(at) / 128.0;
            }
        }
    },
    UNSIGNED_8(1, "PCM 8 bit") {
        @Override
        void decode(ByteBuffer bytes, int frames, int frameBytes, int offset, double[] out) {
            for (int i = 0, at = offset; i < frames; i++, at += frameBytes) {
                out[i] = ((bytes.get(at) & 0xFF) - 128) / 128.0;
            }
        }
    },
    SIGNED_16(2, "PCM 16 bit") {
        @Override
        void decode(ByteBuffer bytes, int frames, int frameBytes, int offset, double[] out) {
            for (int i = 0, at = offset; i < frames; i++, at += frameBytes) {
                out[i] = bytes.getShort(at) / 32768.0;
            }
        }
    },
    SIGNED_24(3, "PCM 24 bit") {
        @Override
        void decode(ByteBuffer bytes, int frames, int frameBytes, int offset, double[] out) {
            int lowest = bytes.order() == ByteOrder.BIG_ENDIAN ? 2 : 0;
            int highest = 2 - lowest;
            for (int i = 0, at = offset; i < frames; i++, at += frameBytes) {
                int low = (bytes.get(at + lowest) & 0xFF) | (bytes.get(at + 1) & 0xFF) << 8;
                out[i] = (low | bytes.get(at + highest) << 16) / 8388608.0;
            }
        }
    },
    SIGNED_32(4, "PCM 32 bit") {
        @Override
        void decode(ByteBuffer bytes, int frames, int frameBytes, int offset, double[] out) {
            for (int i = 0, at = offset; i < frames; i++, at += frameBytes) {
                out[i] = bytes.getInt(at) / 2147483648.0;
            }
        }
    },
    FLOAT_32(4, "float 32 bit") {
        @Override
        void decode(ByteBuffer bytes, int frames, int frameBytes, int offset, double[] out) {
            for (int i = 0, at = offset; i < frames; i++, at += frameBytes) {
                out[i] = bytes.getFloat(at);
            }
        }
    },
    FLOAT_64(8, "float 64 bit") {
        @Override
        void decode(ByteBuffer bytes, int frames, int frameBytes, int offset, double[] out) {
            for (int i = 0, at = offset; i < frames; i++, at += frameBytes) {
                out[i] = bytes.getDouble(at);
            }
        }
    };

    private final int bytes;
    private final String title;

    PcmEncoding(int bytes, String title) {
        this.bytes = bytes;
        this.title = title;
    }

    /** Decodes one channel of {@code frames} frames that begin {@code frameBytes} apart, the first at {@code offset}. */
    abstract void decode(ByteBuffer bytes, int frames, int frameBytes, int offset, double[] out);

    int bytes() {
        return bytes;
    }

    String title() {
        return title;
    }

    boolean isFloat() {
        return this == FLOAT_32 || this == FLOAT_64;
    }
}
