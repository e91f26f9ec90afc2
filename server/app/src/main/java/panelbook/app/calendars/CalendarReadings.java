package panelbook.app.calendars;

import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;
import panelbook.app.calendars.ics.CalendarReader;
import panelbook.app.calendars.ics.Occurrence;
import panelbook.app.calendars.ics.UnreadableCalendarException;
import panelbook.app.database.Rows;
import panelbook.app.rest.Refusal;
import panelbook.wire.FieldProblem;

/** Reads calendars and keeps what they say in place of what they said before. */
@Component
class CalendarReadings {

    private static final Duration BACK = Duration.ofDays(31);
    private static final Duration AHEAD = Duration.ofDays(400);

    private final JdbcClient jdbc;
    private final Clock clock;

    CalendarReadings(JdbcClient jdbc, Clock clock) {
        this.jdbc = jdbc;
        this.clock = clock;
    }

    private record Source(ZoneId zone, boolean fetched, boolean retired, byte @Nullable [] digest) {}

    /**
     * Keeps a calendar that a client sends.
     *
     * @throws Refusal with each line that cannot be read; or when the service fetches this calendar itself
     */
    @Transactional
    void sent(UUID sourceId, byte[] text) {
        var source = locked(sourceId);
        if (source.retired()) {
            throw Refusal.conflict("This booking source is retired: add another.");
        }
        if (source.fetched()) {
            throw Refusal.conflict(
                    "The service fetches this calendar from its address; send a file to a source without one.");
        }
        try {
            keep(sourceId, source, text);
        } catch (UnreadableCalendarException unreadable) {
            throw Refusal.invalid(unreadable.faults().stream()
                    .map(fault -> new FieldProblem("line " + fault.line(), fault.detail()))
                    .toList());
        }
        read(sourceId, null, null);
    }

    /**
     * Keeps a calendar that was fetched, unless the source was retired meanwhile.
     *
     * @param etag for the next fetch
     * @param lastModified for the next fetch
     */
    @Transactional(rollbackFor = UnreadableCalendarException.class)
    void fetched(UUID sourceId, byte[] text, @Nullable String etag, @Nullable String lastModified)
            throws UnreadableCalendarException {
        var source = locked(sourceId);
        if (!source.retired()) {
            keep(sourceId, source, text);
            read(sourceId, etag, lastModified);
        }
    }

    private Source locked(UUID sourceId) {
        return jdbc.sql("""
                        select r.time_zone, s.fetched, s.retired_at is not null as retired, g.digest
                        from booking_source s join room r on r.id = s.room_id join booking_reading g on g.source_id = s.id
                        where s.id = ? for update of s""")
                .param(sourceId)
                .query((row, n) -> new Source(
                        ZoneId.of(row.getString("time_zone")),
                        row.getBoolean("fetched"),
                        row.getBoolean("retired"),
                        row.getBytes("digest")))
                .optional()
                .orElseThrow(() -> Refusal.notFound("booking source", sourceId));
    }

    private void keep(UUID sourceId, Source source, byte[] text) throws UnreadableCalendarException {
        var now = clock.instant();
        var occurrences = CalendarReader.read(text, source.zone(), now.minus(BACK), now.plus(AHEAD));
        jdbc.sql("delete from booking where source_id = ?").param(sourceId).update();
        insert(sourceId, occurrences);
        var digest = digest(text);
        if (!MessageDigest.isEqual(digest, source.digest())) {
            jdbc.sql("update booking_reading set digest = ? where source_id = ?")
                    .params(digest, sourceId)
                    .update();
            // tells the audit log who changed the bookings, and when
            jdbc.sql("update booking_source set version = version + 1 where id = ?")
                    .param(sourceId)
                    .update();
        }
    }

    private void insert(UUID sourceId, List<Occurrence> occurrences) {
        jdbc.sql("""
                        insert into booking (source_id, uid, starts_at, ends_at, title)
                        select :source, * from unnest(:uids::text[], :starts::timestamptz[], :ends::timestamptz[], :titles::text[])""")
                .param("source", sourceId)
                .param("uids", occurrences.stream().map(Occurrence::uid).toArray(String[]::new))
                .param(
                        "starts",
                        instants(occurrences.stream().map(Occurrence::startsAt).toList()))
                .param(
                        "ends",
                        instants(occurrences.stream().map(Occurrence::endsAt).toList()))
                .param("titles", occurrences.stream().map(Occurrence::title).toArray(String[]::new))
                .update();
    }

    private static String[] instants(List<Instant> instants) {
        return instants.stream().map(Instant::toString).toArray(String[]::new);
    }

    private void read(UUID sourceId, @Nullable String etag, @Nullable String lastModified) {
        jdbc.sql("""
                        update booking_reading set read_at = :now, error = null, etag = :etag, last_modified = :modified
                        where source_id = :id""")
                .param("now", Rows.at(clock.instant()))
                .param("etag", etag)
                .param("modified", lastModified)
                .param("id", sourceId)
                .update();
    }

    private static byte[] digest(byte[] text) {
        try {
            return MessageDigest.getInstance("SHA-256").digest(text);
        } catch (NoSuchAlgorithmException impossible) {
            throw new IllegalStateException("Every Java runtime has SHA-256", impossible);
        }
    }
}
