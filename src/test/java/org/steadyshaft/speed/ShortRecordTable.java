package org.steadyshaft.speed;

import java.util.Locale;
import java.util.Random;

/**
 * Prints how often a short record is given a frequency, its error, and how often twice the stated standard error holds it, with ripple and hum
 * that of what so short a record cannot show with it; run by hand.
 * Columns: cycles, bits, noise, samples, ripple, hum, share given, root mean square error in percent, the same over the bound of Rife
 * and Boorstyn (1974), share covered.
 */
final class ShortRecordTable {
    private ShortRecordTable() {}

    public static void main(String[] arguments) {
        int records = arguments.length > 0 ? Integer.parseInt(arguments[0]) : 200;
        int given = 0;
        int covered = 0;
        int all = 0;
        for (double cycles : new double[] {3, 3.7, 5.2, 9.6, 20}) {
            for (int bits : new int[] {8, 10, 16}) {
                for (double noise : new double[] {20, 30, 40}) {
                    for (int samples : new int[] {500, 1000, 2500}) {
                        for (double[] extra : new double[][] {{0, 0}, {0.003, 0.01}}) {
                            int[] row = row(new ShortRecord(cycles, bits, noise, samples, extra[0], extra[1]), records);
                            given += row[0];
                            covered += row[1];
                            all += records;
                        }
                    }
                }
            }
        }
        System.out.printf(
                Locale.ROOT, "all: given %.2f %%, covered %.2f %%%n", 100.0 * given / all, 100.0 * covered / given);
    }

    private static int[] row(ShortRecord made, int records) {
        Random random = new Random(made.hashCode());
        int given = 0;
        int covered = 0;
        double squares = 0;
        for (int i = 0; i < records; i++) {
            ShortTone tone = new ShortToneFinder(ShortRecord.RATE_HZ, made.step()).find(made.draw(random));
            if (tone instanceof ShortTone.Found found) {
                double error = found.frequencyHz() - made.trueHz();
                given++;
                boolean plain = made.ripple() == 0;
                double stated = Math.hypot(found.standardErrorHz(), plain ? 0 : found.unseenHz());
                covered += Math.abs(error) <= 2 * stated ? 1 : 0;
                squares += error * error;
            }
        }
        double rms = Math.sqrt(squares / Math.max(1, given));
        double powerRatio = Math.pow(10, made.noiseDecibels() / 10);
        double bound = ShortRecord.RATE_HZ / (2 * Math.PI) * Math.sqrt(12 / (powerRatio * Math.pow(made.samples(), 3)));
        System.out.printf(
                Locale.ROOT,
                "%5.1f %3d %4.0f %5d %6.3f %5.3f  %5.1f %% %8.4f %% %6.2f %6.1f %%%n",
                made.cycles(),
                made.bits(),
                made.noiseDecibels(),
                made.samples(),
                made.ripple(),
                made.hum(),
                100.0 * given / records,
                100 * rms / made.trueHz(),
                rms / bound,
                100.0 * covered / Math.max(1, given));
        return new int[] {given, covered};
    }
}
