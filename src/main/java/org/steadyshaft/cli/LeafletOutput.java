package org.steadyshaft.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.List;
import org.steadyshaft.file.OutputFolder;
import org.steadyshaft.file.OutputRefusal;
import org.steadyshaft.file.Reasons;
import org.steadyshaft.report.Leaflet;
import org.steadyshaft.report.ResultFiles;
import org.steadyshaft.signal.PlainText;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/** How the commands with an answer of their own give it: printed, and as a page where a folder is named. */
final class LeafletOutput {
    private static final int FAILED = 1;

    @Spec(Spec.Target.MIXEE)
    private CommandSpec spec;

    @Option(names = "--out", paramLabel = "DIR", description = "also write the answer as a page into this folder")
    private Path out;

    /** More that is written into the folder. */
    @FunctionalInterface
    interface More {
        /** @return what there is to say about it, a line each */
        List<String> into(Path folder) throws IOException;
    }

    /**
     * Prints an answer and writes its page.
     *
     * @param name of the page's file, without its ending
     * @param more what else belongs into the folder
     * @return exit status
     */
    int give(Leaflet leaflet, String name, More more) {
        PrintWriter console = spec.commandLine().getOut();
        leaflet.print(new PlainWriter(console), Math.min(100, Screen.here().columns()));
        if (out == null) {
            return 0;
        }
        if (out.toString().isEmpty()) {
            throw new ParameterException(spec.commandLine(), "--out: found nothing; expected the name of a folder");
        }
        String file = name + ".html";
        try (OutputFolder folder = OutputFolder.claim(out, List.of(ResultFiles.page(file)), List.of())) {
            leaflet.write(folder.path().resolve(file));
            console.println();
            console.println("Open " + PlainText.of(folder.path().resolve(file).toString()));
            more.into(folder.path()).forEach(line -> console.println(PlainText.of(line)));
            return 0;
        } catch (OutputRefusal e) {
            throw new ParameterException(spec.commandLine(), "--out: " + PlainText.of(e.getMessage()));
        } catch (IOException e) {
            spec.commandLine()
                    .getErr()
                    .println("steadyshaft: the page cannot be written below " + PlainText.of(out.toString()) + ": "
                            + Reasons.of(e));
            return FAILED;
        }
    }

    /** Lines that a terminal shows and does not obey. */
    private static final class PlainWriter extends PrintWriter {
        PlainWriter(PrintWriter out) {
            super(out, true);
        }

        @Override
        public void println(String line) {
            super.println(PlainText.of(line));
        }
    }
}
