package panelbook.colorimetry;

import de.siegmar.fastcsv.reader.CommentStrategy;
import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.NamedCsvRecord;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;

/** Published numbers from the files beside the tests; each file names its source on top. */
public final class PublishedTable {
    private PublishedTable() {}

    public static List<NamedCsvRecord> rows(String file) {
        String path = "/panelbook/colorimetry/" + file;
        try (InputStream in = PublishedTable.class.getResourceAsStream(path)) {
            if (in == null) {
                throw new IllegalStateException("no published table " + path + " on the class path");
            }
            List<NamedCsvRecord> rows = CsvReader.builder()
                    .commentStrategy(CommentStrategy.SKIP)
                    .ofNamedCsvRecord(new InputStreamReader(in, StandardCharsets.UTF_8))
                    .stream()
                    .toList();
            if (rows.isEmpty()) {
                throw new IllegalStateException("published table " + path + " holds no rows");
            }
            return rows;
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    public static double number(NamedCsvRecord row, String column) {
        return Double.parseDouble(row.getField(column));
    }

    public static double[] column(String file, String column) {
        return rows(file).stream().mapToDouble(row -> number(row, column)).toArray();
    }

    public static XYZ xyz(NamedCsvRecord row, String x, String y, String z) {
        return new XYZ(number(row, x), number(row, y), number(row, z));
    }
}
