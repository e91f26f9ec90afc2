package panelbook.app.fleet;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Clock;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import java.util.stream.Collectors;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;
import panelbook.app.access.Caller;
import panelbook.app.database.Query;
import panelbook.app.database.Rows;
import panelbook.app.rest.Added;
import panelbook.app.rest.Checks;
import panelbook.app.rest.Paging;
import panelbook.app.rest.Refusal;
import panelbook.wire.Page;
import panelbook.wire.PanelHours;
import panelbook.wire.PanelHoursDraft;
import panelbook.wire.PanelHoursEntered;
import panelbook.wire.PanelHoursEntry;
import panelbook.wire.PanelHoursList;

/** Values of the displays' panel-hours counters. */
@Component
class PanelHoursBook {

    static final double MOST_HOURS = 1_000_000;
    private static final int MOST_VALUES = 50_000;
    private static final String SELECT =
            "select h.id, h.at, h.hours, h.run_id, h.note, h.recorded_by from counted_panel_hours h";

    private final DisplayRows displays;
    private final PanelHoursWatch watch;
    private final PanelHoursQuestions questions;
    private final JdbcClient jdbc;
    private final Clock clock;

    PanelHoursBook(
            DisplayRows displays, PanelHoursWatch watch, PanelHoursQuestions questions, JdbcClient jdbc, Clock clock) {
        this.displays = displays;
        this.watch = watch;
        this.questions = questions;
        this.jdbc = jdbc;
        this.clock = clock;
    }

    /**
     * Adds a value that a person read. A counter that goes back was reset, or its panel was swapped, or the value is
     * mistyped: only a note tells which.
     */
    @Transactional
    Added<PanelHours> add(UUID displayId, PanelHoursDraft draft) {
        var now = clock.instant();
        new Checks()
                .range("/hours", draft.hours(), 0, MOST_HOURS)
                .that(draft.at() == null || !draft.at().isAfter(now), "/at", "Must not lie in the future.")
                .text("/note", draft.note(), 10_000)
                .refuse();
        display(displayId).mustBeInUse();
        var at = draft.at() == null ? now : Rows.kept(draft.at());
        var there = find(displayId, at, draft);
        if (there.isPresent()) {
            return new Added<>(there.get(), false);
        }
        if (draft.note() == null) {
            mustNotGoBack(displayId, at, draft.hours());
        }
        insert(displayId, at, draft, now);
        watch.lookAt(displayId);
        return new Added<>(
                new PanelHours(
                        at, draft.hours(), null, draft.note(), Caller.current().holder()),
                true);
    }

    /** Enters many values, all or none; those that are there already are left. What does not go together is asked about. */
    @Transactional
    PanelHoursEntered enter(PanelHoursList list) {
        check(list);
        var values = list.values();
        var now = clock.instant();
        var added = jdbc.sql("""
                        insert into panel_hours (display_id, at, hours, note, recorded_at, recorded_by)
                        select distinct v.display_id, v.at, v.hours, v.note, :now::timestamptz, :by
                        from unnest(:displays::uuid[], :times::timestamptz[], :hours::float8[], :notes::text[])
                             as v (display_id, at, hours, note)
                        where not exists (select from panel_hours h
                                          where h.display_id = v.display_id and h.at = v.at and h.hours = v.hours
                                            and h.note is not distinct from v.note)""")
                .param("now", Rows.at(now))
                .param("by", Caller.current().holder())
                .param(
                        "displays",
                        values.stream().map(PanelHoursEntry::displayId).toArray(UUID[]::new))
                .param(
                        "times",
                        values.stream()
                                .map(value -> Rows.kept(value.at()).toString())
                                .toArray(String[]::new))
                .param("hours", values.stream().map(PanelHoursEntry::hours).toArray(Double[]::new))
                .param("notes", values.stream().map(PanelHoursEntry::note).toArray(String[]::new))
                .update();
        var touched = values.stream().map(PanelHoursEntry::displayId).collect(Collectors.toSet());
        touched.forEach(watch::lookAt);
        return new PanelHoursEntered(added, values.size() - added, questions.openOf(touched));
    }

