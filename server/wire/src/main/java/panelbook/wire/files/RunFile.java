package panelbook.wire.files;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.HexFormat;
import java.util.Iterator;
import java.util.List;
import java.util.NoSuchElementException;
import panelbook.wire.ReadingEntry;

/**
 * What a run file holds: metadata and readings, at least one, no patch twice, in the order of the file. Immutable; about
 * 44 bytes a reading. Two runs are equal when their canonical content is, whatever format, line endings, column order
 * or spelling of numbers they were read from.
 */
public final class RunFile implements Iterable<FileReading> {

    /** Readings that a run may hold: above the 262,144 of a cube of 64 levels a channel. */
    public static final int MAX_READINGS = 300_000;

    private final RunMetadata metadata;
    private final int size;
    private final int[] codes;
    private final double[] xyz;
    private final long[] lines;
    private final byte[] digest;

    private RunFile(RunMetadata metadata, int size, int[] codes, double[] xyz, long[] lines) {
        this.metadata = metadata;
        this.size = size;
        this.codes = codes;
        this.xyz = xyz;
        this.lines = lines;
        this.digest = CanonicalContent.sha256(metadata, size, codes, xyz);
    }

    /** Starts a run that does not come from a file (a simulation, an export). */
    public static Builder builder(RunMetadata metadata) {
        return new Builder(metadata);
    }

    /** What the file says about the run. */
    public RunMetadata metadata() {
        return metadata;
    }

    /** The same readings under other metadata; its digest and run id differ when the metadata do. */
    public RunFile withMetadata(RunMetadata other) {
        return new RunFile(other, size, codes, xyz, lines);
    }

    /** Number of readings, 1 or more. */
    public int size() {
        return size;
    }

    /**
     * One reading.
     *
     * @param index place in the file, 0 to size − 1
     * @throws IndexOutOfBoundsException when there is no such place
     */
    public FileReading reading(int index) {
        if (index < 0 || index >= size) {
            throw new IndexOutOfBoundsException("reading " + index + " of " + size);
        }
        int at = 3 * index;
        return new FileReading(
                codes[at], codes[at + 1], codes[at + 2], xyz[at], xyz[at + 1], xyz[at + 2], lines[index]);
    }

    /** The readings in the order of the file. */
    @Override
    public Iterator<FileReading> iterator() {
        return new Iterator<>() {
            private int next;

            @Override
            public boolean hasNext() {
                return next < size;
            }

            @Override
            public FileReading next() {
                if (next >= size) {
                    throw new NoSuchElementException();
                }
                return reading(next++);
            }
        };
    }

    /** The readings as they are sent to the service, in the order of the file. */
    public List<ReadingEntry> entries() {
        List<ReadingEntry> entries = new ArrayList<>(size);
        for (FileReading reading : this) {
            entries.add(reading.entry());
        }
        return Collections.unmodifiableList(entries);
    }

    /**
     * SHA-256 (FIPS 180-4) of the canonical content, 64 lower-case hexadecimal digits. The canonical content is the
     * metadata and the readings' values in order; the lines of the file are not part of it.
     */
    public String digest() {
        return HexFormat.of().formatHex(digest);
    }

    /** The digest as 32 bytes. */
    public byte[] digestBytes() {
        return digest.clone();
    }

    @Override
    public boolean equals(Object other) {
        return other instanceof RunFile that && Arrays.equals(digest, that.digest);
    }

    @Override
    public int hashCode() {
        return Arrays.hashCode(digest);
    }

    @Override
    public String toString() {
        return "run file of " + size + " readings, " + metadata;
    }

    /** Collects readings. Not for several threads. */
    public static final class Builder {

        private final RunMetadata metadata;
        private final PatchIndex patches = new PatchIndex();
        private int[] codes = new int[3 * 64];
        private double[] xyz = new double[3 * 64];
        private long[] lines = new long[64];
        private int size;

        private Builder(RunMetadata metadata) {
            this.metadata = metadata;
        }

        /**
         * Adds a reading that does not come from a file; codes 0 to 65535, X, Y, Z in cd/m².
         *
         * @throws IllegalArgumentException when a value is out of range, the patch is there already, or the run is full
         */
        public Builder add(int red, int green, int blue, double x, double y, double z) {
            return add(new FileReading(red, green, blue, x, y, z, 0));
        }

        /**
         * Adds a reading.
         *
         * @throws IllegalArgumentException when the patch is there already, or the run is full
         */
        public Builder add(FileReading reading) {
            if (size == MAX_READINGS) {
                throw new IllegalArgumentException("a run holds at most " + MAX_READINGS + " readings");
            }
            if (place(reading.red(), reading.green(), reading.blue()) >= 0) {
                throw new IllegalArgumentException("the patch " + reading.red() + ", " + reading.green() + ", "
                        + reading.blue() + " is in the run already");
            }
            append(reading.red(), reading.green(), reading.blue(), reading.x(), reading.y(), reading.z());
            lines[size - 1] = reading.line();
            return this;
        }

        /** Adds a reading that the reader has checked already. */
        void addChecked(int red, int green, int blue, double x, double y, double z, long line) {
            append(red, green, blue, x, y, z);
            lines[size - 1] = line;
        }

        /** Line of the patch, or −1 when the run does not hold it. */
        long lineOf(int red, int green, int blue) {
            int place = place(red, green, blue);
            return place < 0 ? -1 : lines[place];
        }

        int size() {
            return size;
        }

        /**
         * The run.
         *
         * @throws IllegalArgumentException when there is no reading
         */
        public RunFile build() {
            return build(metadata);
        }

        RunFile build(RunMetadata described) {
            if (size == 0) {
                throw new IllegalArgumentException("a run needs at least one reading");
            }
            return new RunFile(
                    described,
                    size,
                    Arrays.copyOf(codes, 3 * size),
                    Arrays.copyOf(xyz, 3 * size),
                    Arrays.copyOf(lines, size));
        }

        private int place(int red, int green, int blue) {
            return patches.find(codes, red, green, blue);
        }

        private void append(int red, int green, int blue, double x, double y, double z) {
            if (size == lines.length) {
                grow();
            }
            int at = 3 * size;
            codes[at] = red;
            codes[at + 1] = green;
            codes[at + 2] = blue;
            xyz[at] = x;
            xyz[at + 1] = y;
            xyz[at + 2] = z;
            patches.add(codes, size);
            size++;
        }

        private void grow() {
            int capacity = Math.min(2 * size, MAX_READINGS);
            codes = Arrays.copyOf(codes, 3 * capacity);
            xyz = Arrays.copyOf(xyz, 3 * capacity);
            lines = Arrays.copyOf(lines, capacity);
        }
    }
}
