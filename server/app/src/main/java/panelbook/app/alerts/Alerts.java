package panelbook.app.alerts;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.Collection;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.UUID;
import java.util.function.Function;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.springframework.beans.factory.annotation.Value;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Propagation;
import org.springframework.transaction.annotation.Transactional;
import panelbook.app.access.Caller;
import panelbook.app.database.Rows;
import panelbook.app.rest.Checks;
import panelbook.app.rest.Days;
import panelbook.app.rest.KeptJson;
import panelbook.app.rest.Refusal;
import panelbook.app.rest.Words;
import panelbook.wire.AffectedFollower;
import panelbook.wire.AlertCause;
import panelbook.wire.AlertEventKind;
import panelbook.wire.AlertNotice;
import panelbook.wire.AlertState;
import panelbook.wire.Finding;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ObjectNode;

/** Opens, updates, closes alerts and opens them again. */
@Service
public class Alerts {

    /** Causes that lie in the picture and come and go with it; the others lie in a deed or a paper that their evidence names. */
    private static final Set<AlertCause> COME_AND_GO =
            EnumSet.of(AlertCause.MOVED, AlertCause.OFF_TARGET, AlertCause.STEPPED);

    private final JdbcClient jdbc;
    private final AlertLog log;
    private final AlertChanges changes;
    private final JsonMapper json;
    private final Clock clock;
    private final Duration reopenWithin;

    /**
     * Alerts.
     *
     * @param reopenWithin time since an alert closed by itself in which its cause, when it comes back, opens it again rather
     *     than another. Too short, and one trouble makes many alerts; too long, and a new trouble hides in an old history
     */
    Alerts(
            JdbcClient jdbc,
            AlertLog log,
            AlertChanges changes,
            JsonMapper json,
            Clock clock,
            @Value("${panelbook.alerts.reopen-within:P30D}") Duration reopenWithin) {
        this.jdbc = jdbc;
        this.log = log;
        this.changes = changes;
        this.json = json;
        this.clock = clock;
        this.reopenWithin = reopenWithin;
    }

    /**
     * Keeps others from adding to the log until the transaction under way has ended: for whoever decides by what stands in
     * several rooms. Its own rooms must be locked.
     */
    @Transactional(propagation = Propagation.MANDATORY)
    public void lock() {
        log.lock();
    }

    /**
     * Takes in what is known of a cause, in the transaction under way.
     *
     * @return what was done to an alert; empty when nothing was
     */
    @Transactional(propagation = Propagation.MANDATORY)
    public Optional<AlertNotice> report(CauseReport report, String by) {
        if (openAlert(report).isEmpty() && !report.present()) {
            return Optional.empty();
        }
        log.lock();
        var open = openAlert(report);
        if (open.isEmpty()) {
            return report.present() && !settled(report) ? Optional.of(openOrReopen(report, by)) : Optional.empty();
        }
        return report.present() ? update(open.get(), report, by) : closeUnlessLingering(open.get(), report, by);
    }

    /** The subject was taken out of use: its alerts are closed with a word why. */
    @Transactional(propagation = Propagation.MANDATORY)
    public void closeAllAbout(UUID subjectId, String why, String by) {
        log.lock();
        var now = clock.instant();
        jdbc.sql("select id, headline, detail from alert where subject_id = :subject and closed_at is null")
                .param("subject", subjectId)
                .query((row, n) ->
                        new OpenAlert(Rows.id(row, "id"), row.getString("headline"), row.getString("detail")))
                .list()
                .forEach(alert -> {
                    markClosed(alert.id(), now, false);
                    changes.happened(alert, AlertEventKind.CLOSED, now, by, why);
                });
    }

    /**
     * Some findings should never have been: what they alone held open is held open no longer, and an alert that was closed
     * by them is open again until it is reported on. Rooms must be locked, and the caller reports on every subject next.
     *
     * @param subjectIds subjects that the findings can have touched
     * @param never which findings should never have been
     * @param slot slot of a finding, as in a report
     * @param closedByThem alerts that were closed since one of them was judged
     * @param why for the history of alerts that are open again
     * @return alerts that are open again
     */
    @Transactional(propagation = Propagation.MANDATORY)
    public List<AlertNotice> forget(
            Collection<UUID> subjectIds,
            Predicate<Finding> never,
            Function<Finding, String> slot,
            Collection<UUID> closedByThem,
            String why,
            String by) {
        log.lock();
        var reopened = closedByThem.stream()
                .flatMap(id -> reopen(id, why, by).stream())
                .toList();
        jdbc.sql("select id, headline, detail from alert where subject_id = any (:subjects) and closed_at is null")
                .param("subjects", subjectIds.toArray(new UUID[0]))
                .query((row, n) ->
                        new OpenAlert(Rows.id(row, "id"), row.getString("headline"), row.getString("detail")))
                .list()
                .forEach(alert -> letGo(alert, never, slot));
        return reopened;
    }

