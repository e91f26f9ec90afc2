package panelbook.app.fleet;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Clock;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;
import panelbook.app.access.Caller;
import panelbook.app.database.Query;
import panelbook.app.database.Rows;
import panelbook.app.rest.Added;
import panelbook.app.rest.Checks;
import panelbook.app.rest.Refusal;
import panelbook.app.rest.Repeats;
import panelbook.wire.Quirk;
import panelbook.wire.QuirkDraft;
import panelbook.wire.Settlement;
import panelbook.wire.SettlementDraft;

/** Quirks of displays: noted once, settled once, never changed. */
@Component
class Quirks {

    private static final int LONGEST = 10_000;
    private static final String SELECT = """
            select q.id, q.display_id, d.name as display, q.note, q.seen_at, q.recorded_by, s.word, s.settled_at,
                   s.settled_by
            from quirk q join display d on d.id = q.display_id left join quirk_settlement s on s.quirk_id = q.id""";
    private static final String NEWEST_FIRST = "q.seen_at desc, q.recorded_at desc, q.id";

    private final DisplayRows displays;
    private final JdbcClient jdbc;
    private final Clock clock;

    Quirks(DisplayRows displays, JdbcClient jdbc, Clock clock) {
        this.displays = displays;
        this.jdbc = jdbc;
        this.clock = clock;
    }

    /** Notes a quirk; the same draft again is harmless. */
    @Transactional
    Added<Quirk> add(UUID displayId, QuirkDraft draft) {
        var now = clock.instant();
        words(new Checks(), "/note", draft.note())
                .that(draft.seenAt() == null || !draft.seenAt().isAfter(now), "/seenAt", "Must not lie in the future.")
                .refuse();
        var display = displays.findById(displayId).orElseThrow(() -> Refusal.notFound("display", displayId));
        var there = find(draft.id());
        if (there.isPresent()) {
            Repeats.mustBeSame(says(there.get(), displayId, draft), "quirk", draft.id());
            return new Added<>(there.get(), false);
        }
        display.mustBeInUse();
        var isNew = jdbc.sql("""
                        insert into quirk (id, display_id, note, seen_at, recorded_at, recorded_by)
                        values (:id, :display, :note, :seen, :now, :by) on conflict (id) do nothing""")
                        .param("id", draft.id())
                        .param("display", displayId)
                        .param("note", draft.note())
                        .param("seen", Rows.at(draft.seenAt() == null ? now : draft.seenAt()))
                        .param("now", Rows.at(now))
                        .param("by", Caller.current().holder())
                        .update()
                > 0;
        var quirk = get(draft.id());
        Repeats.mustBeSame(says(quirk, displayId, draft), "quirk", draft.id());
        return new Added<>(quirk, isNew);
    }

    /** Settles a quirk with a word on what became of it; the same word again is harmless. */
    @Transactional
    Quirk settle(UUID id, SettlementDraft draft) {
        words(new Checks(), "/word", draft.word()).refuse();
        get(id);
        jdbc.sql("""
                        insert into quirk_settlement (quirk_id, word, settled_at, settled_by)
                        values (:id, :word, :now, :by) on conflict (quirk_id) do nothing""")
                .param("id", id)
                .param("word", draft.word())
                .param("now", Rows.at(clock.instant()))
                .param("by", Caller.current().holder())
                .update();
        var quirk = get(id);
        var settlement = quirk.settlement();
        if (settlement != null && !settlement.word().equals(draft.word())) {
            throw Refusal.conflict("The quirk was settled by " + settlement.settledBy() + " at "
                    + settlement.settledAt() + ": \"" + settlement.word()
                    + "\". What is settled stays so; if it is back, note it anew.");
        }
        return quirk;
    }

    /** Quirks of a display, newest first; the settled ones only when {@code settledToo}. */
    @Transactional(readOnly = true)
    List<Quirk> of(UUID displayId, boolean settledToo) {
        if (!displays.existsById(displayId)) {
            throw Refusal.notFound("display", displayId);
        }
        return select(settledToo)
                .where("q.display_id = :display", "display", displayId)
                .list(jdbc, Quirks::quirk, NEWEST_FIRST);
    }

    /** Open quirks of the displays that stand in a room, by display, newest first. */
    List<Quirk> openIn(UUID roomId) {
        return select(false)
                .where("d.retired_at is null")
                .where(
                        "q.display_id in (select display_id from display_stay where room_id = :room and upper_inf(during))",
                        "room",
                        roomId)
                .list(jdbc, Quirks::quirk, "d.name, " + NEWEST_FIRST);
    }

    private static Query select(boolean settledToo) {
        var query = new Query(SELECT);
        return settledToo ? query : query.where("s.quirk_id is null");
    }

    private static Checks words(Checks checks, String pointer, String text) {
        return checks.that(!text.isBlank(), pointer, "Must not be empty.").text(pointer, text, LONGEST);
    }

    private static boolean says(Quirk there, UUID displayId, QuirkDraft draft) {
        return there.displayId().equals(displayId)
                && there.note().equals(draft.note())
                && (draft.seenAt() == null || Rows.kept(draft.seenAt()).equals(there.seenAt()));
    }

    private Quirk get(UUID id) {
        return find(id).orElseThrow(() -> Refusal.notFound("quirk", id));
    }

    private Optional<Quirk> find(UUID id) {
        return new Query(SELECT).where("q.id = :id", "id", id).one(jdbc, Quirks::quirk);
    }

    private static Quirk quirk(ResultSet rs, int n) throws SQLException {
        return new Quirk(
                Rows.id(rs, "id"),
                Rows.id(rs, "display_id"),
                rs.getString("display"),
                rs.getString("note"),
                Rows.instant(rs, "seen_at"),
                rs.getString("recorded_by"),
                settlement(rs));
    }

    private static @Nullable Settlement settlement(ResultSet rs) throws SQLException {
        var at = Rows.instantOrNull(rs, "settled_at");
        return at == null ? null : new Settlement(rs.getString("word"), at, rs.getString("settled_by"));
    }
}
