package panelbook.app.fleet;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.time.LocalDate;
import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import panelbook.app.testing.Samples;
import panelbook.app.testing.ServiceTest;
import panelbook.wire.Basis;
import panelbook.wire.BookEntered;
import panelbook.wire.CertificateEntry;
import panelbook.wire.Display;
import panelbook.wire.DisplayEntry;
import panelbook.wire.EotfKind;
import panelbook.wire.FacilityBook;
import panelbook.wire.Hero;
import panelbook.wire.InstrumentEntry;
import panelbook.wire.InstrumentKind;
import panelbook.wire.Metric;
import panelbook.wire.PresetEntry;
import panelbook.wire.Retirement;
import panelbook.wire.Room;
import panelbook.wire.RoomEntry;
import panelbook.wire.SignalRange;
import panelbook.wire.Stay;
import panelbook.wire.TargetEntry;
import panelbook.wire.Tolerance;
import panelbook.wire.ToleranceSetEntry;

class BooksTest extends ServiceTest {

    private final String set = unique("House HDR");
    private final String target = unique("HDR 1000");
    private final String meter = unique("Meter");
    private final String house = unique("House");

    @Test
    void aBookIsReadAsItWasEntered() {
        var book = book(roomOne(true), roomTwo());

        var entered = enter(book);

        assertThat(entered.added()).as(entered.notes().toString()).isEqualTo(13);
        assertThat(entered.changed()).isZero();
        assertThat(entered.notes())
                .contains(
                        "facility " + house + " added",
                        "display Hero placed in Grading 1",
                        "Hero/HDR named hero of Grading 1");
        var read = read(entered);
        assertThat(read.name()).isEqualTo(house);
        assertThat(read.timeZone()).isEqualTo("Europe/Lisbon");
        assertThat(read.rooms()).isEqualTo(book.rooms());
        assertThat(read.toleranceSets())
                .as("those that come with the service are in the book, too")
                .containsAll(book.toleranceSets())
                .extracting(ToleranceSetEntry::name)
                .contains("HDR grading");
        assertThat(read.targets()).containsAll(book.targets());
        assertThat(read.instruments()).containsAll(book.instruments());
    }

    @Test
    void enteringWhatWasReadChangesNothing() {
        var entered = enter(book(roomOne(true), roomTwo()));
        clock.advance(Duration.ofHours(1));
        var read = read(entered);

        var again = enter(read);

        assertThat(again.added()).isZero();
        assertThat(again.changed()).isZero();
        assertThat(again.unchanged()).isPositive();
        assertThat(again.notes()).isEmpty();
        assertThat(read(again)).isEqualTo(read);
    }

    @Test
    void whatTheBookNamesIsChangedAndWhatItDoesNotNameStays() {
        var entered = enter(book(roomOne(true), roomTwo()));
        clock.advance(Duration.ofHours(1));
        var hero = display("Hero", "Model K2", preset("HDR", true));

        var changed = enter(book(new RoomEntry("Grading 2", "Asia/Tokyo", List.of(hero))));

        assertThat(changed.added()).isZero();
        assertThat(changed.changed()).isEqualTo(1);
        assertThat(changed.notes())
                .containsExactly(
                        "display Hero changed", "display Hero placed in Grading 2", "Hero/HDR named hero of Grading 2");
        var rooms = engineer().all("/rooms?facility=" + entered.facilityId(), Room.class);
        assertThat(rooms).extracting(Room::name).containsExactly("Grading 1", "Grading 2");
        assertThat(engineer().get("/rooms/" + rooms.get(0).id() + "/heroes").asListOf(Hero.class))
                .as("it left")
                .isEmpty();
        var moved = engineer().all("/displays?name=Hero&facility=" + entered.facilityId(), Display.class);
        assertThat(moved)
                .singleElement()
                .satisfies(display -> assertThat(engineer()
                                .get("/displays/" + display.id() + "/stays")
                                .asListOf(Stay.class))
                        .extracting(Stay::room)
                        .containsExactly("Grading 2", "Grading 1"));
        assertThat(engineer().all("/displays?room=" + rooms.get(0).id(), Display.class))
                .extracting(Display::name)
                .containsExactly("Follower");
    }

    @Test
    void theHeroPassesFromOnePresetToAnotherInOneEntry() {
        var entered = enter(book(roomOne(true)));
        clock.advance(Duration.ofHours(1));

        var passed = enter(book(roomOne(false)));

        assertThat(passed.notes()).contains("Follower/HDR named hero of Grading 1");
        var room = engineer()
                .all("/rooms?facility=" + entered.facilityId(), Room.class)
                .get(0);
        assertThat(engineer().get("/rooms/" + room.id() + "/heroes").asListOf(Hero.class))
                .extracting(Hero::display)
                .containsExactly("Follower");
        assertThat(engineer()
                        .get("/rooms/" + room.id() + "/heroes?history=true")
                        .asListOf(Hero.class))
                .extracting(Hero::display)
                .containsExactly("Follower", "Hero");
    }

    @Test
    void everythingThatIsWrongIsPointedToAndNothingIsEntered() {
        var wrong = new FacilityBook(
                house,
                "Mars/Base",
                List.of(),
                List.of(targetEntry("Nobody's set", 1000)),
                List.of(),
                List.of(
                        new RoomEntry(
                                "Grading 1",
                                null,
                                List.of(
                                        display("A", "Model K", preset("HDR", true), preset("HDR", false)),
                                        display("B", "Model K", new PresetEntry("HDR", "Nowhere", false)))),
                        new RoomEntry("Grading 1", null, List.of(display("A", "", preset("HDR", true))))));

        var problem = engineer().post("/books", wrong).expect(400).problem();

        assertThat(problem.errors())
                .extracting("pointer")
                .containsExactlyInAnyOrder(
                        "/timeZone",
                        "/rooms/1/name",
                        "/targets/0/toleranceSet",
                        "/rooms/0/displays/0/presets/1/name",
                        "/rooms/0/displays/1/presets/0/target",
                        "/rooms/1/displays/0/name",
                        "/rooms/1/displays/0/model");
        assertThat(engineer().get("/facilities?name=" + house).text()).contains("\"items\":[]");
    }

