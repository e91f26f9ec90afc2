package panelbook.app.rest;

import static org.assertj.core.api.Assertions.assertThat;
import static panelbook.app.testing.Studio.asAimed;

import java.time.Duration;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import panelbook.app.testing.Samples;
import panelbook.app.testing.ServiceTest;
import panelbook.app.testing.Studio;
import panelbook.wire.AbsenceDraft;
import panelbook.wire.CalibratorDraft;
import panelbook.wire.ControlRangeDraft;
import panelbook.wire.CorrectionDraft;
import panelbook.wire.CorrectionWithdrawalDraft;
import panelbook.wire.GivingUp;
import panelbook.wire.HolidayDraft;
import panelbook.wire.Look;
import panelbook.wire.MatchWithdrawalDraft;
import panelbook.wire.MergerDraft;
import panelbook.wire.Observation;
import panelbook.wire.OpeningDraft;
import panelbook.wire.OperatorVerdict;
import panelbook.wire.Place;
import panelbook.wire.PlanDraft;
import panelbook.wire.Preset;
import panelbook.wire.ProofCheckDraft;
import panelbook.wire.ProofDraft;
import panelbook.wire.Purpose;
import panelbook.wire.QuietPeriodDraft;
import panelbook.wire.RunWithdrawalDraft;
import panelbook.wire.StepDraft;
import panelbook.wire.StepKind;
import panelbook.wire.StorySignOffDraft;
import panelbook.wire.Trim;
import panelbook.wire.VisitDraft;
import panelbook.wire.Weekday;
import panelbook.wire.WorkingHours;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * Whatever a request of a visit or of a mistake put right holds in one of its fields, it is taken or refused with words, and
 * never makes the service fail.
 */
class BadInputTest extends ServiceTest {

    private static final List<String> VALUES = List.of(
            "null",
            "\"\"",
            "\" \"",
            "\"nonsense\"",
            "\"a\\u0000b\"",
            "\"\\ud800\"",
            "\"00000000-0000-4000-8000-000000000000\"",
            "\"-1000000-01-01T00:00:00Z\"",
            "\"+1000000-01-01T00:00:00Z\"",
            "\"-4800-01-01T00:00:00Z\"",
            "-1",
            "0",
            "1.5",
            "2147483647",
            "-2147483648",
            "99999999999999999999",
            "1e400",
            "\"NaN\"",
            "true",
            "{}",
            "[]",
            "[null]",
            "[{}]",
            "[\"x\"]");

    // as they stand in an address; the last ends in the middle of a character
    private static final List<String> PARAMETERS =
            List.of("", "x", "-1", "99999999999", "00000000-0000-4000-8000-000000000000", "%00", "MSwy", "%EF%BF");

    @Autowired
    private JsonMapper json;

    /** A request that would be taken. */
    private record Request(String path, Object body) {}

