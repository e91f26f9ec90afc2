package panelbook.wire.files;

import java.io.BufferedWriter;
import java.io.IOException;
import java.io.OutputStream;
import java.io.OutputStreamWriter;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import org.jspecify.annotations.Nullable;

/**
 * Writes run files in either format, so that reading them gives an equal {@link RunFile}: numbers in a form that reads
 * back to the same double. UTF-8, lines ended by LF, with the number of readings so that a cut file shows.
 */
public final class RunFileWriter {

    private RunFileWriter() {}

    /**
     * Writes a run.
     *
     * @param run what to write
     * @param format in which format
     * @param out where to; flushed and left open
     * @throws IOException when it cannot be written
     */
    public static void write(RunFile run, RunFileFormat format, OutputStream out) throws IOException {
        Writer writer = new BufferedWriter(new OutputStreamWriter(out, StandardCharsets.UTF_8));
        if (format == RunFileFormat.CSV) {
            writeCsv(run, writer);
        } else {
            writeIso(run, writer);
        }
        writer.flush();
    }

    private static void writeCsv(RunFile run, Writer out) throws IOException {
        for (MetadataKey key : MetadataKey.values()) {
            String value = key == MetadataKey.READINGS ? String.valueOf(run.size()) : value(key, run.metadata());
            if (value != null) {
                out.append("# ").append(key.csvName()).append(": ").append(csvText(value));
                out.append('\n');
            }
        }
        out.append(CsvRunReader.HEADER).append('\n');
        StringBuilder row = new StringBuilder();
        for (FileReading reading : run) {
            row.setLength(0);
            appendReading(row, reading, ',');
            out.append(row);
        }
    }

    /** Quotes a text that would otherwise lose its ends on reading. */
    private static String csvText(String value) {
        boolean losesEnds = value.startsWith("\"") || ",;\t".indexOf(value.charAt(value.length() - 1)) >= 0;
        return losesEnds ? quoted(value) : value;
    }

    private static void writeIso(RunFile run, Writer out) throws IOException {
        out.append("ISO28178\nORIGINATOR \"Panelbook\"\n");
        out.append("DESCRIPTOR \"Readings of a display, XYZ absolute in cd/m2\"\n");
        String instrument = run.metadata().instrument();
        if (instrument != null) {
            out.append("INSTRUMENTATION ").append(quoted(instrument)).append('\n');
        }
        for (MetadataKey key : MetadataKey.values()) {
            String value = key == MetadataKey.LUMINANCE_UNIT ? "cd/m2" : value(key, run.metadata());
            if (value != null) {
                out.append("KEYWORD ").append(quoted(key.isoName())).append('\n');
                out.append(key.isoName()).append(' ').append(quoted(value)).append('\n');
            }
        }
        out.append("NUMBER_OF_FIELDS ").append(String.valueOf(1 + IsoRunReader.FIELDS.size()));
        out.append("\nBEGIN_DATA_FORMAT\nSAMPLE_ID");
        for (String field : IsoRunReader.FIELDS) {
            out.append(' ').append(field);
        }
        out.append("\nEND_DATA_FORMAT\nNUMBER_OF_SETS ").append(String.valueOf(run.size()));
        out.append("\nBEGIN_DATA\n");
        writeSets(run, out);
        out.append("END_DATA\n");
    }

    private static void writeSets(RunFile run, Writer out) throws IOException {
        StringBuilder row = new StringBuilder();
        int sample = 0;
        for (FileReading reading : run) {
            row.setLength(0);
            row.append(++sample).append(' ');
            appendReading(row, reading, ' ');
            out.append(row);
        }
    }

    private static void appendReading(StringBuilder row, FileReading reading, char separator) {
        row.append(reading.red()).append(separator);
        row.append(reading.green()).append(separator);
        row.append(reading.blue()).append(separator);
        row.append(reading.x()).append(separator);
        row.append(reading.y()).append(separator);
        row.append(reading.z()).append('\n');
    }

    private static String quoted(String text) {
        return '"' + text.replace("\"", "\"\"") + '"';
    }

    private static @Nullable String value(MetadataKey key, RunMetadata metadata) {
        Object value = switch (key) {
            case PRESET -> metadata.preset();
            case INSTRUMENT -> metadata.instrument();
            case PURPOSE -> metadata.purpose();
            case OPERATOR -> metadata.operator();
            case TAKEN_AT -> metadata.takenAt();
            case PANEL_HOURS -> metadata.panelHours();
            case MINUTES_SINCE_POWER_ON -> metadata.minutesSincePowerOn();
            case AMBIENT_LUX -> metadata.ambientLux();
            case READINGS, LUMINANCE_UNIT -> null;
        };
        return value == null ? null : value.toString();
    }
}