    /** Empty when a person closed it, or another one of its cause is open by now. */
    private Optional<AlertNotice> reopen(UUID alertId, String why, String by) {
        var now = clock.instant();
        var found = jdbc.sql("""
                        update alert a set closed_at = null, held_by = null, updated_at = :now, version = version + 1
                        where id = :id and closed_at is not null and not settled
                          and not exists (select 1 from alert o where o.cause = a.cause and o.subject_id = a.subject_id
                                                                  and o.closed_at is null)
                        returning id, cause, headline, detail
                        """)
                .param("now", Rows.at(now))
                .param("id", alertId)
                .query((row, n) -> new ReopenedAlert(
                        Words.of(AlertCause.class, row.getString("cause")),
                        row.getString("headline"),
                        row.getString("detail")))
                .optional();
        return found.map(alert -> {
            changes.happened(
                    new OpenAlert(alertId, alert.headline(), alert.detail()), AlertEventKind.REOPENED, now, by, why);
            return new AlertNotice(
                    alertId,
                    AlertEventKind.REOPENED,
                    alert.cause(),
                    AlertDetail.read(json, alert.detail()).subject(),
                    alert.headline());
        });
    }

    /** Lets the alert be held open by those slots only that another finding was beyond in, since it came last. */
    private void letGo(OpenAlert alert, Predicate<Finding> never, Function<Finding, String> slot) {
        var before = AlertDetail.read(json, alert.detail());
        var events = jdbc
                .sql("select detail from alert_event where alert_id = :alert")
                .param("alert", alert.id())
                .query(String.class)
                .list()
                .stream()
                .map(detail -> AlertDetail.read(json, detail))
                .filter(event -> event.comings() == before.comings())
                .toList();
        if (events.stream().flatMap(event -> event.findings().stream()).noneMatch(never)) {
            return;
        }
        var held = events.stream()
                .flatMap(event -> event.findings().stream())
                .filter(never.negate())
                .map(slot)
                .collect(Collectors.toCollection(TreeSet::new));
        jdbc.sql("update alert set detail = :detail::jsonb where id = :id")
                .param("detail", json.writeValueAsString(before.heldOpenBy(held)))
                .param("id", alert.id())
                .update();
    }

    /** The subject stands in another room now, perhaps of another facility, or in none: its open alerts go along. */
    @Transactional(propagation = Propagation.MANDATORY)
    public void moveAllAbout(UUID subjectId, @Nullable UUID roomId) {
        log.lock();
        changes.moved(jdbc.sql("""
                        update alert set room_id = :room,
                                         facility_id = coalesce((select facility_id from room where id = :room), facility_id)
                        where subject_id = :subject and closed_at is null returning id
                        """)
                .param("room", roomId)
                .param("subject", subjectId)
                .query(UUID.class)
                .list());
    }

    /** A person takes an alert in hand. */
    @Transactional
    public void acknowledge(UUID alertId, String note, Caller caller) {
        inWords("/note", note);
        log.lock();
        var alert = alertNotClosed(alertId);
        var now = clock.instant();
        jdbc.sql("update alert set acknowledged_at = :now, updated_at = :now, version = version + 1 where id = :id")
                .param("now", Rows.at(now))
                .param("id", alertId)
                .update();
        changes.happened(alert, AlertEventKind.ACKNOWLEDGED, now, caller.holder(), note);
    }

    /** A person closes an alert with a reason. */
    @Transactional
    public void close(UUID alertId, String reason, Caller caller) {
        inWords("/reason", reason);
        log.lock();
        var alert = alertNotClosed(alertId);
        var now = clock.instant();
        markClosed(alertId, now, true);
        changes.happened(alert, AlertEventKind.CLOSED, now, caller.holder(), reason);
    }

    /** Takes up the history of an alert of this cause that closed by itself lately; else begins another. */
    private AlertNotice openOrReopen(CauseReport report, String by) {
        var earlier = closedLast(report);
        if (earlier.isPresent()
                && earlier.get().comesBackAs(report, clock.instant().minus(reopenWithin))) {
            return comeBack(earlier.get(), report, by);
        }
        return open(report, by, earlier.map(ClosedAlert::told).orElse(null));
    }

