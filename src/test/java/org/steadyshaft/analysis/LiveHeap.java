package org.steadyshaft.analysis;

/**
 * Watches how much of the heap is alive while something runs, by collecting the garbage again and again in a thread beside
 * it. What lives for less than the pause between two collections may be missed.
 */
final class LiveHeap {
    private static final long PAUSE_MILLIS = 40;

    private volatile boolean running = true;
    private long peakBytes;

    /** How far the living heap rises above what was alive before [bytes]. */
    static long peakGrowthBytes(Runnable task) throws InterruptedException {
        long beforeBytes = aliveBytes();
        LiveHeap watch = new LiveHeap();
        Thread thread = new Thread(watch::watch, "live heap");
        thread.setDaemon(true);
        thread.start();
        try {
            task.run();
        } finally {
            watch.running = false;
            thread.join();
        }
        return watch.peakBytes - beforeBytes;
    }

    private void watch() {
        try {
            while (running) {
                peakBytes = Math.max(peakBytes, aliveBytes());
                Thread.sleep(PAUSE_MILLIS);
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    private static long aliveBytes() {
        System.gc();
        return Runtime.getRuntime().totalMemory() - Runtime.getRuntime().freeMemory();
    }
}
