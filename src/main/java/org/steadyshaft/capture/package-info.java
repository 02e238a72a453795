/**
 * Reads and writes recordings and reads run sheets. Start at {@link org.steadyshaft.capture.Recordings}, which looks at a
 * file's content and opens it as a {@link org.steadyshaft.signal.SampleSource}; {@link org.steadyshaft.capture.PcmSource}
 * and {@link org.steadyshaft.capture.TextSource} stream blocks, {@link org.steadyshaft.capture.RunSheet} tells what was
 * recorded with which circuit. Uses signal.
 */
package org.steadyshaft.capture;
