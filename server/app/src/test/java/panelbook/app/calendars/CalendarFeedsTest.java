package panelbook.app.calendars;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import biweekly.Biweekly;
import biweekly.component.VEvent;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.UUID;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.system.CapturedOutput;
import org.springframework.boot.test.system.OutputCaptureExtension;
import org.springframework.jdbc.core.simple.JdbcClient;
import panelbook.app.database.Rows;
import panelbook.app.testing.Samples;
import panelbook.app.testing.ServiceTest;
import panelbook.wire.CalendarFeed;
import panelbook.wire.CalendarFeedDraft;
import panelbook.wire.NewCalendarFeed;
import panelbook.wire.Role;
import panelbook.wire.Room;

/** Calendars of visits through the service's door, read by an independent reader (biweekly). */
@ExtendWith(OutputCaptureExtension.class)
class CalendarFeedsTest extends ServiceTest {

    @Autowired
    private JdbcClient jdbc;

    private Room room;
    private UUID calibrator;
    private String name;

    @BeforeEach
    void calibrator() {
        var samples = new Samples(engineer());
        room = samples.room(samples.facility().id());
        calibrator = UUID.randomUUID();
        name = unique("Ines");
        jdbc.sql("insert into calibrator (id, name, home_facility_id, skills, week) values (?, ?, ?, '[]', '[]')")
                .params(calibrator, name, room.facilityId())
                .update();
    }

    @Test
    void aPlaceInAnotherListIsRefusedAsSuch() {
        new Samples(engineer()).room(room.facilityId());
        var elsewhere = engineer().get("/rooms?limit=1").asPageOf(Room.class).next();
        assertThat(elsewhere).isNotNull();
        for (var list : List.of("/calendar-feeds", "/panel-hours-questions")) {
            assertThat(engineer()
                            .get(list + "?after=" + elsewhere)
                            .expect(400)
                            .problem()
                            .detail())
                    .as(list)
                    .contains("not of this list");
        }
    }

    @Test
    void whatTheDatabaseRefusesIsNotToldWithItsValues() {
        var source = UUID.randomUUID();
        jdbc.sql("insert into booking_source (id, room_id, name) values (?, ?, 'sessions')")
                .params(source, room.id())
                .update();
        var backwards = jdbc.sql("""
                        insert into booking (source_id, uid, starts_at, ends_at, title)
                        values (?, 'u', ?::timestamptz, ?::timestamptz, ?)""").params(source, "2026-03-09T11:00Z", "2026-03-09T10:00Z", "Unannounced feature");
        assertThatThrownBy(backwards::update).hasMessageContaining("booking").satisfies(refused -> {
            for (var cause = refused; cause != null; cause = cause.getCause()) {
                assertThat(String.valueOf(cause)).doesNotContain("Unannounced");
            }
        });
    }

    @Test
    void aCalibratorSeesTheWorkAndARoomIsTakenFromTheWarmUpOn() {
        var visit = visit("proposed", 9, clock.instant());
        var of = engineer().get("/rooms/" + room.id()).as(Room.class);

        var own = events(open(new CalendarFeedDraft(UUID.randomUUID(), name, null))
                        .path())
                .get(0);
        assertThat(own.getUid().getValue()).isEqualTo(visit + "@panelbook");
        assertThat(own.getSummary().getValue()).isEqualTo("Calibration: " + of.facility() + "/" + of.name());
        assertThat(own.getLocation().getValue()).isEqualTo(of.facility() + "/" + of.name());
        assertThat(own.getDateStart().getValue().toInstant()).isEqualTo(hour(9));
        assertThat(own.getDateEnd().getValue().toInstant()).isEqualTo(hour(11));
        assertThat(own.getStatus().isTentative()).isTrue();
        assertThat(own.getSequence().getValue()).isEqualTo(4);
        assertThat(own.getDescription().getValue())
                .contains("Displays on from ", " (Europe/Lisbon).")
                .contains("A/B/C/HDR (hero): recalibration, 60 min: peak luminance, soon");

        var ofRoom = events(open(new CalendarFeedDraft(UUID.randomUUID(), null, room.id()))
                        .path())
                .get(0);
        assertThat(ofRoom.getDateStart().getValue().toInstant()).isEqualTo(hour(8));
        assertThat(ofRoom.getSummary().getValue()).isEqualTo("Calibration by " + name);
    }

    @Test
    void whatWasDroppedIsCancelledForAWhileAndWhatIsLongPastIsLeftOut() {
        visit("dropped", 10, clock.instant().minus(Duration.ofDays(29)));
        visit("dropped", 20, clock.instant().minus(Duration.ofDays(31)));
        visit("confirmed", 30, clock.instant());
        visit("done", -24 * 10, clock.instant());
        visit("done", -24 * 70, clock.instant());

        assertThat(events(open(new CalendarFeedDraft(UUID.randomUUID(), name, null))
                        .path()))
                .extracting(
                        event -> event.getStatus().getValue(),
                        event -> event.getDateStart().getValue().toInstant())
                .containsExactly(
                        org.assertj.core.groups.Tuple.tuple("CONFIRMED", hour(-24 * 10)),
                        org.assertj.core.groups.Tuple.tuple("CANCELLED", hour(10)),
                        org.assertj.core.groups.Tuple.tuple("CONFIRMED", hour(30)));
    }