    @Test
    void whatContradictsTheServiceIsPointedToAndNothingIsEntered() {
        enter(book(roomOne(true)));
        var room = engineer().all("/rooms?name=Grading 1", Room.class).stream()
                .filter(r -> r.facility().equals(house))
                .findFirst()
                .orElseThrow();
        var other = unique("HDR 600");
        var targets = List.of(
                targetEntry(set, 1000),
                new TargetEntry(other, Samples.BT2020, EotfKind.PQ, null, SignalRange.FULL, 10, 600, 0, set));
        var certificate = new CertificateEntry("C 1", LocalDate.parse("2025-01-01"), LocalDate.parse("2025-12-31"));
        var contradicting = new FacilityBook(
                house,
                "Europe/Lisbon",
                List.of(),
                targets,
                List.of(instrument(certificate)),
                List.of(
                        new RoomEntry("New", null, List.of()),
                        new RoomEntry(
                                room.name(),
                                null,
                                List.of(display("Hero", "Model K", new PresetEntry("HDR", other, true))))));

        var problem = engineer().post("/books", contradicting).expect(400).problem();

        assertThat(problem.errors())
                .extracting("pointer")
                .containsExactly("/instruments/0/certificates/0", "/rooms/1/displays/0/presets/0/target");
        assertThat(engineer()
                        .get("/rooms?name=New&facility=" + room.facilityId())
                        .text())
                .as("all or nothing")
                .contains("\"items\":[]");
    }

    @Test
    void aRetiredThingIsNotRevivedByABook() {
        var entered = enter(book(roomOne(true), new RoomEntry("Old", null, List.of())));
        var old = engineer()
                .all("/rooms?name=Old&facility=" + entered.facilityId(), Room.class)
                .get(0);
        engineer()
                .post("/rooms/" + old.id() + "/retirement", new Retirement(null))
                .expect(200);

        var problem = engineer()
                .post("/books", book(new RoomEntry("Old", null, List.of())))
                .expect(400)
                .problem();

        assertThat(problem.errors()).singleElement().satisfies(error -> {
            assertThat(error.pointer()).isEqualTo("/rooms/0/name");
            assertThat(error.detail()).contains("retired");
        });
    }

    @Test
    void aHouseWithHundredsOfDisplaysGoesInWhole() {
        var rooms = IntStream.range(0, 60)
                .mapToObj(i -> new RoomEntry(
                        "Room " + i,
                        null,
                        List.of(
                                display("H" + i, "Model K", preset("HDR", true)),
                                display("F" + i, "Model L", preset("HDR", false), preset("HDR 2", false)))))
                .sorted(java.util.Comparator.comparing(RoomEntry::name))
                .toList();

        var entered = enter(book(rooms.toArray(RoomEntry[]::new)));

        assertThat(read(entered).rooms())
                .usingRecursiveComparison()
                .ignoringCollectionOrder()
                .isEqualTo(rooms);
    }

    private BookEntered enter(FacilityBook book) {
        return engineer().post("/books", book).expect(200).as(BookEntered.class);
    }

    private FacilityBook read(BookEntered entered) {
        return engineer()
                .get("/facilities/" + entered.facilityId() + "/book")
                .expect(200)
                .as(FacilityBook.class);
    }

    private FacilityBook book(RoomEntry... rooms) {
        var certificate = new CertificateEntry("C 1", LocalDate.parse("2026-01-01"), LocalDate.parse("2026-12-31"));
        var tolerances = List.of(new Tolerance(Metric.OWN_DRIFT_WHITE, 0.004, Basis.HOUSE_POLICY, null, null, null));
        return new FacilityBook(
                house,
                "Europe/Lisbon",
                List.of(new ToleranceSetEntry(set, "Ours", 30, 60, null, 0.1, 0.95, tolerances)),
                List.of(targetEntry(set, 1000)),
                List.of(instrument(certificate)),
                List.of(rooms));
    }

    private InstrumentEntry instrument(CertificateEntry certificate) {
        return new InstrumentEntry(
                meter, InstrumentKind.COLORIMETER, "S/N 1", 4, 0.2, 0.003, 0.0003, 0.0002, List.of(certificate));
    }

    private TargetEntry targetEntry(String toleranceSet, double peak) {
        return new TargetEntry(
                target, Samples.BT2020, EotfKind.PQ, null, SignalRange.FULL, 10, peak, 0.0005, toleranceSet);
    }

    private RoomEntry roomOne(boolean firstIsHero) {
        return new RoomEntry(
                "Grading 1",
                null,
                List.of(
                        display("Follower", "Model L", preset("HDR", !firstIsHero)),
                        display("Hero", "Model K", preset("HDR", firstIsHero))));
    }

    private RoomEntry roomTwo() {
        return new RoomEntry("Grading 2", "Asia/Tokyo", List.of(display("Client", "Model M", preset("HDR", false))));
    }

    private DisplayEntry display(String name, String model, PresetEntry... presets) {
        return new DisplayEntry(name, model, "oled", null, null, List.of(presets));
    }

    private PresetEntry preset(String name, boolean hero) {
        return new PresetEntry(name, target, hero);
    }
}
