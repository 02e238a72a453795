package org.steadyshaft.capture;

/**
 * How two channels are mixed before they are coded; a difference needs one bit more than its parts. Source: RFC 9639
 * section 4.2.
 */
enum FlacStereo {
    INDEPENDENT(-1) {
        @Override
        void undo(long[] first, long[] second, int count) {
            // nothing was mixed
        }
    },
    LEFT_SIDE(1) {
        @Override
        void undo(long[] first, long[] second, int count) {
            for (int i = 0; i < count; i++) {
                second[i] = first[i] - second[i];
            }
        }
    },
    SIDE_RIGHT(0) {
        @Override
        void undo(long[] first, long[] second, int count) {
            for (int i = 0; i < count; i++) {
                first[i] += second[i];
            }
        }
    },
    MID_SIDE(1) {
        /** The middle lost its lowest bit, which the difference has, too: sum and difference are even or odd together. */
        @Override
        void undo(long[] first, long[] second, int count) {
            for (int i = 0; i < count; i++) {
                long side = second[i];
                long sum = first[i] << 1 | side & 1;
                first[i] = sum + side >> 1;
                second[i] = sum - side >> 1;
            }
        }
    };

    private final int sideChannel;

    FlacStereo(int sideChannel) {
        this.sideChannel = sideChannel;
    }

    /** Makes left and right of what was coded, in place. */
    abstract void undo(long[] first, long[] second, int count);

    /** Bits a coded channel needs beyond those of a sample. */
    int moreBits(int channel) {
        return channel == sideChannel ? 1 : 0;
    }
}
