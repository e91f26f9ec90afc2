package panelbook.app.calendars;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;
import panelbook.app.calendars.CalendarFeeds.Open;
import panelbook.app.calendars.ics.CalendarWriter;
import panelbook.app.calendars.ics.CalendarWriter.Entry;
import panelbook.app.calendars.ics.CalendarWriter.Standing;
import panelbook.app.database.Query;
import panelbook.app.database.Rows;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/**
 * Visits as calendars. A calibrator's entries last as long as the work; a room's begin with the warm-up, since the room is taken
 * from then on.
 */
@Component
class VisitCalendars {

    private static final Duration BACK = Duration.ofDays(60);
    private static final Duration DROPPED_FOR = Duration.ofDays(30);
    private static final DateTimeFormatter CLOCK = DateTimeFormatter.ofPattern("HH:mm", Locale.ROOT);
    private static final String SELECT = """
            select v.id, v.warm_up_from, v.starts_at, v.ends_at, v.state, v.work::text as work, v.reason, v.changed_at, v.version,
                   f.name || '/' || r.name as room, r.time_zone, k.name as calibrator
            from visit v join room r on r.id = v.room_id join facility f on f.id = r.facility_id
            join calibrator k on k.id = v.calibrator_id""";

    private final JdbcClient jdbc;
    private final JsonMapper json;
    private final Clock clock;

    VisitCalendars(JdbcClient jdbc, JsonMapper json, Clock clock) {
        this.jdbc = jdbc;
        this.json = json;
        this.clock = clock;
    }

    /** Visits of the last 60 days and all that lie ahead; those that were dropped are shown as cancelled for 30 days. */
    @Transactional(readOnly = true)
    byte[] of(Open feed) {
        var now = clock.instant();
        var entries = new Query(SELECT)
                .where("v.calibrator_id = :calibrator", "calibrator", feed.calibratorId())
                .where("v.room_id = :room", "room", feed.roomId())
                .where("v.ends_at >= :back", "back", Rows.at(now.minus(BACK)))
                .where("(v.state <> 'dropped' or v.changed_at >= :dropped)", "dropped", Rows.at(now.minus(DROPPED_FOR)))
                .list(jdbc, (row, n) -> entry(row, feed.roomId() != null), "v.starts_at, v.id");
        return CalendarWriter.write("Visits: " + feed.name(), entries);
    }

    private Entry entry(ResultSet row, boolean ofRoom) throws SQLException {
        var warmUpFrom = Rows.instant(row, "warm_up_from");
        var startsAt = Rows.instant(row, "starts_at");
        var room = row.getString("room");
        return new Entry(
                Rows.id(row, "id") + "@panelbook",
                row.getLong("version"),
                Rows.instant(row, "changed_at"),
                ofRoom ? warmUpFrom : startsAt,
                Rows.instant(row, "ends_at"),
                ofRoom ? "Calibration by " + row.getString("calibrator") : "Calibration: " + room,
                room,
                description(row, warmUpFrom, startsAt),
                standing(row.getString("state")));
    }

    private static Standing standing(String state) {
        return switch (state) {
            case "proposed" -> Standing.TENTATIVE;
            case "dropped" -> Standing.CANCELLED;
            default -> Standing.CONFIRMED;
        };
    }

    private String description(ResultSet row, Instant warmUpFrom, Instant startsAt) throws SQLException {
        var zone = ZoneId.of(row.getString("time_zone"));
        var reason = row.getString("reason");
        return (warmUpFrom.isBefore(startsAt)
                        ? "Displays on from " + CLOCK.format(warmUpFrom.atZone(zone)) + ", work from "
                                + CLOCK.format(startsAt.atZone(zone)) + " (" + zone + ").\n"
                        : "")
                + json.readTree(row.getString("work"))
                        .valueStream()
                        .map(VisitCalendars::work)
                        .collect(Collectors.joining("\n"))
                + (reason == null ? "" : "\n" + reason);
    }

    /** E.g. {@code North/Suite 1/Main/HDR (hero): recalibration, 60 min: peak luminance crosses its limit}. */
    private static String work(JsonNode work) {
        var what = List.of("work", "minutes").stream()
                .map(work::path)
                .filter(part -> !part.isMissingNode() && !part.isNull())
                .map(part -> part.isNumber() ? part.asString() + " min" : part.asString())
                .collect(Collectors.joining(", "));
        var why = work.path("why").asString("");
        return work.path("preset").asString("") + (work.path("hero").asBoolean(false) ? " (hero)" : "") + ": " + what
                + (why.isEmpty() ? "" : ": " + why);
    }
}
