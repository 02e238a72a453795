package org.steadyshaft.analysis;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.LongStream;
import org.steadyshaft.ripple.MainsRipple;
import org.steadyshaft.ripple.Ripple;

/**
 * How well the lines at the mains were told over many captures.
 *
 * @param told figures told
 * @param inside those whose interval (k = 2) holds the truth
 * @param relative errors of those that are larger than their interval's fifth, as a share of the truth
 * @param untold how many were not
 */
record RippleErrors(int told, int inside, double[] relative, int untold) {
    /** Reads the captures of these seeds. */
    static RippleErrors of(long firstSeed, int captures, boolean print) {
        List<String> rows = new ArrayList<>();
        List<double[]> errors = new ArrayList<>();
        int[] untold = new int[1];
        LongStream.range(firstSeed, firstSeed + captures).forEach(seed -> {
            RippleCase drawn = RippleCase.of(seed);
            Optional<Ripple> ripple = Analysed.of(drawn.source()).rotation().flatMap(Rotation::ripple);
            one(drawn, 2, drawn.twicePercent(), ripple.map(Ripple::twiceMains), seed, errors, untold, rows);
            one(drawn, 1, drawn.oncePercent(), ripple.map(Ripple::mains), seed, errors, untold, rows);
        });
        if (print) {
            rows.forEach(System.out::println);
        }
        int inside =
                (int) errors.stream().filter(e -> Math.abs(e[0] - e[2]) <= e[1]).count();
        double[] relative = errors.stream()
                .filter(e -> e[3] == 2)
                .mapToDouble(e -> Math.abs(e[0] / e[2] - 1))
                .toArray();
        return new RippleErrors(errors.size(), inside, relative, untold[0]);
    }

    private static void one(
            RippleCase drawn,
            int multiple,
            double truePercent,
            Optional<MainsRipple> said,
            long seed,
            List<double[]> errors,
            int[] untold,
            List<String> rows) {
        Optional<MainsRipple.Figure> figure = said.flatMap(MainsRipple::figure);
        String row = String.format(
                Locale.ROOT, "seed %4d fc %6.1f %d x mains true %.4f ", seed, drawn.tachoHz(), multiple, truePercent);
        if (figure.isPresent()) {
            double percent = figure.get().amplitudePercent();
            double expanded = figure.get().expandedPercent();
            errors.add(new double[] {percent, expanded, truePercent, multiple});
            rows.add(row
                    + String.format(
                            Locale.ROOT,
                            "said %.4f +- %.4f %+.2f U",
                            percent,
                            expanded,
                            (percent - truePercent) / expanded));
        } else {
            untold[0]++;
            rows.add(row
                    + said.flatMap(MainsRipple::untold).map(Object::toString).orElse("nothing"));
        }
    }

    double medianPercent() {
        double[] sorted = relative.clone();
        Arrays.sort(sorted);
        return sorted.length == 0 ? Double.NaN : 100 * sorted[sorted.length / 2];
    }

    double insidePercent() {
        return 100.0 * inside / told;
    }

    /** Measured by hand: {@code [captures [first seed]]}, 200 from 1 on where nothing is said. */
    public static void main(String[] arguments) {
        int captures = arguments.length > 0 ? Integer.parseInt(arguments[0]) : 200;
        long first = arguments.length > 1 ? Long.parseLong(arguments[1]) : 1;
        RippleErrors errors = of(first, captures, true);
        System.out.printf(
                Locale.ROOT,
                "%d told, %.1f %% inside k = 2, median error at twice the mains %.2f %%, %d not told%n",
                errors.told,
                errors.insidePercent(),
                errors.medianPercent(),
                errors.untold);
    }
}
