package org.steadyshaft.simulate;

import java.io.IOException;
import org.steadyshaft.signal.AlteredSource;
import org.steadyshaft.signal.BlockReader;
import org.steadyshaft.signal.SampleSource;

/** The same samples under a header that names another rate than they were taken at. */
final class OtherRate extends AlteredSource {
    private final double headerRateHz;

    OtherRate(SampleSource source, double headerRateHz) {
        super(source);
        if (!(headerRateHz > 0)) {
            throw new IllegalArgumentException("a header that names " + headerRateHz + " Hz; expected above 0");
        }
        this.headerRateHz = headerRateHz;
    }

    @Override
    public double sampleRateHz() {
        return headerRateHz;
    }

    @Override
    public BlockReader open() throws IOException {
        return source.open();
    }
}
