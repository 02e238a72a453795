package org.steadyshaft.cli;

import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import org.steadyshaft.file.NearNames;
import org.steadyshaft.report.Program;
import org.steadyshaft.signal.PlainText;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;
import picocli.CommandLine.UnmatchedArgumentException;

/** The program. Without the name of a command it analyses. */
@Command(
        name = "steadyshaft",
        description = {
            "Judges from recordings of its tacho voltage how fast and how steadily a universal motor turns.",
            "Without a command it analyses; without inputs it analyses recordings/run-sheet.csv."
        },
        synopsisSubcommandLabel = "[analyse | inspect | simulate | sheet | plan | poles | windings]",
        mixinStandardHelpOptions = true,
        versionProvider = Main.Version.class,
        subcommands = {
            AnalyseCommand.class,
            InspectCommand.class,
            SimulateCommand.class,
            PlanCommand.class,
            PolesCommand.class,
            SheetCommand.class,
            WindingsCommand.class
        },
        footer = {
            "",
            "Exit status: 0 all well, 1 some capture unusable, 2 wrong usage.",
            "Mains can kill: see the safety part of README.md before you connect anything."
        })
public final class Main implements Runnable {
    static final int WRONG_USAGE = 2;
    private static final int SOME_FAILED = 1;
    private static final Set<String> FOR_ALL_COMMANDS = Set.of("-h", "--help", "-V", "--version");

    @Spec
    private CommandSpec spec;

    private Main() {}

    public static void main(String[] args) {
        System.setProperty("java.awt.headless", "true");
        PrintWriter out = new PrintWriter(System.out, true, StandardCharsets.UTF_8);
        PrintWriter err = new PrintWriter(System.err, true, StandardCharsets.UTF_8);
        int status = run(out, err, args);
        if (status != 0) {
            System.exit(status);
        }
    }

    /** Runs a command line; gives the exit status and never exits. */
    static int run(PrintWriter out, PrintWriter err, String... args) {
        CommandLine commandLine = new CommandLine(new Main())
                .setOut(out)
                .setErr(err)
                .setExpandAtFiles(false)
                .setCaseInsensitiveEnumValuesAllowed(true)
                .setUsageHelpAutoWidth(false)
                .setUsageHelpWidth(100)
                .setParameterExceptionHandler(Main::wrongUsage);
        commandLine.setExecutionExceptionHandler(Main::fault);
        int status = commandLine.execute(withDefaultCommand(commandLine, args));
        out.flush();
        err.flush();
        return status;
    }

    private static String[] withDefaultCommand(CommandLine commandLine, String[] args) {
        String first = args.length == 0 ? "" : args[0];
        if (commandLine.getSubcommands().containsKey(first) || FOR_ALL_COMMANDS.contains(first)) {
            return args;
        }
        List<String> all = new ArrayList<>(List.of("analyse"));
        all.addAll(Arrays.asList(args));
        return all.toArray(String[]::new);
    }

    private static int wrongUsage(ParameterException e, String[] args) {
        PrintWriter err = e.getCommandLine().getErr();
        err.println("steadyshaft: " + PlainText.of(e.getMessage() + near(e)));
        err.println("Try 'steadyshaft " + e.getCommandLine().getCommandName() + " --help'.");
        return WRONG_USAGE;
    }

    /** The option that an unknown one was probably meant to be. */
    private static String near(ParameterException e) {
        if (!(e instanceof UnmatchedArgumentException unmatched)
                || unmatched.getUnmatched().isEmpty()) {
            return "";
        }
        String option = unmatched.getUnmatched().get(0).replaceFirst("=.*", "");
        return NearNames.word(
                        option, e.getCommandLine().getCommandSpec().optionsMap().keySet())
                .map(near -> "; did you mean " + near + "?")
                .orElse("");
    }

    /** What may stand first on a command line. */
    static Set<String> words(CommandLine command) {
        Set<String> words = new TreeSet<>(FOR_ALL_COMMANDS);
        CommandLine whole = command.getParent() == null ? command : command.getParent();
        words.addAll(whole.getSubcommands().keySet());
        return words;
    }

    /** A fault of the program: one line, and the trace in a file of its own. */
    private static int fault(Exception e, CommandLine commandLine, CommandLine.ParseResult parsed) {
        commandLine.getErr().println("steadyshaft: " + PlainText.of(Faults.words(e) + Faults.keptElsewhere(e)));
        return SOME_FAILED;
    }

    @Override
    public void run() {
        throw new ParameterException(spec.commandLine(), "missing command");
    }

    /** The version that the build wrote into the jar. */
    static final class Version implements CommandLine.IVersionProvider {
        @Override
        public String[] getVersion() {
            return new String[] {Program.words()};
        }
    }
}
