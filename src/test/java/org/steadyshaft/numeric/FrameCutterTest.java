package org.steadyshaft.numeric;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Frames from a stream, against frames cut from the whole array at once. */
class FrameCutterTest {
    private static final String CASES = """
            length, hop, zeros
            8, 4, 0
            8, 4, 4
            8, 8, 0
            8, 8, 7
            8, 1, 0
            8, 2, 6
            8, 3, 0
            8, 3, 5
            7, 5, 2
            1, 1, 0
            """;

    @ParameterizedTest
    @CsvSource(textBlock = CASES, useHeadersInDisplayName = true)
    void framesOfTheWholeArray(int length, int hop, int zeros) {
        for (int samples = 0; samples < 60; samples++) {
            double[] stream = counting(samples);
            double[] padded = new double[zeros + samples];
            System.arraycopy(stream, 0, padded, zeros, samples);
            List<double[]> frames = cut(stream, length, hop, zeros, false);
            int expected = padded.length < length ? 0 : (padded.length - length) / hop + 1;
            assertEquals(expected, frames.size(), samples + " samples");
            for (int i = 0; i < expected; i++) {
                double[] plain = Arrays.copyOfRange(padded, i * hop, i * hop + length);
                assertArrayEquals(plain, frames.get(i), "frame " + i + " of " + samples + " samples");
            }
        }
    }

    /** The end is padded until each sample had all its frames; what comes beyond is empty, and two frames at most. */
    @ParameterizedTest
    @CsvSource(textBlock = CASES, useHeadersInDisplayName = true)
    void endIsPaddedUntilEverySampleHadItsFrames(int length, int hop, int zeros) {
        for (int samples = 1; samples < 60; samples++) {
            List<double[]> frames = cut(counting(samples), length, hop, zeros, true);
            int[] seen = new int[samples + 1];
            for (int i = 0; i < frames.size(); i++) {
                for (int j = 0; j < length; j++) {
                    int sample = i * hop + j - zeros;
                    boolean inside = sample >= 0 && sample < samples;
                    assertEquals(inside ? sample + 1 : 0, frames.get(i)[j], "frame " + i + " place " + j);
                    seen[inside ? sample : samples]++;
                }
            }
            for (int sample = 0; sample < samples; sample++) {
                assertEquals(framesHolding(sample + zeros, length, hop), seen[sample], "frames with sample " + sample);
            }
            int needed = (zeros + samples - 1) / hop + 1;
            assertTrue(frames.size() <= needed + 2, frames.size() + " frames; needed " + needed);
        }
    }

    /** Half overlap with half a frame of zeros before: every sample, also the first and the last, is in two frames. */
    @Test
    void halfOverlapCoversEverySampleTwice() {
        int[] seen = new int[101];
        FrameCutter cutter = new FrameCutter(16, 8, 8, (frame, index) -> {
            for (double value : frame) {
                seen[(int) value]++;
            }
        });
        cutter.add(counting(100), 100);
        cutter.finishPadded();
        for (int sample = 1; sample <= 100; sample++) {
            assertEquals(2, seen[sample], "sample " + sample);
        }
    }

    @Test
    void onlyTheCountedSamplesAreTaken() {
        List<double[]> frames = new ArrayList<>();
        FrameCutter cutter = new FrameCutter(3, 3, 0, (frame, index) -> frames.add(frame.clone()));
        cutter.add(new double[] {1, 2, 99}, 2);
        cutter.add(new double[] {3, 99}, 1);
        assertEquals(1, frames.size());
        assertArrayEquals(new double[] {1, 2, 3}, frames.get(0));
    }

    @ParameterizedTest
    @CsvSource({"8, 0, 0", "8, -1, 0", "8, 9, 0", "8, 4, -1", "8, 4, 8", "0, 1, 0"})
    void refusesNonsense(int length, int hop, int zeros) {
        assertThrows(IllegalArgumentException.class, () -> new FrameCutter(length, hop, zeros, (frame, index) -> {}));
    }

    /** Frames begin at 0, hop, 2 hop, ...: those that hold a place of the padded stream, by counting. */
    private static int framesHolding(int place, int length, int hop) {
        int holding = 0;
        for (int start = 0; start <= place; start += hop) {
            holding += place < start + length ? 1 : 0;
        }
        return holding;
    }

    /** Feeds the stream in blocks of uneven, seeded sizes, empty ones too, and checks that frames come in order. */
    private static List<double[]> cut(double[] stream, int length, int hop, int zeros, boolean finish) {
        List<double[]> frames = new ArrayList<>();
        FrameCutter cutter = new FrameCutter(length, hop, zeros, (frame, index) -> {
            assertEquals(frames.size(), index, "number of the frame");
            frames.add(frame.clone());
        });
        Random random = new Random(stream.length);
        int at = 0;
        while (at < stream.length) {
            int count = Math.min(stream.length - at, random.nextInt(2 * length + 2));
            cutter.add(Arrays.copyOfRange(stream, at, at + count), count);
            at += count;
        }
        if (finish) {
            cutter.finishPadded();
        }
        return frames;
    }

    private static double[] counting(int samples) {
        double[] stream = new double[samples];
        Arrays.setAll(stream, i -> i + 1);
        return stream;
    }
}