    /** It is shown anew by what was reported: nobody has it in hand, and no figure of before holds it open. */
    private AlertNotice comeBack(ClosedAlert earlier, CauseReport report, String by) {
        var now = clock.instant();
        var detail = detail(report, Set.of(), earlier.detail().comings() + 1);
        jdbc.sql("""
                        update alert set closed_at = null, acknowledged_at = null, held_by = null, opened_at = :now,
                                         updated_at = :now, headline = :headline, detail = :detail::jsonb,
                                         evidence = :evidence, room_id = :room, facility_id = :facility,
                                         version = version + 1
                        where id = :id
                        """)
                .param("now", Rows.at(now))
                .param("headline", report.headline())
                .param("detail", detail)
                .param("evidence", report.evidence())
                .param("room", report.roomId())
                .param("facility", report.facilityId())
                .param("id", earlier.id())
                .update();
        changes.happened(
                new OpenAlert(earlier.id(), report.headline(), detail),
                AlertEventKind.REOPENED,
                now,
                by,
                "It came back: it was closed on " + Days.of(earlier.closedAt()) + ".");
        return new AlertNotice(
                earlier.id(), AlertEventKind.REOPENED, report.cause(), report.subject(), report.headline());
    }

    private Optional<ClosedAlert> closedLast(CauseReport report) {
        return jdbc.sql("""
                        select id, detail, evidence, settled, closed_at from alert
                        where cause = :cause and subject_id = :subject and closed_at is not null
                        order by closed_at desc, opened_at desc limit 1
                        """)
                .param("cause", report.cause().toString())
                .param("subject", report.subjectId())
                .query((row, n) -> new ClosedAlert(
                        Rows.id(row, "id"),
                        AlertDetail.read(json, row.getString("detail")),
                        row.getString("evidence"),
                        row.getBoolean("settled"),
                        Rows.instant(row, "closed_at")))
                .optional();
    }

    private AlertNotice open(CauseReport report, String by, @Nullable String note) {
        var id = UUID.randomUUID();
        var now = clock.instant();
        var detail = detail(report, Set.of(), 0);
        jdbc.sql("""
                        insert into alert (id, cause, subject_kind, subject_id, facility_id, room_id, headline, detail,
                                           evidence, opened_at, updated_at)
                        values (:id, :cause, :kind, :subject, :facility, :room, :headline, :detail::jsonb, :evidence,
                                :now, :now)
                        """)
                .param("id", id)
                .param("cause", report.cause().toString())
                .param("kind", report.subjectKind().toString())
                .param("subject", report.subjectId())
                .param("facility", report.facilityId())
                .param("room", report.roomId())
                .param("headline", report.headline())
                .param("detail", detail)
                .param("evidence", report.evidence())
                .param("now", Rows.at(now))
                .update();
        changes.happened(new OpenAlert(id, report.headline(), detail), AlertEventKind.OPENED, now, by, note);
        return new AlertNotice(id, AlertEventKind.OPENED, report.cause(), report.subject(), report.headline());
    }

    private Optional<AlertNotice> update(OpenAlert open, CauseReport report, String by) {
        var before = AlertDetail.read(json, open.detail());
        if (before.findings().equals(List.copyOf(report.findings().values())) && before.touchesTheSameAs(report)) {
            return Optional.empty();
        }
        var now = clock.instant();
        var detail = detail(report, before.held(), before.comings());
        jdbc.sql("""
                        update alert set headline = :headline, detail = :detail::jsonb, evidence = :evidence,
                                         updated_at = :now, room_id = :room, facility_id = :facility,
                                         version = version + 1
                        where id = :id
                        """)
                .param("headline", report.headline())
                .param("detail", detail)
                .param("evidence", report.evidence())
                .param("now", Rows.at(now))
                .param("room", report.roomId())
                .param("facility", report.facilityId())
                .param("id", open.id())
                .update();
        changes.happened(new OpenAlert(open.id(), report.headline(), detail), AlertEventKind.UPDATED, now, by, null);
        return Optional.of(new AlertNotice(
                open.id(), AlertEventKind.UPDATED, report.cause(), report.subject(), report.headline()));
    }

    /** A figure near its limit opens no alert, but keeps the one open that it opened: so it does not flap. */
    private Optional<AlertNotice> closeUnlessLingering(OpenAlert open, CauseReport report, String by) {
        var before = AlertDetail.read(json, open.detail());
        if (before.held().stream().anyMatch(report.lingering()::contains)) {
            return Optional.empty();
        }
        var now = clock.instant();
        markClosed(open.id(), now, false);
        changes.happened(open, AlertEventKind.CLOSED, now, by, report.headline());
        return Optional.of(
                new AlertNotice(open.id(), AlertEventKind.CLOSED, report.cause(), report.subject(), report.headline()));
    }

