package org.steadyshaft.cli;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.concurrent.Callable;
import org.steadyshaft.capture.CaptureException;
import org.steadyshaft.capture.ReadOptions;
import org.steadyshaft.capture.Recordings;
import org.steadyshaft.file.InputFiles;
import org.steadyshaft.file.Reasons;
import org.steadyshaft.poles.HandTurn;
import org.steadyshaft.poles.Marks;
import org.steadyshaft.poles.PoleCount;
import org.steadyshaft.poles.Strobe;
import org.steadyshaft.report.PolesLeaflet;
import org.steadyshaft.signal.PlainText;
import org.steadyshaft.signal.SampleSource;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** How many cycles a tacho gives a turn, by hand. */
@Command(
        name = "poles",
        description = {
            "Counts the pole pairs of a tacho from a recording of its shaft turned by hand, with the motor unplugged: --turns says how often,",
            "or a second channel marks each turn. Gives a whole number, or says why not. With --wheel-turns also the belt's ratio.",
            "Without FILE, --strobe-marks tells at which speeds marks on a wheel seem to stand still under a lamp."
        },
        mixinStandardHelpOptions = true)
final class PolesCommand implements Callable<Integer> {
    private static final int NOT_TOLD = 1;
    private static final double MOST_SECONDS = 1800;

    @Spec
    private CommandSpec spec;

    @Mixin
    private LeafletOutput output;

    @Option(names = "--turns", paramLabel = "N", description = "turns of the motor's shaft in the recording")
    private Double turns;

    @Option(names = "--wheel-turns", paramLabel = "N", description = "turns of the driven wheel meanwhile")
    private Double wheelTurns;

    @Option(
            names = "--channel",
            paramLabel = "N|NAME",
            defaultValue = "1",
            description = "the tacho's channel (default: ${DEFAULT-VALUE})")
    private String channel;

    @Option(names = "--mark", paramLabel = "N|NAME", description = "channel with one pulse a turn")
    private String mark;

    @Option(names = "--sample-rate", paramLabel = "HZ", description = "samples a second of text that holds no times")
    private Double sampleRateHz;

    @Option(names = "--strobe-marks", paramLabel = "N", description = "marks round a wheel under a lamp on the mains")
    private Integer strobeMarks;

    @Option(
            names = "--mains-hz",
            paramLabel = "50|60",
            defaultValue = "50",
            description = "of that lamp (default: ${DEFAULT-VALUE})")
    private double mainsHz;

    @Parameters(paramLabel = "FILE", arity = "0..1", description = "recording of the tacho, the shaft turned by hand")
    private Path file;

    @Override
    public Integer call() {
        check();
        Optional<Strobe> strobe = Optional.ofNullable(strobeMarks).map(m -> new Strobe(m, mainsHz));
        if (file == null) {
            return output.give(PolesLeaflet.of(strobe.orElseThrow()), "poles", folder -> List.of());
        }
        PoleCount count;
        try {
            count = count();
        } catch (CaptureException e) {
            throw wrong(String.valueOf(e.getMessage()));
        } catch (IOException e) {
            throw wrong(file + ": cannot be read: " + Reasons.of(e));
        }
        int status = output.give(
                PolesLeaflet.of(count, mark != null, Optional.ofNullable(wheelTurns), strobe),
                "poles",
                folder -> List.of());
        return count.isTold() ? status : NOT_TOLD;
    }

    private void check() {
        if (file == null && strobeMarks == null) {
            throw wrong("poles needs a recording of the shaft turned by hand, or --strobe-marks");
        }
        if (file != null && turns == null && mark == null) {
            throw wrong(
                    "poles needs --turns, how often the shaft was turned, or --mark, a channel with one pulse a turn");
        }
        if (turns != null && !(turns >= 0.5 && turns <= 1e5)) {
            throw wrong("--turns: found " + turns + "; expected 0.5 to 100000");
        }
        if (wheelTurns != null && !(wheelTurns >= 0.1 && wheelTurns <= 1e5)) {
            throw wrong("--wheel-turns: found " + wheelTurns + "; expected 0.1 to 100000");
        }
        if (wheelTurns != null && turns == null) {
            throw wrong("--wheel-turns needs --turns: the belt's ratio is of both");
        }
        if (strobeMarks != null && (strobeMarks < 1 || strobeMarks > 10000)) {
            throw wrong("--strobe-marks: found " + strobeMarks + "; expected 1 to 10000");
        }
        if (mainsHz != 50 && mainsHz != 60) {
            throw wrong("--mains-hz: found " + mainsHz + "; expected 50 or 60");
        }
        if (sampleRateHz != null && !(sampleRateHz > 0 && sampleRateHz <= 1e9)) {
            throw wrong("--sample-rate: found " + sampleRateHz + "; expected above 0 and at most 1e9");
        }
    }

    private PoleCount count() throws IOException {
        Optional<String> problem = InputFiles.problem(file, "a recording");
        if (problem.isPresent()) {
            throw wrong(file + ": " + problem.get());
        }
        SampleSource source = Recordings.open(
                file,
                file.toString(),
                new ReadOptions(sampleRateHz == null ? OptionalDouble.empty() : OptionalDouble.of(sampleRateHz)));
        double seconds = source.samples() / source.sampleRateHz();
        if (seconds > MOST_SECONDS) {
            throw wrong(String.format(
                    "%s: found %.0f s; expected at most %.0f s of a shaft turned by hand",
                    file, seconds, MOST_SECONDS));
        }
        HandTurn turn = HandTurn.count(source, channel(source, "--channel", channel));
        if (mark == null) {
            return PoleCount.of(turn, turns);
        }
        Marks marks = Marks.of(source, channel(source, "--mark", mark));
        if (marks.seconds().size() < 2) {
            throw wrong("--mark: found " + marks.seconds().size() + " pulses on channel " + mark
                    + "; expected two or more");
        }
        return marks.poles(turn);
    }

    private int channel(SampleSource source, String option, String said) {
        for (int c = 0; c < source.channels(); c++) {
            if (source.channelName(c).equalsIgnoreCase(said)
                    || Integer.toString(c + 1).equals(said)) {
                return c;
            }
        }
        throw wrong(option + ": found '" + said + "'; expected a number from 1 to " + source.channels()
                + " or the name of a channel");
    }

    private ParameterException wrong(String message) {
        return new ParameterException(spec.commandLine(), PlainText.of(message));
    }
}