    @Test
    void whateverAFieldOrAParameterHoldsTheServiceDoesNotFail() {
        var studio = new Studio(engineer(), unique("studio"));
        var follower = studio.display("Follower 1", "oled");
        var twin = studio.display("Follower 2", "oled");
        var day = clock.advance(Duration.ofHours(1));
        var ofFollower = studio.upload(studio.run(follower, Purpose.AS_LEFT, day.minusSeconds(60), asAimed()));
        var ofHero = studio.upload(studio.run(studio.hero(), Purpose.AS_LEFT, day.minusSeconds(50), asAimed()));
        var match = engineer()
                .post(
                        "/matches",
                        studio.signOffDraft(
                                follower,
                                "operator A",
                                ofFollower.runId(),
                                ofHero.runId(),
                                List.of(new Trim("gain.red", "all", -1))))
                .expect(201)
                .as(panelbook.wire.Match.class);
        var opening = new OpeningDraft(
                UUID.randomUUID(),
                follower,
                studio.hero(),
                "operator B",
                studio.instrument(),
                60,
                60,
                true,
                List.of(new Trim("gain.red", "all", -1)),
                day);
        engineer().post("/match-stories", opening).expect(201);
        var steps = "/match-stories/" + opening.id() + "/steps";
        var display = engineer().get("/presets/" + follower).as(Preset.class).displayId();
        var other = engineer().get("/presets/" + twin).as(Preset.class).displayId();
        var calibrator = new CalibratorDraft(
                UUID.randomUUID(),
                unique("Calibrator"),
                studio.facility(),
                List.of("oled"),
                List.of(new WorkingHours(Weekday.MONDAY, "09:00", "17:00")));
        engineer().post("/calibrators", calibrator).expect(201);
        var today = LocalDate.ofInstant(day, ZoneOffset.UTC);
        var requests = List.of(
                new Request("/calibrators", calibrator),
                new Request(
                        "/calibrators/" + calibrator.id() + "/absences",
                        new AbsenceDraft(UUID.randomUUID(), today, today.plusDays(1), "away")),
                new Request("/holidays", new HolidayDraft(UUID.randomUUID(), studio.facility(), today, "feast")),
                new Request(
                        "/plans",
                        new PlanDraft(UUID.randomUUID(), studio.facility(), today, today.plusDays(1), true, 1)),
                new Request(
                        "/visits",
                        new VisitDraft(
                                UUID.randomUUID(),
                                studio.room(),
                                calibrator.id(),
                                day.plusSeconds(86_400),
                                List.of(follower),
                                60,
                                "a reason",
                                true)),
                new Request("/rooms/" + studio.room() + "/proofs", new ProofDraft(UUID.randomUUID(), today)),
                new Request("/proof-checks", new ProofCheckDraft("0".repeat(64), "0".repeat(64))),
                new Request("/match-stories", opening),
                new Request(
                        steps,
                        step(
                                StepKind.OBSERVATION,
                                new Observation(Look.LIGHTER, Place.SKIN, "red", "night"),
                                null,
                                null,
                                null)),
                new Request(steps, step(StepKind.TRIM, null, new Trim("gain.red", "all", 1), null, null)),
                new Request(steps, step(StepKind.READING, null, null, ofFollower.runId(), null)),
                new Request(steps, step(StepKind.RETURN, null, null, null, 0)),
                new Request(
                        "/match-stories/" + opening.id() + "/sign-off",
                        new StorySignOffDraft(
                                UUID.randomUUID(), ofFollower.runId(), ofHero.runId(), "night", "none", day)),
                new Request(
                        "/matches",
                        studio.signOffDraft(follower, "operator C", ofFollower.runId(), ofHero.runId(), List.of())),
                new Request("/match-stories/" + opening.id() + "/giving-up", new GivingUp("the client came")),
                new Request("/channels", Samples.channelDraft(studio.facility())),
                new Request(
                        "/quiet-periods",
                        new QuietPeriodDraft(
                                UUID.randomUUID(), studio.room(), null, "rebuilding", day, day.plusSeconds(3600))),
                new Request("/displays/" + display + "/control-ranges", new ControlRangeDraft("gain", "all", -5, 5)),
                new Request(
                        "/instruments/" + studio.instrument() + "/corrections/preview",
                        new CorrectionDraft(
                                UUID.randomUUID(),
                                display,
                                null,
                                ofFollower.runId(),
                                ofFollower.runId(),
                                false,
                                day,
                                "a note")),
                new Request(
                        "/instruments/" + studio.instrument() + "/corrections/" + UUID.randomUUID() + "/withdrawal",
                        new CorrectionWithdrawalDraft("it was wrong")),
                new Request("/runs/" + ofFollower.runId() + "/withdrawal", new RunWithdrawalDraft("no", twin)),
                new Request(
                        "/matches/" + match.id() + "/withdrawal", new MatchWithdrawalDraft("wrong one", "operator D")),
                new Request(
                        "/displays/" + other + "/merger",
                        new MergerDraft(display, List.of(new MergerDraft.PresetPair(twin, follower)), "serial")));
        var failures = new ArrayList<String>();
        for (var request : requests) {
            var whole = json.valueToTree(request.body());
            places(whole, "")
                    .forEach(place -> VALUES.forEach(value -> {
                        var body = with(whole, place, value);
                        var answer = engineer().postJson(request.path(), body);
                        if (answer.status() >= 500) {
                            failures.add(request.path() + " " + place + " = " + value + ": " + answer.text());
                        }
                    }));
        }
        for (var path : List.of(
                "/match-stories/" + opening.id() + "/restoration?step=",
                "/match-stories?state=",
                "/match-stories?follower=",
                "/match-stories?operator=",
                "/match-stories?after=",
                "/trim-suggestions?follower=" + follower + "&hero=" + studio.hero() + "&operator=A&story=",
                "/runs/" + ofHero.runId() + "/readings?corrected=",
                "/channels?after=",
                "/calendar-feeds?after=",
                "/calendar-feeds?room=",
                "/booking-sources?after=",
                "/panel-hours-questions?after=",
                "/quiet-periods?room=",
                "/quiet-periods?past=",
                "/visits?state=",
                "/visits?from=",
                "/visits?room=",
                "/visits?after=",
                "/plans?after=",
                "/rooms/" + studio.room() + "/proofs?after=",
                "/holidays?from=",
                "/work-durations?model=",
                "/calibrators?name=",
                "/advice?retired=")) {
            for (var value : PARAMETERS) {
                var answer = engineer().get(path + value);
                if (answer.status() >= 500) {
                    failures.add(path + value + ": " + answer.text());
                }
            }
        }
        assertThat(failures).as("requests that made the service fail").isEmpty();
    }

    private StepDraft step(
            StepKind kind,
            @Nullable Observation seen,
            @Nullable Trim trim,
            @Nullable UUID run,
            @Nullable Integer returnTo) {
        return new StepDraft(
                UUID.randomUUID(),
                1,
                kind,
                seen,
                trim,
                (OperatorVerdict) null,
                run,
                returnTo,
                null,
                null,
                "a note",
                clock.instant());
    }

    /** The JSON pointers of everything in a body, itself left out. */
    private static List<String> places(JsonNode node, String at) {
        var all = new ArrayList<String>();
        node.propertyNames().forEach(name -> add(all, node.get(name), at + "/" + name));
        if (node.isArray()) {
            for (var i = 0; i < node.size(); i++) {
                add(all, node.get(i), at + "/" + i);
            }
        }
        return all;
    }

    private static void add(List<String> all, JsonNode node, String at) {
        all.add(at);
        all.addAll(places(node, at));
    }

    private String with(JsonNode whole, String place, String value) {
        var copy = whole.deepCopy();
        var cut = place.lastIndexOf('/');
        var parent = cut == 0 ? copy : copy.at(place.substring(0, cut));
        var mark = "put here " + place;
        if (parent instanceof ObjectNode object) {
            object.put(place.substring(cut + 1), mark);
        } else {
            ((ArrayNode) parent).set(Integer.parseInt(place.substring(cut + 1)), json.valueToTree(mark));
        }
        return json.writeValueAsString(copy).replace(json.writeValueAsString(mark), value);
    }
}
