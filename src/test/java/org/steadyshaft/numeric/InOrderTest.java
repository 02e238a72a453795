package org.steadyshaft.numeric;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.io.IOException;
import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

class InOrderTest {
    @Test
    void resultsStandInTheOrderOfTheParts() throws IOException {
        List<Integer> found = InOrder.map(1000, index -> index * index);
        assertEquals(IntStream.range(0, 1000).map(i -> i * i).boxed().toList(), found);
    }

    @Test
    void noPartsGiveNothing() throws IOException {
        assertEquals(List.of(), InOrder.map(0, index -> index));
    }

    @Test
    void whatAPartThrowsComesOut() {
        IOException thrown = assertThrows(
                IOException.class,
                () -> InOrder.map(20, index -> {
                    if (index == 13) {
                        throw new IOException("part 13");
                    }
                    return index;
                }));
        assertEquals("part 13", thrown.getMessage());
    }
}
