package panelbook.app.fleet;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.util.List;
import java.util.UUID;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import panelbook.app.testing.Samples;
import panelbook.app.testing.ServiceTest;
import panelbook.wire.AuditEntry;
import panelbook.wire.Facility;
import panelbook.wire.FacilityDraft;
import panelbook.wire.MoveDraft;
import panelbook.wire.Retirement;
import panelbook.wire.Role;
import panelbook.wire.Room;
import panelbook.wire.RoomDraft;

class RoomsTest extends ServiceTest {

    private Samples samples;

    @BeforeEach
    void samples() {
        samples = new Samples(engineer());
    }

    @Test
    void aFacilityIsReadAsItWasAddedAndByItsName() {
        var draft = new FacilityDraft(UUID.randomUUID(), unique("House"), "Asia/Tokyo");

        var added = engineer().post("/facilities", draft).expect(201);

        assertThat(added.header("Location")).isEqualTo("/api/v1/facilities/" + draft.id());
        var facility = added.as(Facility.class);
        assertThat(facility).isEqualTo(new Facility(draft.id(), draft.name(), "Asia/Tokyo", null, 0));
        var read = engineer().get("/facilities/" + draft.id()).expect(200);
        assertThat(read.as(Facility.class)).isEqualTo(facility);
        assertThat(read.etag()).isEqualTo(added.etag()).isEqualTo("\"0\"");
        assertThat(engineer()
                        .get("/facilities?name=" + draft.name())
                        .asPageOf(Facility.class)
                        .items())
                .containsExactly(facility);
    }

    @Test
    void theSameDraftAgainIsHarmlessAndOtherContentUnderItsIdIsNot() {
        var facility = samples.facility();
        var draft = new RoomDraft(UUID.randomUUID(), facility.id(), "Grading 1", null);
        var first = engineer().post("/rooms", draft).expect(201).as(Room.class);

        var again = engineer().post("/rooms", draft).expect(200);

        assertThat(again.as(Room.class)).isEqualTo(first);
        var other = new RoomDraft(draft.id(), facility.id(), "Grading 2", null);
        assertThat(engineer().post("/rooms", other).expect(409).problem().detail())
                .contains("already")
                .contains("use PUT");
        assertThat(engineer().all("/rooms?facility=" + facility.id(), Room.class))
                .containsExactly(first);
    }

    @Test
    void aRoomTakesTheTimeZoneOfItsFacilityUnlessItSaysOtherwise() {
        var facility = samples.facility();
        assertThat(samples.room(facility.id()).timeZone()).isEqualTo("Europe/Lisbon");

        var draft = new RoomDraft(UUID.randomUUID(), facility.id(), "Remote", "America/Lima");
        assertThat(engineer().post("/rooms", draft).as(Room.class).timeZone()).isEqualTo("America/Lima");
    }

    @ParameterizedTest(name = "{0}")
    @CsvSource(
            delimiter = '|',
            quoteCharacter = '`',
            value = {
                "`` | /name | Must not be empty",
                "`a/b` | /name | no slash",
                "`-` | /name | stands for no room",
                "` Grading` | /name | blank",
                "`Grad\\ting` | /name | control characters",
            })
    void aNameThatWouldBreakAPathIsRefused(String name, String pointer, String words) {
        var draft = new RoomDraft(UUID.randomUUID(), samples.facility().id(), name.replace("\\t", "\t"), null);

        var problem = engineer().post("/rooms", draft).expect(400).problem();

        assertThat(problem.errors()).singleElement().satisfies(error -> {
            assertThat(error.pointer()).isEqualTo(pointer);
            assertThat(error.detail()).contains(words);
        });
    }

    @Test
    void everythingThatIsWrongIsSaidAtOnce() {
        var draft = new RoomDraft(UUID.randomUUID(), UUID.randomUUID(), "x".repeat(201), "Mars/Base");

        var problem = engineer().post("/rooms", draft).expect(400).problem();

        assertThat(problem.errors()).extracting("pointer").containsExactly("/name", "/timeZone", "/facilityId");
        assertThat(problem.detail()).contains("and 2 more");
        assertThat(problem.errors().get(0).detail()).contains("at most 200").contains("has 201");
    }

    @Test
    void aNameIsTakenOncePerFacility() {
        var facility = samples.facility();
        engineer()
                .post("/rooms", new RoomDraft(UUID.randomUUID(), facility.id(), "Grading", null))
                .expect(201);

        var twin = new RoomDraft(UUID.randomUUID(), facility.id(), "Grading", null);
        assertThat(engineer().post("/rooms", twin).expect(409).problem().detail())
                .contains("a room of this name in this facility already");

        var elsewhere = new RoomDraft(UUID.randomUUID(), samples.facility().id(), "Grading", null);
        engineer().post("/rooms", elsewhere).expect(201);
    }

