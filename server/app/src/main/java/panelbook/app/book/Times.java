package panelbook.app.book;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.time.temporal.ChronoUnit;
import org.jspecify.annotations.Nullable;

/** Instants to and from the database, whose clock ticks in microseconds. */
public final class Times {

    private Times() {}

    /** As a parameter of a statement. */
    public static OffsetDateTime parameter(Instant instant) {
        return instant.atOffset(ZoneOffset.UTC);
    }

    /** As a parameter of a statement; null stays null. */
    public static @Nullable OffsetDateTime optionalParameter(@Nullable Instant instant) {
        return instant == null ? null : parameter(instant);
    }

    /** From a column that is never null. */
    public static Instant instant(ResultSet row, String column) throws SQLException {
        return row.getObject(column, OffsetDateTime.class).toInstant();
    }

    /** From a column that may be null. */
    public static @Nullable Instant optionalInstant(ResultSet row, String column) throws SQLException {
        var time = row.getObject(column, OffsetDateTime.class);
        return time == null ? null : time.toInstant();
    }

    /** As the database will keep it. */
    public static Instant kept(Instant instant) {
        return instant.truncatedTo(ChronoUnit.MICROS);
    }
}
