package panelbook.app.calendars;

import java.time.Clock;
import java.time.Duration;
import java.util.Optional;
import java.util.UUID;
import java.util.concurrent.atomic.AtomicBoolean;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.beans.factory.ObjectProvider;
import org.springframework.beans.factory.annotation.Value;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.scheduling.annotation.Scheduled;
import org.springframework.stereotype.Component;
import panelbook.app.calendars.CalendarFetcher.NotFetchedException;
import panelbook.app.calendars.ics.UnreadableCalendarException;
import panelbook.app.database.Rows;

/**
 * Fetches the calendars whose time has come. An instance of the service that fetches one first writes down that it tries, under a
 * row lock: so that the others leave it alone, whether it succeeds, fails or is killed. No connection is held while it waits.
 */
@Component
class CalendarRounds {

    private static final Logger LOG = LoggerFactory.getLogger(CalendarRounds.class);

    /** An unchanged calendar is laid out again at least this often, since the time that is looked at moves on. */
    private static final Duration WHOLE_AFTER = Duration.ofDays(1);

    private static final String TRY = """
            update booking_reading g set tried_at = :now
            where g.source_id = (
                select g.source_id from booking_reading g join booking_source s on s.id = g.source_id
                where g.url is not null and s.retired_at is null and (:id::uuid is null or g.source_id = :id)
                  and (:id::uuid is not null or g.tried_at is null or g.tried_at <= :before)
                order by g.tried_at nulls first, g.source_id limit 1 for update of g skip locked)
            returning g.source_id, g.url, g.etag, g.last_modified, g.read_at
            """;

    private final JdbcClient jdbc;
    private final CalendarReadings readings;
    private final ObjectProvider<CalendarFetcher> fetcher;
    private final Clock clock;
    private final Duration every;
    private final AtomicBoolean underWay = new AtomicBoolean();

    /**
     * Rounds.
     *
     * @param every {@code panelbook.bookings.every}: too short, and servers of calendars turn the service away; too long, and plans
     *     run into new bookings
     */
    CalendarRounds(
            JdbcClient jdbc,
            CalendarReadings readings,
            ObjectProvider<CalendarFetcher> fetcher,
            Clock clock,
            @Value("${panelbook.bookings.every:PT15M}") Duration every) {
        this.jdbc = jdbc;
        this.readings = readings;
        this.fetcher = fetcher;
        this.clock = clock;
        this.every = every;
    }

    private record Due(
            UUID sourceId,
            String url,
            @Nullable String etag,
            @Nullable String lastModified) {}

    /** Fetches each calendar whose time has come. */
    @Scheduled(
            initialDelayString = "${panelbook.bookings.first:PT2M}",
            fixedDelayString = "${panelbook.bookings.round:PT1M}")
    void run() {
        for (var due = next(null); due.isPresent(); due = next(null)) {
            fetch(due.get());
        }
    }

    /** Fetches a calendar now, unless another instance is about to. */
    void fetchNow(UUID sourceId) {
        next(sourceId).ifPresent(this::fetch);
    }

    private Optional<Due> next(@Nullable UUID sourceId) {
        var now = clock.instant();
        return jdbc.sql(TRY)
                .param("now", Rows.at(now))
                .param("before", Rows.at(now.minus(every)))
                .param("id", sourceId)
                .query((row, n) -> {
                    var read = Rows.instantOrNull(row, "read_at");
                    var whole = read == null || !read.isAfter(now.minus(WHOLE_AFTER));
                    return new Due(
                            Rows.id(row, "source_id"),
                            row.getString("url"),
                            whole ? null : row.getString("etag"),
                            whole ? null : row.getString("last_modified"));
                })
                .optional();
    }

    private void fetch(Due due) {
        try {
            var fetched = fetcher.getObject().fetch(due.url(), due.etag(), due.lastModified());
            if (fetched.text() == null) {
                note(due.sourceId(), null);
            } else {
                readings.fetched(due.sourceId(), fetched.text(), fetched.etag(), fetched.lastModified());
            }
        } catch (NotFetchedException notFetched) {
            note(due.sourceId(), String.valueOf(notFetched.getMessage()));
        } catch (UnreadableCalendarException unreadable) {
            note(due.sourceId(), "The calendar cannot be read, " + unreadable.getMessage());
        } catch (RuntimeException failed) {
            LOG.error("The calendar {} could not be kept", due.sourceId(), failed);
            note(due.sourceId(), "The service failed to keep it; its log says why.");
        }
    }

    private void note(UUID sourceId, @Nullable String error) {
        jdbc.sql("update booking_reading set error = ? where source_id = ?")
                .param(error)
                .param(sourceId)
                .update();
    }
}