    @Test
    void anEditNeedsTheVersionThatItRestsOn() {
        var room = samples.room(samples.facility().id());
        var path = "/rooms/" + room.id();
        var edit = new RoomDraft(room.id(), room.facilityId(), unique("Review"), "Asia/Tokyo");

        assertThat(engineer().put(path, edit, null).expect(428).problem().detail())
                .contains("If-Match");
        assertThat(engineer().put(path, edit, "\"7\"").expect(412).problem().detail())
                .contains("read it again");
        engineer().put(path, edit, "*").expect(412);
        var edited = engineer().put(path, edit, "\"0\"").expect(200);

        assertThat(edited.etag()).isEqualTo("\"1\"");
        assertThat(edited.as(Room.class))
                .isEqualTo(new Room(room.id(), room.facilityId(), room.facility(), edit.name(), "Asia/Tokyo", null, 1));
        engineer().put(path, edit, "\"0\"").expect(412);
        var unchanged = engineer().send("GET", path, null, List.of("If-None-Match", "\"1\""));
        assertThat(unchanged.status()).isEqualTo(304);
    }

    @Test
    void anEditUnderAnotherIdOrIntoAnotherFacilityIsRefused() {
        var room = samples.room(samples.facility().id());
        var path = "/rooms/" + room.id();

        var otherId = new RoomDraft(UUID.randomUUID(), room.facilityId(), "X", null);
        assertThat(engineer().put(path, otherId, "\"0\"").expect(400).problem().errors())
                .extracting("pointer")
                .containsExactly("/id");
        var otherFacility = new RoomDraft(room.id(), samples.facility().id(), "X", null);
        assertThat(engineer()
                        .put(path, otherFacility, "\"0\"")
                        .expect(400)
                        .problem()
                        .detail())
                .contains("stays in its facility");
    }

    @Test
    void whatIsStillInUseIsNotRetiredAndIsNamed() {
        var facility = samples.facility();
        var room = samples.room(facility.id());
        var display = samples.display(facility.id(), room.id());

        assertThat(engineer()
                        .post("/facilities/" + facility.id() + "/retirement", new Retirement(null))
                        .expect(409)
                        .problem()
                        .detail())
                .contains("rooms in use: " + room.name());
        assertThat(engineer()
                        .post("/rooms/" + room.id() + "/retirement", new Retirement(null))
                        .expect(409)
                        .problem()
                        .detail())
                .contains("still stand in the room: " + display.name())
                .contains("Move them out first");

        clock.advance(Duration.ofHours(1));
        engineer()
                .post("/displays/" + display.id() + "/moves", new MoveDraft(UUID.randomUUID(), null, null, "sold"))
                .expect(200);
        var retired = engineer()
                .post("/rooms/" + room.id() + "/retirement", new Retirement("rebuilt as a machine room"))
                .expect(200)
                .as(Room.class);

        assertThat(retired.retiredAt()).isEqualTo(clock.instant());
        assertThat(engineer()
                        .post("/rooms/" + room.id() + "/retirement", new Retirement(null))
                        .expect(200)
                        .as(Room.class))
                .as("a second retirement changes nothing")
                .isEqualTo(retired);
        assertThat(engineer().all("/rooms?facility=" + facility.id(), Room.class))
                .isEmpty();
        assertThat(engineer().all("/rooms?retired=true&facility=" + facility.id(), Room.class))
                .containsExactly(retired);
        var edit = new RoomDraft(room.id(), facility.id(), "Again", null);
        assertThat(engineer()
                        .put("/rooms/" + room.id(), edit, "\"1\"")
                        .expect(409)
                        .problem()
                        .detail())
                .contains("is retired");
        assertThat(engineer()
                        .all("/audit-entries?subject-kind=room&subject-id=" + room.id(), AuditEntry.class)
                        .get(0)
                        .after())
                .as("the reason is kept")
                .containsEntry("retirement_reason", "rebuilt as a machine room");
    }

    @Test
    void nothingIsAddedToWhatIsRetired() {
        var facility = samples.facility();
        engineer()
                .post("/facilities/" + facility.id() + "/retirement", new Retirement(null))
                .expect(200);

        var room = new RoomDraft(UUID.randomUUID(), facility.id(), "New", null);
        assertThat(engineer().post("/rooms", room).expect(409).problem().detail())
                .contains("is retired");
        engineer().post("/displays", Samples.displayDraft(facility.id(), null)).expect(409);
    }

    @Test
    void everyChangeIsInTheLogWithWhoAndWhen() {
        var room = samples.room(samples.facility().id());
        var edit = new RoomDraft(room.id(), room.facilityId(), unique("Review"), null);
        engineer().put("/rooms/" + room.id(), edit, "\"0\"").expect(200);

        var entries = as(Role.MANAGER)
                .all("/audit-entries?subject-kind=room&subject-id=" + room.id() + "&limit=1", AuditEntry.class);

        assertThat(entries).extracting(AuditEntry::action).containsExactly("change", "add");
        assertThat(entries.get(0).actor()).startsWith("first engineer (");
        assertThat(entries.get(0).before()).containsEntry("name", room.name());
        assertThat(entries.get(0).after()).containsEntry("name", edit.name());
        assertThat(entries.get(0).at()).isAfterOrEqualTo(entries.get(1).at());
    }
}
