package panelbook.app.planning;

import java.nio.charset.StandardCharsets;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.PlatformTransactionManager;
import org.springframework.transaction.TransactionDefinition;
import org.springframework.transaction.annotation.Transactional;
import org.springframework.transaction.support.TransactionTemplate;
import panelbook.app.access.Caller;
import panelbook.app.database.Query;
import panelbook.app.database.Rows;
import panelbook.app.planning.plan.PlanLimits;
import panelbook.app.planning.plan.Planner;
import panelbook.app.rest.Added;
import panelbook.app.rest.Checks;
import panelbook.app.rest.Paging;
import panelbook.app.rest.Refusal;
import panelbook.app.rest.Repeats;
import panelbook.wire.NeededDays;
import panelbook.wire.Page;
import panelbook.wire.Plan;
import panelbook.wire.PlanDraft;
import panelbook.wire.PlanEntry;
import panelbook.wire.PlanMove;
import panelbook.wire.Visit;
import panelbook.wire.VisitState;
import tools.jackson.databind.json.JsonMapper;

/** Makes plans, and keeps those that propose visits. */
@Component
class Plans {

    private static final int MOST_DAYS = 200;
    private static final int MOST_CALIBRATOR_DAYS = 1000;
    private static final Duration LONGEST = Duration.ofSeconds(40);

    private static final String ENTRIES = """
            select p.id, p.facility_id, f.name as facility, p.from_day, p.until_day, p.made_at, p.made_by,
                   jsonb_array_length(p.summary -> 'visits') as visits, jsonb_array_length(p.summary -> 'rest') as rest,
                   (p.summary ->> 'beyondDays')::float8 as beyond_days
            from plan p left join facility f on f.id = p.facility_id""";

    private final Layouts layouts;
    private final VisitBook visits;
    private final VisitChecks checks;
    private final PlanningBook book;
    private final JdbcClient jdbc;
    private final JsonMapper json;
    private final Clock clock;
    private final TransactionTemplate writing;
    private final TransactionTemplate reading;

    Plans(
            Layouts layouts,
            VisitBook visits,
            VisitChecks checks,
            PlanningBook book,
            JdbcClient jdbc,
            JsonMapper json,
            Clock clock,
            PlatformTransactionManager transactions) {
        this.layouts = layouts;
        this.visits = visits;
        this.checks = checks;
        this.book = book;
        this.jdbc = jdbc;
        this.json = json;
        this.clock = clock;
        this.writing = new TransactionTemplate(transactions);
        this.reading = new TransactionTemplate(transactions);
        reading.setReadOnly(true);
        reading.setIsolationLevel(TransactionDefinition.ISOLATION_REPEATABLE_READ);
    }

    /**
     * Makes a plan; the same draft again is harmless and gives the plan that was made. The search may take long: while it lasts
     * no connection is held and nobody waits who changes visits.
     */
    Added<Plan> make(PlanDraft draft) {
        return draft.dryRun()
                ? new Added<>(look(draft, prepared(draft).layout()), false)
                : made(draft).orElseGet(() -> {
                    var prepared = prepared(draft);
                    var laid = laid(prepared.layout());
                    return Objects.requireNonNull(writing.execute(status -> propose(draft, prepared, laid)));
                });
    }

    /** The plan that was made of the same draft. */
    private Optional<Added<Plan>> made(PlanDraft draft) {
        return find(draft.id()).map(there -> {
            var same = Objects.equals(there.facilityId(), draft.facilityId())
                    && there.until().equals(draft.until())
                    && (draft.from() == null || there.from().equals(draft.from()));
            Repeats.mustBeSame(same, "plan", draft.id());
            return new Added<>(there, false);
        });
    }

    /**
     * What a plan is to be made from.
     *
     * @param visits tells whether visits have changed since
     */
    private record Prepared(Layout layout, String visits) {}

    private Prepared prepared(PlanDraft draft) {
        return Objects.requireNonNull(reading.execute(status ->
                new Prepared(layouts.of(draft.facilityId(), axis(draft), clock.instant()), visits.fingerprint())));
    }

    private static Laid laid(Layout layout) {
        return new Laid(layout, Planner.plan(layout.problem(), limits()));
    }

