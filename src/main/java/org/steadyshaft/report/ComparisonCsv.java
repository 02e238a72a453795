package org.steadyshaft.report;

import java.io.IOException;
import java.io.Writer;
import java.util.Optional;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVPrinter;
import org.steadyshaft.compare.Comparison;
import org.steadyshaft.compare.Difference;
import org.steadyshaft.compare.Estimate;
import org.steadyshaft.compare.Group;
import org.steadyshaft.compare.Measure;
import org.steadyshaft.compare.Sag;
import org.steadyshaft.compare.WorkCheck;
import org.steadyshaft.file.SpreadsheetText;

/** Writes comparison.csv: the numbers of {@link ComparisonJson} as one table. */
final class ComparisonCsv {
    /** How the table begins. */
    static final String FIRST_COLUMNS = "kind,circuit,other,work,setting,load,mean_rpm,other_rpm,runs,measure";

    /** How the table of groups began that earlier versions wrote. */
    static final String FORMER_FIRST_COLUMNS = "circuit,from_rpm,to_rpm,load,runs,mean_rpm";

    private ComparisonCsv() {}

    /**
     * Writes the same figures as one table: rows of the kinds measure, sag, difference and limit; what a kind has not is empty.
     */
    static void write(Comparison comparison, Writer out) throws IOException {
        CSVPrinter printer = new CSVPrinter(
                out, CSVFormat.DEFAULT.builder().setRecordSeparator("\n").get());
        printer.printRecord((Object[]) (FIRST_COLUMNS
                        + ",unit,value,low95,high95,other_value,minutes,limit,p,adjusted_p,"
                        + "verdict,reason,more_minutes")
                .split(","));
        for (Group group : comparison.groups()) {
            for (Measure measure : Measure.values()) {
                measure(printer, group, measure);
            }
        }
        for (Sag sag : comparison.sags()) {
            row(
                    printer,
                    "sag",
                    sag.circuit(),
                    "",
                    "",
                    sag.setting(),
                    sag.load(),
                    sag.loadedRpm(),
                    sag.lightRpm(),
                    sag.runs().size(),
                    Measure.SAG,
                    sag.regulation().percent(),
                    sag.low95(),
                    sag.high95(),
                    "",
                    "",
                    "",
                    "",
                    "",
                    "",
                    "",
                    "");
        }
        for (Difference d : comparison.differences()) {
            Optional<Difference.Test> test = d.outcome();
            row(
                    printer,
                    "difference",
                    d.first().circuit(),
                    d.second().circuit(),
                    "",
                    "",
                    d.load(),
                    d.first().meanRpm(),
                    d.second().meanRpm(),
                    "",
                    d.measure(),
                    optional(d.first().value()),
                    optional(test.map(t -> t.low95())),
                    optional(test.map(t -> t.high95())),
                    optional(d.second().value()),
                    "",
                    optional(d.limit()),
                    optional(test.map(Difference.Test::p)),
                    optional(test.map(Difference.Test::adjustedP)),
                    d.verdict().word(),
                    d.reason(),
                    optional(d.moreMinutes()));
        }
        for (WorkCheck c : comparison.checks()) {
            Optional<WorkCheck.Figure> f = c.figure();
            row(
                    printer,
                    "limit",
                    c.circuit(),
                    "",
                    c.work().name(),
                    c.group().map(g -> String.join(" or ", g.settings())).orElse(""),
                    c.group().map(Group::load).orElse(""),
                    optional(c.group().map(Group::meanRpm)),
                    "",
                    "",
                    c.measure(),
                    optional(f.map(WorkCheck.Figure::value)),
                    optional(f.map(WorkCheck.Figure::low95)),
                    optional(f.map(WorkCheck.Figure::high95)),
                    "",
                    "",
                    c.most(),
                    "",
                    "",
                    c.status().word(),
                    c.reason(),
                    optional(c.moreMinutes()));
        }
        printer.flush();
    }

    private static void measure(CSVPrinter printer, Group group, Measure measure) throws IOException {
        Optional<Estimate> e = group.estimate(measure);
        String reason = group.untold().getOrDefault(measure, "");
        if (e.isPresent() || !reason.isEmpty()) {
            row(
                    printer,
                    "measure",
                    group.circuit(),
                    "",
                    "",
                    String.join(" or ", group.settings()),
                    group.load(),
                    group.meanRpm(),
                    "",
                    group.runs().size(),
                    measure,
                    optional(e.map(Estimate::value)),
                    optional(e.map(Estimate::low95)),
                    optional(e.map(Estimate::high95)),
                    "",
                    optional(e.map(Estimate::minutes)),
                    "",
                    "",
                    "",
                    "",
                    reason,
                    "");
        }
    }

    private static Object optional(Optional<Double> value) {
        return value.isPresent() ? value.get() : "";
    }

    /** Numbers are written as in all files, words so that no spreadsheet takes them for a formula. */
    private static void row(CSVPrinter printer, Object... cells) throws IOException {
        for (Object cell : cells) {
            if (cell instanceof Measure measure) {
                printer.print(measure.word());
                printer.print(measure.unit());
            } else if (cell instanceof Double number) {
                printer.print(Double.isFinite(number) ? Numbers.machine(number) : "");
            } else {
                printer.print(cell instanceof String words ? SpreadsheetText.of(words) : cell);
            }
        }
        printer.println();
    }
}