    @Test
    void aCalendarThatHasNotChangedIsNotSentAgain() {
        visit("confirmed", 9, clock.instant());
        var path = open(new CalendarFeedDraft(UUID.randomUUID(), name, null)).path();
        var answer = nobody().get(path).expect(200);
        assertThat(answer.header("Content-Type")).isEqualTo("text/calendar;charset=UTF-8");
        assertThat(answer.header("Cache-Control")).contains("private");

        nobody().send("GET", path, null, List.of("If-None-Match", answer.etag()))
                .expect(304);
        nobody().send("HEAD", path, null, List.of()).expect(200);
        visit("confirmed", 19, clock.instant());
        nobody().send("GET", path, null, List.of("If-None-Match", answer.etag()))
                .expect(200);
    }

    @Test
    void onlyTheSecretOpensACalendarAndClosingItIsForGood() {
        var opened = open(new CalendarFeedDraft(UUID.randomUUID(), null, room.id()));
        nobody().get(opened.path()).expect(200);
        nobody().get("/calendars/" + opened.feed().id() + ".ics").expect(404).problem();
        nobody().get(opened.path().replace(".ics", "x.ics")).expect(404);

        engineer().post("/calendar-feeds/" + opened.feed().id() + "/revocation").expect(200);
        var closed = engineer()
                .post("/calendar-feeds/" + opened.feed().id() + "/revocation")
                .expect(200)
                .as(CalendarFeed.class);
        assertThat(closed.revokedAt()).isNotNull();
        nobody().get(opened.path()).expect(404);
    }

    @Test
    void theSecretIsShownOnceAndKeptNowhere(CapturedOutput output) {
        var opened = open(new CalendarFeedDraft(UUID.randomUUID(), null, room.id()));
        var secret = opened.path().replace("/calendars/", "").replace(".ics", "");
        nobody().get(opened.path()).expect(200);
        nobody().get(opened.path() + "?wrong=1").expect(400);

        assertThat(secret.length()).as("256 bits at 6 a character").isGreaterThanOrEqualTo(43);
        assertThat(engineer().get("/calendar-feeds?room=" + room.id()).text())
                .contains(opened.feed().id().toString())
                .doesNotContain(secret);
        assertThat(engineer().get("/audit-entries?subject-kind=calendar_feed").text())
                .contains(opened.feed().id().toString())
                .doesNotContain(secret)
                .doesNotContain("secret_hash");
        assertThat(engineer().get("/actuator/prometheus").text()).doesNotContain(secret);
        assertThat(output).doesNotContain(secret);
        engineer()
                .post("/calendar-feeds", new CalendarFeedDraft(opened.feed().id(), null, room.id()))
                .expect(409);
    }

    @Test
    void aFeedIsOfACalibratorOrOfARoom() {
        engineer()
                .post("/calendar-feeds", new CalendarFeedDraft(UUID.randomUUID(), name, room.id()))
                .expect(400);
        engineer()
                .post("/calendar-feeds", new CalendarFeedDraft(UUID.randomUUID(), null, null))
                .expect(400);
        engineer()
                .post("/calendar-feeds", new CalendarFeedDraft(UUID.randomUUID(), "Nobody", null))
                .expect(400);
        as(Role.MANAGER)
                .post("/calendar-feeds", new CalendarFeedDraft(UUID.randomUUID(), name, null))
                .expect(403);
        assertThat(open(new CalendarFeedDraft(UUID.randomUUID(), calibrator.toString(), null))
                        .feed()
                        .calibrator())
                .isEqualTo(name);
    }

    private NewCalendarFeed open(CalendarFeedDraft draft) {
        return engineer().post("/calendar-feeds", draft).expect(201).as(NewCalendarFeed.class);
    }

    private List<VEvent> events(String path) {
        return Biweekly.parse(nobody().get(path).expect(200).text()).first().getEvents();
    }

    private Instant hour(int hours) {
        return clock.instant().plus(Duration.ofHours(hours));
    }

    private UUID visit(String state, int startHour, Instant changedAt) {
        var id = UUID.randomUUID();
        jdbc.sql("""
                        insert into visit (id, room_id, calibrator_id, warm_up_from, starts_at, ends_at, state, work, reason, made_at,
                                           made_by, changed_at, changed_by, version)
                        values (?, ?, ?, ?, ?, ?, ?, ?::jsonb, null, ?, 'Mara', ?, 'Mara', 4)""")
                .params(
                        id,
                        room.id(),
                        calibrator,
                        Rows.at(hour(startHour - 1)),
                        Rows.at(hour(startHour)),
                        Rows.at(hour(startHour + 2)),
                        state,
                        "[{\"presetId\": \"" + id
                                + "\", \"preset\": \"A/B/C/HDR\", \"hero\": true, \"work\": \"recalibration\","
                                + " \"minutes\": 60, \"why\": \"peak luminance, soon\"}]",
                        Rows.at(changedAt),
                        Rows.at(changedAt))
                .update();
        return id;
    }
}
