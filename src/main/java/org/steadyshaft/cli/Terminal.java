package org.steadyshaft.cli;

import me.tongfei.progressbar.ProgressBar;
import me.tongfei.progressbar.ProgressBarBuilder;
import me.tongfei.progressbar.ProgressBarConsumer;
import me.tongfei.progressbar.ProgressBarStyle;

/** Progress for people who watch a terminal; silence elsewhere. */
final class Terminal implements AutoCloseable {
    private final ProgressBar bar;

    private Terminal(ProgressBar bar) {
        this.bar = bar;
    }

    /** Nothing is shown. */
    static Terminal silent() {
        return new Terminal(null);
    }

    /** A progress bar on stderr if that is a terminal. */
    static Terminal progress(String what, int steps) {
        if (!Screen.isTerminal()) {
            return new Terminal(null);
        }
        return new Terminal(new ProgressBarBuilder()
                .setTaskName(what)
                .setInitialMax(steps)
                .setStyle(ProgressBarStyle.ASCII)
                .setConsumer(new PlainLine())
                .build());
    }

    /** Redraws one line by carriage return; needs no native terminal library. */
    private static final class PlainLine implements ProgressBarConsumer {
        private static final int WIDTH = 79;

        @Override
        public int getMaxRenderedLength() {
            return WIDTH;
        }

        @Override
        public void accept(String rendered) {
            System.err.print("\r" + rendered);
            System.err.flush();
        }

        @Override
        public void close() {
            System.err.println();
        }
    }

    void step() {
        if (bar != null) {
            bar.step();
        }
    }

    /** Goes to a step of the whole. */
    void stepTo(long step) {
        if (bar != null) {
            bar.stepTo(step);
        }
    }

    @Override
    public void close() {
        if (bar != null) {
            bar.close();
        }
    }
}
