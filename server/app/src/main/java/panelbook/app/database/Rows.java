package panelbook.app.database;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.time.temporal.ChronoUnit;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;

/** Instants, ids and numbers that may be null, in and out of rows. */
public final class Rows {

    private Rows() {}

    /** An instant as the driver takes it, in UTC. */
    public static OffsetDateTime at(Instant instant) {
        return instant.atOffset(ZoneOffset.UTC);
    }

    /** An instant or null as the driver takes it, in UTC. */
    public static @Nullable OffsetDateTime atOrNull(@Nullable Instant instant) {
        return instant == null ? null : at(instant);
    }

    /** An instant as the database will keep it: its clock ticks in microseconds. */
    public static Instant kept(Instant instant) {
        return instant.truncatedTo(ChronoUnit.MICROS);
    }

    /** The instant of a column that is never null. */
    public static Instant instant(ResultSet row, String column) throws SQLException {
        return row.getObject(column, OffsetDateTime.class).toInstant();
    }

    /** The instant of a column, or null. */
    public static @Nullable Instant instantOrNull(ResultSet row, String column) throws SQLException {
        var value = row.getObject(column, OffsetDateTime.class);
        return value == null ? null : value.toInstant();
    }

    /** The id of a column that is never null. */
    public static UUID id(ResultSet row, String column) throws SQLException {
        return row.getObject(column, UUID.class);
    }

    /** The id of a column, or null. */
    public static @Nullable UUID idOrNull(ResultSet row, String column) throws SQLException {
        return row.getObject(column, UUID.class);
    }

    /** The number of a column, or null. */
    public static @Nullable Double doubleOrNull(ResultSet row, String column) throws SQLException {
        var value = row.getDouble(column);
        return row.wasNull() ? null : value;
    }

    /** The whole number of a column, or null. */
    public static @Nullable Integer intOrNull(ResultSet row, String column) throws SQLException {
        var value = row.getInt(column);
        return row.wasNull() ? null : value;
    }

    /** The truth value of a column, or null. */
    public static @Nullable Boolean booleanOrNull(ResultSet row, String column) throws SQLException {
        var value = row.getBoolean(column);
        return row.wasNull() ? null : value;
    }

    /**
     * Whether a table holds a row of an id, retired or not.
     *
     * @param table its name, never what somebody typed
     */
    public static boolean exists(JdbcClient jdbc, String table, UUID id) {
        return jdbc.sql("select exists (select from " + table + " where id = :id)")
                .param("id", id)
                .query(Boolean.class)
                .single();
    }
}