    private Axis axis(PlanDraft draft) {
        var facility = draft.facilityId();
        new Checks()
                .that(
                        facility == null || book.isFacility(facility),
                        "/facilityId",
                        "There is no facility " + facility + ".")
                .that(
                        draft.calibratorDays() == null || draft.dryRun(),
                        "/calibratorDays",
                        "Is a question: ask it with dryRun.")
                .that(
                        draft.calibratorDays() == null
                                || draft.calibratorDays() >= 0 && draft.calibratorDays() <= MOST_CALIBRATOR_DAYS,
                        "/calibratorDays",
                        "Must be 0 to " + MOST_CALIBRATOR_DAYS + ".")
                .refuse();
        var zone = book.zone(facility);
        var today = LocalDate.ofInstant(clock.instant(), zone);
        var from = draft.from() == null ? today : draft.from();
        new Checks()
                .that(!from.isBefore(today), "/from", "Must not lie before today, " + today + ".")
                .that(!draft.until().isBefore(from), "/until", "Must not lie before " + from + ".")
                .that(
                        !draft.until().isAfter(from.plusDays(MOST_DAYS - 1L)),
                        "/until",
                        "A plan has at most " + MOST_DAYS + " days: " + from.plusDays(MOST_DAYS - 1L)
                                + " is the last from " + from + ".")
                .refuse();
        return new Axis(zone, from, draft.until());
    }

    private static PlanLimits limits() {
        return PlanLimits.standard().within(LONGEST, System::nanoTime);
    }

    private Plan look(PlanDraft draft, Layout layout) {
        var question = WhatIf.of(layout);
        var days = draft.calibratorDays();
        new Checks()
                .that(
                        days == null || question.isPresent(),
                        "/calibratorDays",
                        "Nobody works within the plan, so that nobody knows how long a day is: add a calibrator with working "
                                + "hours first.")
                .refuse();
        var asked = days == null ? null : question.orElseThrow().asked(days);
        var laid = asked == null ? laid(layout) : question.orElseThrow().laid(asked);
        var needed = question.map(what -> what.needed(asked)).orElse(null);
        var rows = new ArrayList<VisitRow>();
        layout.parts().stream().map(Part::fixed).filter(Objects::nonNull).forEach(rows::add);
        var laidRows =
                laid.stops().stream().map(stop -> row(draft.id(), layout, stop)).toList();
        if (asked == null) {
            rows.addAll(laidRows);
        }
        var visits = new ArrayList<>(checks.views(rows));
        if (asked != null) {
            // by somebody who is not in the book, whom nothing speaks against
            laidRows.forEach(row -> visits.add(row.view(List.of())));
        }
        return plan(draft, layout, laid, visits, List.of(), needed);
    }

    private Added<Plan> propose(PlanDraft draft, Prepared prepared, Laid found) {
        visits.lock();
        // a plan reads long lists, which deserve plans of their own
        jdbc.sql("select set_config('plan_cache_mode', 'auto', true)").query(row -> {});
        var there = made(draft);
        if (there.isPresent()) {
            return there.get();
        }
        var unchanged = visits.fingerprint().equals(prepared.visits());
        visits.noteDone();
        // what somebody changed meanwhile may clash with what was found: once more, and now the others wait
        var layout = unchanged
                ? prepared.layout()
                : layouts.of(draft.facilityId(), prepared.layout().axis(), clock.instant());
        var laid = unchanged ? found : laid(layout);
        var axis = layout.axis();
        keep(draft, axis);
        var moves = new Proposals(visits, draft, layout, clock.instant())
                .replace(laid, stop -> row(draft.id(), layout, stop));
        var from = clock.instant().isAfter(axis.start()) ? clock.instant() : axis.start();
        var rows = visits.ahead(from, axis.end()).stream()
                .filter(row -> draft.facilityId() == null || draft.facilityId().equals(row.facilityId()))
                .toList();
        var plan = plan(draft, layout, laid, checks.views(rows), moves, null);
        jdbc.sql("update plan set summary = :summary::jsonb where id = :id")
                .param("summary", json.writeValueAsString(plan))
                .param("id", draft.id())
                .update();
        return new Added<>(plan, true);
    }

