package org.steadyshaft.front;

import java.io.IOException;
import java.util.LinkedHashMap;
import java.util.Map;
import org.steadyshaft.signal.KeptWaveform;

/** Pieces of a waveform that is too large to be kept: made when they are asked for, the last few remembered. */
final class RemadePieces implements KeptWaveform.Pieces {
    /** Two threads that read forwards over the edges of pieces, and some to spare. */
    private static final int REMEMBERED = 16;

    /** Makes a piece. */
    @FunctionalInterface
    interface Maker {
        float[] make(int channel, int piece) throws IOException;
    }

    private final Maker maker;
    private final int channel;
    private final Map<Integer, float[]> remembered = new LinkedHashMap<>(2 * REMEMBERED, 0.75f, true);

    RemadePieces(Maker maker, int channel) {
        this.maker = maker;
        this.channel = channel;
    }

    @Override
    public float[] piece(int index) throws IOException {
        synchronized (remembered) {
            float[] known = remembered.get(index);
            if (known != null) {
                return known;
            }
        }
        float[] made = maker.make(channel, index);
        synchronized (remembered) {
            remembered.put(index, made);
            if (remembered.size() > REMEMBERED) {
                remembered.remove(remembered.keySet().iterator().next());
            }
        }
        return made;
    }
}
