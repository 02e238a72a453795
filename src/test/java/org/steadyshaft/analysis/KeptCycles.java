package org.steadyshaft.analysis;

import java.io.IOException;
import java.util.List;
import java.util.Optional;
import org.steadyshaft.condition.GapFinder;
import org.steadyshaft.numeric.Robust;
import org.steadyshaft.signal.CycleTimes;
import org.steadyshaft.signal.KeptWaveform;
import org.steadyshaft.signal.SampleSource;
import org.steadyshaft.signal.Stretch;
import org.steadyshaft.speed.CycleFinder;

/** What the judging of events starts from: the kept waveform and the counted cycles of a recording. */
public record KeptCycles(KeptWaveform waveform, CycleTimes cycles, double cycleHz) {
    /** Empty where nothing turns. */
    public static Optional<KeptCycles> of(SampleSource source, double mainsHz) throws IOException {
        FirstPass first = FirstPass.of(source, 0, source.channels(), mainsHz, AnalysisSettings.ASSUMED_POLE_PAIRS);
        if (first.refusal().isPresent()) {
            return Optional.empty();
        }
        List<Stretch> gaps = new GapFinder().find(first.levels(), first.track());
        CycleFinder finder = new CycleFinder(first.waveform(), first.track(), gaps, first.mainsHum());
        double hz = Robust.median(first.track().rotating(first.track()::frequencyHz));
        return Optional.of(new KeptCycles(first.waveform(), finder.cycles(), hz));
    }
}