    /** Visits refer to it, so it is there before them. */
    private void keep(PlanDraft draft, Axis axis) {
        jdbc.sql("""
                        insert into plan (id, facility_id, from_day, until_day, summary, made_at, made_by)
                        values (:id, :facility, :from, :until, '{}', :now, :by)""")
                .param("id", draft.id())
                .param("facility", draft.facilityId())
                .param("from", axis.from())
                .param("until", axis.until())
                .param("now", Rows.at(clock.instant()))
                .param("by", Caller.current().holder())
                .update();
    }

    private VisitRow row(UUID planId, Layout layout, Laid.Stop stop) {
        var place = stop.part().place();
        var other = stop.calibrator() - layout.crew().size();
        var calibratorId = other < 0 ? layout.crew().get(stop.calibrator()).id() : new UUID(0, other);
        var calibrator = other < 0 ? layout.crew().get(stop.calibrator()).name() : "somebody " + (other + 1);
        var name = planId + " " + place.roomId();
        return new VisitRow(
                UUID.nameUUIDFromBytes(name.getBytes(StandardCharsets.UTF_8)),
                stop.part().roomId(),
                place.facilityId(),
                place.room(),
                place.zone(),
                calibratorId,
                calibrator,
                stop.warmUpFrom(),
                stop.start(),
                stop.end(),
                VisitState.PROPOSED,
                false,
                RoomWorks.work(stop.part().taken()),
                null,
                planId,
                clock.instant(),
                Caller.current().holder(),
                0);
    }

    private Plan plan(
            PlanDraft draft,
            Layout layout,
            Laid laid,
            List<Visit> visits,
            List<PlanMove> moves,
            @Nullable NeededDays needed) {
        var sorted = visits.stream()
                .sorted(Comparator.comparing(Visit::startsAt).thenComparing(Visit::id))
                .toList();
        return new Plan(
                draft.id(),
                draft.facilityId(),
                draft.facilityId() == null ? null : book.facilityName(draft.facilityId()),
                layout.axis().zone().getId(),
                layout.axis().from(),
                layout.axis().until(),
                draft.dryRun(),
                Rows.kept(clock.instant()),
                Caller.current().holder(),
                sorted,
                moves,
                laid.rest(),
                laid.gaps(),
                layout.roomsWithoutCalendar(),
                laid.beyondDaysWithout(),
                laid.beyondDays(),
                laid.cost(),
                draft.calibratorDays() == null ? laid.bound() : null,
                needed);
    }

    /**
     * A plan as it was made.
     *
     * @throws Refusal when there is no such plan
     */
    @Transactional(readOnly = true)
    public Plan get(UUID id) {
        return find(id).orElseThrow(() -> Refusal.notFound("plan", id));
    }

    private Optional<Plan> find(UUID id) {
        return jdbc.sql("select summary::text from plan where id = :id")
                .param("id", id)
                .query(String.class)
                .optional()
                .map(summary -> json.readValue(summary, Plan.class));
    }

    /** Newest first. */
    @Transactional(readOnly = true)
    public Page<PlanEntry> page(@Nullable UUID facility, Paging paging) {
        var query = new Query(ENTRIES).where("p.facility_id = :facility", "facility", facility);
        if (!paging.first()) {
            query.where("(p.made_at, p.id) < (:at, :afterId)")
                    .bind("at", Rows.atOrNull(paging.parsed(0, Instant::parse)))
                    .bind("afterId", paging.keyId(1));
        }
        var found = query.list(jdbc, Plans::entry, "p.made_at desc, p.id desc limit " + paging.fetch());
        return paging.page(
                found, entry -> List.of(entry.madeAt().toString(), entry.id().toString()));
    }

    private static PlanEntry entry(ResultSet row, int n) throws SQLException {
        return new PlanEntry(
                Rows.id(row, "id"),
                Rows.idOrNull(row, "facility_id"),
                row.getString("facility"),
                row.getObject("from_day", LocalDate.class),
                row.getObject("until_day", LocalDate.class),
                row.getInt("visits"),
                row.getInt("rest"),
                row.getDouble("beyond_days"),
                Rows.instant(row, "made_at"),
                row.getString("made_by"));
    }
}
