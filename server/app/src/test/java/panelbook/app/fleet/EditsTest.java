package panelbook.app.fleet;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.TreeSet;
import java.util.UUID;
import java.util.function.Function;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import panelbook.app.testing.Samples;
import panelbook.app.testing.ServiceTest;
import panelbook.wire.AuditEntry;
import panelbook.wire.DisplayDraft;
import panelbook.wire.EotfKind;
import panelbook.wire.FacilityDraft;
import panelbook.wire.InstrumentDraft;
import panelbook.wire.InstrumentKind;
import panelbook.wire.PresetDraft;
import panelbook.wire.Retirement;
import panelbook.wire.RoomDraft;
import panelbook.wire.SignalRange;
import panelbook.wire.TargetDraft;
import panelbook.wire.ToleranceSetDraft;

/** What holds for everything that people edit. */
class EditsTest extends ServiceTest {

    private Samples samples;

    /** What stands around a thing: ids of a facility, a display and a target for it. */
    record Surroundings(UUID facilityId, UUID displayId, UUID targetId) {}

    /** A kind of thing: where it lies, its table, and a draft of it under an id and a name. */
    record Kind(String path, String table, Draft draft) {
        @Override
        public String toString() {
            return path;
        }
    }

    interface Draft {
        Object of(Surroundings around, UUID id, String name);
    }

    static Stream<Kind> kinds() {
        return Stream.of(
                new Kind("/facilities", "facility", (a, id, name) -> new FacilityDraft(id, name, "Europe/Lisbon")),
                new Kind("/rooms", "room", (a, id, name) -> new RoomDraft(id, a.facilityId(), name, null)),
                new Kind(
                        "/displays",
                        "display",
                        (a, id, name) ->
                                new DisplayDraft(id, a.facilityId(), null, name, "Model K", "lcd", null, null)),
                new Kind("/presets", "preset", (a, id, name) -> new PresetDraft(id, a.displayId(), name, a.targetId())),
                new Kind(
                        "/targets",
                        "target",
                        (a, id, name) -> new TargetDraft(
                                id,
                                name,
                                Samples.BT2020,
                                EotfKind.HLG,
                                null,
                                SignalRange.NARROW,
                                10,
                                1000,
                                0,
                                Samples.HDR_GRADING)),
                new Kind(
                        "/tolerance-sets",
                        "tolerance_set",
                        (a, id, name) -> new ToleranceSetDraft(id, name, "Ours", 30, null, null, 0.1, 0.95, List.of())),
                new Kind(
                        "/instruments",
                        "instrument",
                        (a, id, name) -> new InstrumentDraft(
                                id, name, InstrumentKind.COLORIMETER, null, 4, 0.2, 0.003, 0.0003, 0.0002)));
    }

    private Surroundings surroundings() {
        var facility = samples.facility();
        var display = samples.display(facility.id(), null);
        return new Surroundings(facility.id(), display.id(), samples.target().id());
    }

    private Function<String, Object> draft(Kind kind, UUID id) {
        var around = surroundings();
        return name -> kind.draft().of(around, id, name);
    }

    @BeforeEach
    void samples() {
        samples = new Samples(engineer());
    }

    @ParameterizedTest
    @MethodSource("kinds")
    void anEditRestsOnTheVersionThatWasRead(Kind kind) {
        var id = UUID.randomUUID();
        var draft = draft(kind, id);
        var path = kind.path() + "/" + id;
        var first = engineer().post(kind.path(), draft.apply(unique("A"))).expect(201);
        assertThat(first.etag()).isEqualTo("\"0\"");
        assertThat(engineer().get(path).expect(200).etag()).isEqualTo("\"0\"");
        var edit = draft.apply(unique("B"));

        engineer().put(path, edit, null).expect(428);
        engineer().put(path, edit, "\"1\"").expect(412);
        var edited = engineer().put(path, edit, "\"0\"").expect(200);

        assertThat(edited.etag()).isEqualTo("\"1\"");
        engineer().put(path, draft.apply(unique("C")), "\"0\"").expect(412);
        assertThat(engineer().get(path).text()).isEqualTo(edited.text());
        assertThat(engineer()
                        .send("GET", path, null, List.of("If-None-Match", "\"1\""))
                        .status())
                .isEqualTo(304);
        engineer().put(kind.path() + "/" + UUID.randomUUID(), edit, "\"0\"").expect(400);
    }

    @ParameterizedTest
    @MethodSource("kinds")
    void everyStepIsInTheLogWithWhoAndWhatItWas(Kind kind) {
        var id = UUID.randomUUID();
        var draft = draft(kind, id);
        var path = kind.path() + "/" + id;
        var name = unique("A");
        engineer().post(kind.path(), draft.apply(name)).expect(201);
        engineer().put(path, draft.apply(unique("B")), "\"0\"").expect(200);
        engineer().post(path + "/retirement", new Retirement("worn out")).expect(200);
        engineer().post(path + "/retirement", new Retirement("again")).expect(200);

        var entries =
                engineer().all("/audit-entries?subject-kind=" + kind.table() + "&subject-id=" + id, AuditEntry.class);

        // retiring what has revisions takes the last one along, in a step of its own
        assertThat(entries).hasSizeBetween(3, 4).last().satisfies(entry -> {
            assertThat(entry.action()).isEqualTo("add");
            assertThat(entry.after()).containsEntry("name", name);
        });
        assertThat(entries.get(0).after()).containsEntry("retirement_reason", "worn out");
        assertThat(entries).allSatisfy(entry -> assertThat(entry.actor()).startsWith("first engineer ("));
    }

    @ParameterizedTest
    @MethodSource("kinds")
    void aNameIsTakenOnce(Kind kind) {
        var around = surroundings();
        var name = unique("A");
        engineer()
                .post(kind.path(), kind.draft().of(around, UUID.randomUUID(), name))
                .expect(201);

        var twin = engineer().post(kind.path(), kind.draft().of(around, UUID.randomUUID(), name));

        assertThat(twin.expect(409).problem().detail()).contains("of this name");
    }

    @ParameterizedTest
    @MethodSource("kinds")
    void pagesWalkEveryThingOnceWhileOthersAreAdded(Kind kind) {
        var around = surroundings();
        var before = new TreeSet<String>();
        for (var i = 0; i < 7; i++) {
            before.add(add(kind, around));
        }
        var walked = new ArrayList<String>();
        var after = "";
        do {
            var page =
                    engineer().get(kind.path() + "?limit=3" + after).expect(200).tree();
            page.path("items").forEach(item -> walked.add(item.path("id").asString()));
            after = page.path("next").isNull()
                    ? null
                    : "&after=" + page.path("next").asString();
            if (walked.size() < 10) {
                add(kind, around);
            }
        } while (after != null);

        assertThat(walked).doesNotHaveDuplicates().containsAll(before);
    }

    private String add(Kind kind, Surroundings around) {
        var id = UUID.randomUUID();
        engineer()
                .post(kind.path(), kind.draft().of(around, id, unique("Walk")))
                .expect(201);
        return id.toString();
    }
}
