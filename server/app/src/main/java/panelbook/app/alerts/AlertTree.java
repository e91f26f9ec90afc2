package panelbook.app.alerts;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collection;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.UUID;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import panelbook.app.alerts.Alerts.OpenAlert;
import panelbook.app.alerts.CauseReport.SubjectKind;
import panelbook.app.database.Rows;
import panelbook.app.rest.Words;
import panelbook.wire.AlertCause;

/** Keeps which open alert holds back which; the rule is {@link CauseTree}. */
@Component
class AlertTree {

    private static final String SELECT = """
            select a.id, a.cause, a.subject_kind, a.subject_id, a.headline, a.detail, a.held_by,
                   array(select f ->> 'presetId' from jsonb_array_elements(a.detail -> 'followers') f) as touches,
                   exists (select 1 from hero h where h.preset_id = a.subject_id and upper_inf(h.during)) as hero
            from alert a where a.closed_at is null and\s""";

    private final JdbcClient jdbc;

    AlertTree(JdbcClient jdbc) {
        this.jdbc = jdbc;
    }

    /**
     * An alert that is held back otherwise than before.
     *
     * @param before what held it back; null when it spoke for itself
     * @param now what holds it back; null when it speaks for itself
     */
    record Shift(
            OpenAlert alert,
            @Nullable UUID before,
            @Nullable UUID now) {}

    /**
     * Sets anew what is held back among the alerts that a change can concern. The log must be locked.
     *
     * @param changed alerts that were opened, updated, closed or moved to another room
     * @return what is held back otherwise now
     */
    List<Shift> settle(Collection<UUID> changed) {
        var rows = around(changed);
        var holders = CauseTree.holders(rows.stream().map(Row::cause).toList());
        var shifts = new ArrayList<Shift>();
        for (var row : rows) {
            var now = holders.get(row.cause().id());
            if (!Objects.equals(now, row.heldBy())) {
                shifts.add(new Shift(row.alert(), row.heldBy(), now));
                hold(row.cause().id(), now);
            }
        }
        return shifts;
    }

    private void hold(UUID alertId, @Nullable UUID holder) {
        jdbc.sql("update alert set held_by = :holder, version = version + 1 where id = :id")
                .param("holder", holder)
                .param("id", alertId)
                .update();
    }

    /** Headlines of alerts under the paths of their subjects, by id. */
    Map<UUID, String> tell(Collection<UUID> alertIds) {
        if (alertIds.isEmpty()) {
            return Map.of();
        }
        return jdbc
                .sql("select id, detail ->> 'subject' as subject, headline from alert where id = any (:ids)")
                .param("ids", alertIds.toArray(new UUID[0]))
                .query((row, n) ->
                        Map.entry(Rows.id(row, "id"), row.getString("subject") + ": " + row.getString("headline")))
                .list()
                .stream()
                .collect(Collectors.toMap(Map.Entry::getKey, Map.Entry::getValue));
    }

    /**
     * All open alerts of the rooms concerned, those of subjects without a room, and every instrument's that can explain
     * others: nothing else has a say there.
     */
    private List<Row> around(Collection<UUID> changed) {
        var circle = circleOf(changed);
        var found = new ArrayList<Row>();
        found.addAll(rows("a.room_id = any (:ids)", circle.rooms()));
        found.addAll(rows("a.subject_id = any (:ids)", circle.subjects()));
        found.addAll(rows("a.cause = 'stepped' and a.subject_kind = 'instrument'", Set.of()));
        return List.copyOf(found.stream()
                .collect(
                        Collectors.toMap(row -> row.cause().id(), Function.identity(), (a, b) -> a, LinkedHashMap::new))
                .values());
    }

    private record Circle(Set<UUID> rooms, Set<UUID> subjects) {}

    private Circle circleOf(Collection<UUID> changed) {
        var rooms = new HashSet<UUID>();
        var subjects = new HashSet<UUID>();
        // an instrument's alert reaches into the rooms of what it names, and of what it held back so far
        jdbc.sql("""
                        with changed as (select * from alert where id = any (:changed)),
                             touched as (select (f ->> 'presetId')::uuid as id
                                         from changed c cross join jsonb_array_elements(c.detail -> 'followers') f
                                         where c.subject_kind = 'instrument')
                        select room_id, subject_id from changed
                        union select room_id, subject_id from alert where held_by = any (:changed) and closed_at is null
                        union select room_id, subject_id from alert
                              where subject_id in (select id from touched) and closed_at is null
                        union select room_id, subject_id from alert
                              where cause = 'stepped' and subject_kind = 'room' and closed_at is null
                                and exists (select from touched)
                        """).param("changed", changed.toArray(new UUID[0])).query(row -> {
            var room = Rows.idOrNull(row, "room_id");
            if (room != null) {
                rooms.add(room);
            } else {
                subjects.add(Rows.id(row, "subject_id"));
            }
        });
        subjects.addAll(rooms);
        return new Circle(rooms, subjects);
    }

    private List<Row> rows(String where, Set<UUID> ids) {
        return jdbc.sql(SELECT + where)
                .param("ids", ids.toArray(new UUID[0]))
                .query((row, n) -> row(row))
                .list();
    }

    private record Row(
            OpenCause cause, OpenAlert alert, @Nullable UUID heldBy) {}

    private static Row row(ResultSet row) throws SQLException {
        var touches = (String[]) row.getArray("touches").getArray();
        return new Row(
                new OpenCause(
                        Rows.id(row, "id"),
                        Words.of(AlertCause.class, row.getString("cause")),
                        place(row.getString("subject_kind"), row.getBoolean("hero")),
                        Rows.id(row, "subject_id"),
                        Arrays.stream(touches).map(UUID::fromString).collect(Collectors.toSet())),
                new OpenAlert(Rows.id(row, "id"), row.getString("headline"), row.getString("detail")),
                Rows.idOrNull(row, "held_by"));
    }

    private static OpenCause.Place place(String subjectKind, boolean hero) {
        return switch (Words.of(SubjectKind.class, subjectKind)) {
            case INSTRUMENT -> OpenCause.Place.INSTRUMENT;
            case ROOM -> OpenCause.Place.ROOM;
            case PRESET -> hero ? OpenCause.Place.HERO : OpenCause.Place.FOLLOWER;
        };
    }
}
