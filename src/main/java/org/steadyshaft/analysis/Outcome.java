package org.steadyshaft.analysis;

import java.util.List;
import java.util.Objects;
import java.util.Optional;
import org.steadyshaft.signal.Finding;
import org.steadyshaft.signal.FindingCode;
import org.steadyshaft.signal.Grade;

/** What came of one capture: it could be read and was judged, or it could not be read at all. */
public sealed interface Outcome {
    /** Name of the file as the user gave it. */
    String file();

    CaptureLabel label();

    /** What there is to say about the recording, gravest first. */
    List<Finding> findings();

    default Grade grade() {
        return Grade.of(findings());
    }

    /**
     * A recording that was read through.
     *
     * @param rotation the measures; absent where nothing turned
     * @param extract a piece of the waveform
     */
    record Analysed(
            SourceFacts source,
            CaptureLabel label,
            AnalysisSettings settings,
            List<Finding> findings,
            Optional<Rotation> rotation,
            WaveformExtract extract)
            implements Outcome {
        public Analysed {
            Objects.requireNonNull(source, "source");
            findings = findings.stream()
                    .sorted((a, b) -> b.severity().compareTo(a.severity()))
                    .toList();
            if (rotation.isPresent() && Grade.of(findings) == Grade.UNUSABLE) {
                throw new IllegalArgumentException("measures of an unusable recording");
            }
        }

        /** The same with the digest of the file's bytes. */
        Analysed withDigest(String sha256) {
            return new Analysed(source.withDigest(sha256), label, settings, findings, rotation, extract);
        }

        @Override
        public String file() {
            return source.file();
        }
    }

    /**
     * A file that could not be read.
     *
     * @param reason where, what was found, what was expected
     */
    record Rejected(String file, CaptureLabel label, String reason) implements Outcome {
        @Override
        public List<Finding> findings() {
            return List.of(Finding.stop(FindingCode.UNREADABLE, reason));
        }
    }
}