    private void markClosed(UUID alertId, Instant now, boolean settled) {
        jdbc.sql("""
                        update alert set closed_at = :now, updated_at = :now, settled = :settled, version = version + 1
                        where id = :id
                        """)
                .param("settled", settled)
                .param("now", Rows.at(now))
                .param("id", alertId)
                .update();
    }

    private String detail(CauseReport report, Set<String> heldBefore, int comings) {
        var held = new TreeSet<>(heldBefore);
        held.addAll(report.findings().keySet());
        return json.writeValueAsString(new AlertDetail(
                report.subject(),
                report.followers(),
                List.copyOf(report.findings().values()),
                held,
                comings));
    }

    /** Whether a person closed an alert on what the report rests on: it takes something new to open another. */
    private boolean settled(CauseReport report) {
        return jdbc.sql("""
                        select exists (select from alert where cause = :cause and subject_id = :subject and settled
                                                           and evidence = :evidence)
                        """)
                .param("cause", report.cause().toString())
                .param("subject", report.subjectId())
                .param("evidence", report.evidence())
                .query(Boolean.class)
                .single();
    }

    private Optional<OpenAlert> openAlert(CauseReport report) {
        return jdbc.sql("""
                        select id, headline, detail from alert
                        where cause = :cause and subject_id = :subject and closed_at is null
                        """)
                .param("cause", report.cause().toString())
                .param("subject", report.subjectId())
                .query((row, n) ->
                        new OpenAlert(Rows.id(row, "id"), row.getString("headline"), row.getString("detail")))
                .optional();
    }

    private OpenAlert alertNotClosed(UUID alertId) {
        var found = jdbc.sql("select id, headline, detail, closed_at from alert where id = :id")
                .param("id", alertId)
                .query((row, n) -> new FoundAlert(
                        new OpenAlert(Rows.id(row, "id"), row.getString("headline"), row.getString("detail")),
                        Rows.instantOrNull(row, "closed_at")))
                .optional()
                .orElseThrow(() -> Refusal.notFound("alert", alertId));
        if (found.closedAt() != null) {
            throw Refusal.conflict("This alert was closed at " + found.closedAt() + ": there is nothing left to do.");
        }
        return found.alert();
    }

    private static void inWords(String pointer, String text) {
        new Checks()
                .that(!text.isBlank(), pointer, "Must not be empty: say it in words, for those who come after.")
                .text(pointer, text, 10_000)
                .refuse();
    }

    /** Where an alert stands. */
    static AlertState state(@Nullable Instant acknowledgedAt, @Nullable Instant closedAt) {
        if (closedAt != null) {
            return AlertState.CLOSED;
        }
        return acknowledgedAt != null ? AlertState.ACKNOWLEDGED : AlertState.OPEN;
    }

    /** An alert with what it says at a time. */
    record OpenAlert(UUID id, String headline, String detail) {}

    private record ReopenedAlert(AlertCause cause, String headline, String detail) {}

    private record ClosedAlert(UUID id, AlertDetail detail, String evidence, boolean settled, Instant closedAt) {

        boolean comesBackAs(CauseReport report, Instant closedAtEarliest) {
            return !settled
                    && !closedAt.isBefore(closedAtEarliest)
                    && (COME_AND_GO.contains(report.cause()) || evidence.equals(report.evidence()));
        }

        String told() {
            return "The one before, alert " + id + ", was closed " + (settled ? "by a person on " : "on ")
                    + Days.of(closedAt) + ".";
        }
    }

    private record FoundAlert(OpenAlert alert, @Nullable Instant closedAt) {}

    /**
     * What an alert keeps beside its headline.
     *
     * @param subject path of the preset or name of the instrument
     * @param findings that showed it last
     * @param held slots of all figures that were beyond since it came last
     * @param comings how often its cause came back
     */
    record AlertDetail(
            String subject, List<AffectedFollower> followers, List<Finding> findings, Set<String> held, int comings) {

        /** Findings kept before meters had corrections name none, and alerts kept before they were opened again came once. */
        static AlertDetail read(JsonMapper json, String kept) {
            var tree = json.readTree(kept);
            tree.path("findings").forEach(finding -> KeptJson.completeList(finding, "corrections"));
            if (tree instanceof ObjectNode detail && !detail.has("comings")) {
                detail.put("comings", 0);
            }
            return json.treeToValue(tree, AlertDetail.class);
        }

        boolean touchesTheSameAs(CauseReport report) {
            return presets(followers).equals(presets(report.followers()));
        }

        private static Set<UUID> presets(List<AffectedFollower> followers) {
            return followers.stream().map(AffectedFollower::presetId).collect(Collectors.toSet());
        }

        AlertDetail heldOpenBy(Set<String> slots) {
            return new AlertDetail(subject, followers, findings, slots, comings);
        }
    }
}
