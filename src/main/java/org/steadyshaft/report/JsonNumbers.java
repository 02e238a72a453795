package org.steadyshaft.report;

import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.util.Optional;
import java.util.OptionalDouble;

/** Writes numbers of a result file, all with the same digits; what is absent is left out. */
final class JsonNumbers {
    private final JsonGenerator json;

    JsonNumbers(JsonGenerator json) {
        this.json = json;
    }

    void write(String field, OptionalDouble value) throws IOException {
        if (value.isPresent()) {
            write(field, value.getAsDouble());
        }
    }

    void write(String field, Optional<Double> value) throws IOException {
        if (value.isPresent()) {
            writeFinite(field, value.get());
        }
    }

    /** Leaves out what is infinite: a limit that there is none of. */
    void writeFinite(String field, double value) throws IOException {
        if (Double.isFinite(value)) {
            write(field, value);
        }
    }

    void write(String field, double value) throws IOException {
        json.writeFieldName(field);
        json.writeNumber(Numbers.machine(value));
    }
}
