package panelbook.app.matching.advice;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Clock;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;
import panelbook.app.database.Query;
import panelbook.app.database.Rows;
import panelbook.app.rest.Added;
import panelbook.app.rest.Checks;
import panelbook.app.rest.Refusal;
import panelbook.app.rest.Repeats;
import panelbook.app.rest.Words;
import panelbook.wire.Advice;
import panelbook.wire.AdviceDraft;
import panelbook.wire.AdviceMoment;
import panelbook.wire.Look;
import panelbook.wire.Observation;
import panelbook.wire.Place;
import panelbook.wire.Retirement;

/** All advice. */
@Component
public class AdviceBook {

    private static final String SELECT =
            "select id, moment, look, place, first_control, text, basis, retired_at, version from advice";
    private static final String ORDER = "moment, look nulls last, place nulls last, text, id";

    private final AdviceRows rows;
    private final JdbcClient jdbc;
    private final Clock clock;

    AdviceBook(AdviceRows rows, JdbcClient jdbc, Clock clock) {
        this.rows = rows;
        this.jdbc = jdbc;
        this.clock = clock;
    }

    /** What to tell at moments that need no more than their name, in the order of the moments given. */
    public List<String> at(AdviceMoment... moments) {
        var inUse = inUse(Set.of(moments));
        return List.of(moments).stream()
                .flatMap(moment -> inUse.stream().filter(advice -> advice.moment() == moment))
                .map(Advice::text)
                .toList();
    }

    /**
     * What to tell of something seen: the lines for this look in this place, else those for the place, else those for the
     * look, else those for anything. The control to try first is named.
     */
    public List<String> of(Observation seen) {
        var lines = inUse(Set.of(AdviceMoment.OBSERVATION)).stream()
                .filter(advice -> fits(advice.look(), seen.look()) && fits(advice.place(), seen.place()))
                .toList();
        var best = lines.stream().mapToInt(AdviceBook::rank).max().orElse(0);
        return lines.stream()
                .filter(advice -> rank(advice) == best)
                .map(AdviceBook::withControl)
                .toList();
    }

    private static boolean fits(@Nullable Object wanted, Object seen) {
        return wanted == null || wanted.equals(seen);
    }

    private static int rank(Advice advice) {
        return (advice.place() == null ? 0 : 2) + (advice.look() == null ? 0 : 1);
    }

    private static String withControl(Advice advice) {
        return advice.firstControl() == null
                ? advice.text()
                : advice.text() + " First control: " + advice.firstControl() + ".";
    }

    private List<Advice> inUse(Set<AdviceMoment> moments) {
        return list(false).stream()
                .filter(advice -> moments.contains(advice.moment()))
                .toList();
    }

    /** The table, the retired lines only when wanted. */
    List<Advice> list(boolean retired) {
        return new Query(SELECT).retired(retired, "retired_at").list(jdbc, AdviceBook::advice, ORDER);
    }

    Advice get(UUID id) {
        return new Query(SELECT)
                .where("id = :id", "id", id)
                .one(jdbc, AdviceBook::advice)
                .orElseThrow(() -> Refusal.notFound("line of advice", id));
    }

    /** Adds a line; the same draft again is harmless. */
    @Transactional
    Added<Advice> add(AdviceDraft draft) {
        check(draft);
        var there = rows.findById(draft.id());
        if (there.isPresent()) {
            Repeats.mustBeSame(there.get().draft().equals(draft), "line of advice", draft.id());
            return new Added<>(get(draft.id()), false);
        }
        rows.saveAndFlush(new AdviceRow(draft));
        return new Added<>(get(draft.id()), true);
    }

    /** Edits the version that was read. */
    @Transactional
    Advice edit(UUID id, AdviceDraft draft, long expectedVersion) {
        Repeats.mustBeAbout(id, draft.id());
        check(draft);
        var row = row(id);
        row.mustBeAt(expectedVersion);
        row.edit(draft);
        rows.saveAndFlush(row);
        return get(id);
    }

    @Transactional
    Advice retire(UUID id, Retirement retirement) {
        Repeats.check(retirement);
        var row = row(id);
        row.retire(clock.instant(), retirement.reason());
        rows.saveAndFlush(row);
        return get(id);
    }

    private AdviceRow row(UUID id) {
        return rows.findById(id).orElseThrow(() -> Refusal.notFound("line of advice", id));
    }

    private static void check(AdviceDraft draft) {
        var ofSomethingSeen = draft.moment() == AdviceMoment.OBSERVATION;
        var why = "Goes with the moment \"observation\" only: leave it out.";
        new Checks()
                .line("/text", draft.text(), 2000)
                .line("/basis", draft.basis(), 1000)
                .optionalLine("/firstControl", draft.firstControl(), 100)
                .that(ofSomethingSeen || draft.look() == null, "/look", why)
                .that(ofSomethingSeen || draft.place() == null, "/place", why)
                .that(ofSomethingSeen || draft.firstControl() == null, "/firstControl", why)
                .refuse();
    }

    private static Advice advice(ResultSet row, int n) throws SQLException {
        var look = row.getString("look");
        var place = row.getString("place");
        return new Advice(
                Rows.id(row, "id"),
                Words.of(AdviceMoment.class, Objects.requireNonNull(row.getString("moment"))),
                look == null ? null : Words.of(Look.class, look),
                place == null ? null : Words.of(Place.class, place),
                row.getString("first_control"),
                row.getString("text"),
                row.getString("basis"),
                Rows.instantOrNull(row, "retired_at"),
                row.getLong("version"));
    }
}