    private void check(PanelHoursList list) {
        var checks = new Checks()
                .that(
                        list.values().size() <= MOST_VALUES,
                        "/values",
                        "At most " + MOST_VALUES + " values at once: send them in parts.");
        checks.refuse();
        var ids = list.values().stream().map(PanelHoursEntry::displayId).collect(Collectors.toSet());
        var known = displays.findAllById(ids).stream().collect(Collectors.toMap(DisplayRow::id, display -> display));
        var now = clock.instant();
        for (var i = 0; i < list.values().size(); i++) {
            var value = list.values().get(i);
            var display = known.get(value.displayId());
            var pointer = "/values/" + i;
            checks.range(pointer + "/hours", value.hours(), 0, MOST_HOURS)
                    .that(!value.at().isAfter(now), pointer + "/at", "Must not lie in the future.")
                    .text(pointer + "/note", value.note(), 10_000)
                    .that(display != null, pointer + "/displayId", "There is no such display.")
                    .that(display == null || !display.retired(), pointer + "/displayId", "The display is retired.");
        }
        checks.refuse();
    }

    @Transactional(readOnly = true)
    Page<PanelHours> page(UUID displayId, Paging paging) {
        display(displayId);
        var query = new Query(SELECT)
                .where("h.display_id = :display", "display", displayId)
                .where(
                        "(h.at, h.id) < (:beforeAt, :beforeId)",
                        "beforeAt",
                        Rows.atOrNull(paging.parsed(0, Instant::parse)))
                .bind("beforeId", paging.first() ? null : paging.parsed(1, Long::valueOf));
        var rows = query.list(jdbc, PanelHoursBook::row, "h.at desc, h.id desc limit " + paging.fetch());
        var page = paging.page(rows, row -> List.of(row.value().at().toString(), Long.toString(row.id())));
        return new Page<>(page.items().stream().map(Row::value).toList(), page.next());
    }

    private Optional<PanelHours> find(UUID displayId, Instant at, PanelHoursDraft draft) {
        return new Query(SELECT)
                        .where("h.display_id = :display", "display", displayId)
                        .where("h.at = :at", "at", Rows.at(at))
                        .where("h.hours = :hours", "hours", draft.hours())
                        .where("h.note is not distinct from cast(:note as text)")
                        .bind("note", draft.note())
                        .list(jdbc, PanelHoursBook::row, "h.id limit 1")
                        .stream()
                        .map(Row::value)
                        .findFirst();
    }

    private void mustNotGoBack(UUID displayId, Instant at, double hours) {
        var before = new Query(SELECT)
                .where("h.display_id = :display", "display", displayId)
                .where("h.at <= :at", "at", Rows.at(at))
                .list(jdbc, PanelHoursBook::row, "h.at desc, h.id desc limit 1");
        if (!before.isEmpty() && before.get(0).value().hours() > hours) {
            throw Refusal.invalid(
                    "/hours",
                    "The counter stood at " + before.get(0).value().hours() + " h at "
                            + before.get(0).value().at()
                            + ". If it was reset or the panel was swapped, say so in the note; else look again.");
        }
    }

    private void insert(UUID displayId, Instant at, PanelHoursDraft draft, Instant now) {
        jdbc.sql("""
                        insert into panel_hours (display_id, at, hours, note, recorded_at, recorded_by)
                        values (?, ?, ?, ?, ?, ?)""")
                .param(displayId)
                .param(Rows.at(at))
                .param(draft.hours())
                .param(draft.note())
                .param(Rows.at(now))
                .param(Caller.current().holder())
                .update();
    }

    private DisplayRow display(UUID id) {
        return displays.findById(id).orElseThrow(() -> Refusal.notFound("display", id));
    }

    private static Row row(ResultSet rs, int n) throws SQLException {
        return new Row(
                rs.getLong("id"),
                new PanelHours(
                        Rows.instant(rs, "at"),
                        rs.getDouble("hours"),
                        rs.getObject("run_id", UUID.class),
                        rs.getString("note"),
                        rs.getString("recorded_by")));
    }

    private record Row(long id, PanelHours value) {}
}
