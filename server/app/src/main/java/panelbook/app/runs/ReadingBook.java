package panelbook.app.runs;

import java.nio.ByteBuffer;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import javax.sql.DataSource;
import org.postgresql.PGConnection;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.jdbc.datasource.DataSourceUtils;
import org.springframework.stereotype.Component;
import panelbook.colorimetry.XYZ;
import panelbook.colorimetry.signal.Patch;
import panelbook.colorimetry.signal.Reading;
import panelbook.wire.ReadingEntry;

/** The readings of runs: in by COPY, out in the order measured. */
@Component
public class ReadingBook {

    private static final String COPY =
            "copy reading (run_id, red, green, blue, seq, x, y, z) from stdin (format binary)";

    /** Signature, no flags, no extension. */
    private static final byte[] COPY_HEAD = HexFormat.of().parseHex("5047434f50590aff0d0a00" + "00000000" + "00000000");

    /** Count of columns, then the length and the value of each: an id, four whole numbers, three double. */
    private static final int ROW_BYTES = Short.BYTES
            + (Integer.BYTES + 2 * Long.BYTES)
            + 4 * (Integer.BYTES + Integer.BYTES)
            + 3 * (Integer.BYTES + Double.BYTES);

    private final DataSource dataSource;
    private final JdbcClient jdbc;

    ReadingBook(DataSource dataSource, JdbcClient jdbc) {
        this.dataSource = dataSource;
        this.jdbc = jdbc;
    }

    /** All readings of a run, in the order measured. */
    public List<Reading> of(UUID runId) {
        return jdbc.sql("select red, green, blue, x, y, z from reading where run_id = :run order by seq")
                .param("run", runId)
                .query((row, n) -> reading(row))
                .list();
    }

    /** The grey readings, white and black included, of each of the runs, in the order measured. */
    public Map<UUID, List<Reading>> greysOf(Collection<UUID> runIds) {
        var greys = new HashMap<UUID, List<Reading>>();
        jdbc.sql("""
                        select run_id, red, green, blue, x, y, z from reading
                        where run_id = any (:runs) and red = green and green = blue order by run_id, seq
                        """).param("runs", runIds.toArray(new UUID[0])).query(row -> {
            greys.computeIfAbsent(row.getObject("run_id", UUID.class), id -> new ArrayList<>())
                    .add(reading(row));
        });
        return greys;
    }

    /** A page of the readings of a run after the given place in the order measured, counted from 0. */
    List<ReadingEntry> page(UUID runId, int afterSeq, int limit) {
        return jdbc.sql("""
                        select red, green, blue, x, y, z from reading
                        where run_id = :run and seq > :after order by seq limit :limit
                        """)
                .param("run", runId)
                .param("after", afterSeq)
                .param("limit", limit)
                .query((row, n) -> new ReadingEntry(
                        row.getInt(1),
                        row.getInt(2),
                        row.getInt(3),
                        row.getDouble(4),
                        row.getDouble(5),
                        row.getDouble(6)))
                .list();
    }

    /** Adds the readings of a run in the transaction under way. */
    void add(UUID runId, List<ReadingEntry> readings) {
        var connection = DataSourceUtils.getConnection(dataSource);
        try {
            var copy = connection.unwrap(PGConnection.class).getCopyAPI().copyIn(COPY);
            try {
                var bytes = copyRows(runId, readings);
                copy.writeToCopy(bytes, 0, bytes.length);
                copy.endCopy();
            } finally {
                if (copy.isActive()) {
                    copy.cancelCopy();
                }
            }
        } catch (SQLException e) {
            throw new IllegalStateException("readings of run " + runId + " could not be stored", e);
        } finally {
            DataSourceUtils.releaseConnection(connection, dataSource);
        }
    }

    /** The binary format of COPY: PostgreSQL 18, "COPY", File Formats. */
    private static byte[] copyRows(UUID runId, List<ReadingEntry> readings) {
        var rows = ByteBuffer.allocate(COPY_HEAD.length + readings.size() * ROW_BYTES + Short.BYTES);
        rows.put(COPY_HEAD);
        var seq = 0;
        for (var r : readings) {
            rows.putShort((short) 8);
            rows.putInt(2 * Long.BYTES)
                    .putLong(runId.getMostSignificantBits())
                    .putLong(runId.getLeastSignificantBits());
            put(rows, r.red());
            put(rows, r.green());
            put(rows, r.blue());
            put(rows, seq++);
            put(rows, r.x());
            put(rows, r.y());
            put(rows, r.z());
        }
        return rows.putShort((short) -1).array();
    }

    private static void put(ByteBuffer rows, int value) {
        rows.putInt(Integer.BYTES).putInt(value);
    }

    private static void put(ByteBuffer rows, double value) {
        rows.putInt(Double.BYTES).putDouble(value);
    }

    static Reading reading(ResultSet row) throws SQLException {
        return new Reading(
                new Patch(row.getInt("red"), row.getInt("green"), row.getInt("blue")),
                new XYZ(row.getDouble("x"), row.getDouble("y"), row.getDouble("z")));
    }
}
