package org.steadyshaft.signal;

import java.util.Arrays;
import java.util.Objects;
import java.util.stream.DoubleStream;

/** An unchanging row of numbers that hands out elements and never its array. */
public final class DoubleSeries {
    public static final DoubleSeries EMPTY = new DoubleSeries(new double[0]);

    private final double[] values;

    private DoubleSeries(double[] values) {
        this.values = values;
    }

    /** A series with a copy of the given values. */
    public static DoubleSeries of(double... values) {
        return new DoubleSeries(values.clone());
    }

    public int size() {
        return values.length;
    }

    public boolean isEmpty() {
        return values.length == 0;
    }

    /** @throws IndexOutOfBoundsException outside 0 to size - 1 */
    public double get(int index) {
        return values[index];
    }

    public double first() {
        return values[0];
    }

    public double last() {
        return values[values.length - 1];
    }

    public DoubleStream stream() {
        return Arrays.stream(values);
    }

    /** A copy of the values. */
    public double[] toArray() {
        return values.clone();
    }

    /** A copy of the values from {@code from} up to but not including {@code to}. */
    public double[] toArray(int from, int to) {
        return Arrays.copyOfRange(values, from, to);
    }

    /** Grows a series value by value. */
    public static final class Builder {
        private static final int USUAL = 256;

        private double[] values;
        private int size;

        public Builder() {
            this(USUAL);
        }

        /** @param expected about how many values will be added; it may be wrong */
        public Builder(int expected) {
            values = new double[Math.max(2, expected)];
        }

        public Builder add(double value) {
            if (size == values.length) {
                values = Arrays.copyOf(values, size + (size >> 1));
            }
            values[size++] = value;
            return this;
        }

        public int size() {
            return size;
        }

        public double get(int index) {
            return values[Objects.checkIndex(index, size)];
        }

        public Builder dropLast() {
            Objects.checkIndex(size - 1, size);
            size--;
            return this;
        }

        public DoubleSeries build() {
            return new DoubleSeries(Arrays.copyOf(values, size));
        }
    }
}
