package org.steadyshaft.cli;

import java.io.BufferedWriter;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.Callable;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVPrinter;
import org.steadyshaft.capture.ScopeTextWriter;
import org.steadyshaft.capture.WavWriter;
import org.steadyshaft.simulate.PotteryDemo;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** Makes the invented captures of the demo. */
@Command(
        name = "simulate",
        description = "Makes the demo's invented captures and their run sheet.",
        mixinStandardHelpOptions = true)
final class SimulateCommand implements Callable<Integer> {
    private static final double SCOPE_RANGE_VOLTS = 25;

    @Spec
    private CommandSpec spec;

    @Option(
            names = "--out",
            paramLabel = "DIR",
            defaultValue = "recordings",
            description = "folder for the captures (default: ${DEFAULT-VALUE})")
    private Path out;

    @Override
    public Integer call() {
        try {
            Files.createDirectories(out);
            for (PotteryDemo.Capture capture : PotteryDemo.captures()) {
                Path file = out.resolve(capture.file());
                switch (capture.kind()) {
                    case WAV -> new WavWriter(16).write(capture.source(), file);
                    case SCOPE_TEXT -> new ScopeTextWriter(SCOPE_RANGE_VOLTS).write(capture.source(), file);
                }
                spec.commandLine().getOut().println("made " + file);
            }
            writeSheet(out.resolve("run-sheet.csv"));
            return 0;
        } catch (IOException e) {
            spec.commandLine().getErr().println("steadyshaft: captures cannot be written below " + out + ": " + e);
            return 1;
        }
    }

    private static void writeSheet(Path sheet) throws IOException {
        try (BufferedWriter writer = Files.newBufferedWriter(sheet, StandardCharsets.UTF_8);
                CSVPrinter printer = new CSVPrinter(
                        writer,
                        CSVFormat.DEFAULT.builder().setRecordSeparator('\n').get())) {
            printer.printRecord("file", "circuit", "setting", "load", "pole_pairs", "mains_hz", "channel", "note");
            for (PotteryDemo.Capture capture : PotteryDemo.captures()) {
                printer.printRecord(
                        capture.file(),
                        capture.circuit(),
                        capture.setting(),
                        capture.load(),
                        PotteryDemo.POLE_PAIRS,
                        PotteryDemo.MAINS_HZ,
                        "",
                        capture.note());
            }
        }
    }
}
