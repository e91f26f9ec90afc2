package panelbook.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.junit.jupiter.api.Test;

/** Matches, trims, alerts, findings and readiness: what is asked of the service and what is shown. */
class JudgementCommandsTest extends CommandTest {

    private static final String ALERT = "0f7e3a44-0000-4000-8000-6b1d2c3e4f50";
    private static final String TIME = "2026-03-31T10:00:00Z";

    private String follower() {
        var display = stub.add(
                "displays",
                "Client",
                Map.of(
                        "facilityId",
                        id("facilities", "North"),
                        "roomId",
                        id("rooms", "Suite 1"),
                        "model",
                        "M-55",
                        "panelTechnology",
                        "lcd"));
        stub.add(
                "presets",
                "HDR",
                Map.of("displayId", display.get("id"), "targetId", id("targets", "HDR 1000"), "hero", false));
        return "Suite 1/Client/HDR";
    }

    private void upload(String file, String preset, String purpose, String takenAt) {
        run(file, takenAt);
        var text = List.of(
                "# instrument: Meter 1",
                "# readings: 1",
                "red,green,blue,X_cd_m2,Y_cd_m2,Z_cd_m2",
                "1023,1023,1023,950.2,1000.1,1088.7");
        desk.write(file, text.toArray(String[]::new));
        done(
                "run",
                "upload",
                file,
                "--preset",
                preset,
                "--purpose",
                purpose,
                "--operator",
                "Mara",
                "--taken-at",
                takenAt);
    }

    @Test
    void aSignOffTakesTheLatestMatchRunElseTheLatestAsLeftAndSaysWhich() {
        var follower = follower();
        upload("a.csv", follower, "match", TIME);
        upload("b.csv", "Suite 1/Main/HDR", "as-left", TIME);
        done(
                "match",
                "sign-off",
                "--follower",
                follower,
                "--hero",
                "Suite 1/Main/HDR",
                "--operator",
                "Mara",
                "--trim",
                "gain.red=+2",
                "--trim",
                "bias.blue@low=-1",
                "--material",
                "ramps");
        assertThat(desk.err)
                .contains(
                        "Taking for the follower its latest match run, ",
                        "Taking for the hero its latest as-left run, ",
                        "Signed off: North/Suite 1/Client/HDR to North/Suite 1/Main/HDR for Mara. Next: panelbook trim show \"North/Suite 1\"");
        assertThat(desk.out).contains("TRIMS\tgain.red=+2, bias.blue@low=-1\n");
        done(
                "match",
                "sign-off",
                "--follower",
                follower,
                "--hero",
                "Suite 1/Main/HDR",
                "--operator",
                "Mara",
                "--trim",
                "gain.red=+2",
                "--trim",
                "bias.blue@low=-1",
                "--material",
                "ramps");
        assertThat(desk.err).contains("Signed off already, unchanged");
        assertThat(stub.things.get("matches")).hasSize(1);
        done("match", "list", "--operator", "Mara", "--follower", follower);
        assertThat(desk.lines()).hasSize(1);
        done("match", "show", stub.things.get("matches").keySet().iterator().next());
    }

    @Test
    void aSignOffWithoutAnyRunOrWithAnUnreadableTrimIsRefusedWithTheNextStep() {
        var follower = follower();
        fails(
                1,
                "There is no run of North/Suite 1/Client/HDR that shows how it stands. Next: panelbook run upload FILE --preset \"North/Suite 1/Client/HDR\" --purpose match",
                "match",
                "sign-off",
                "--follower",
                follower,
                "--hero",
                "Suite 1/Main/HDR",
                "--operator",
                "Mara");
        fails(
                2,
                "is not CONTROL=CLICKS or CONTROL@LEVEL=CLICKS",
                "match",
                "sign-off",
                "--follower",
                follower,
                "--hero",
                follower,
                "--operator",
                "M",
                "--trim",
                "gain");
        fails(
                2,
                "clicks are a whole number",
                "match",
                "sign-off",
                "--follower",
                follower,
                "--hero",
                follower,
                "--operator",
                "M",
                "--trim",
                "gain.red=1.5");
        fails(
                2,
                "is not the id of a run",
                "match",
                "sign-off",
                "--follower",
                follower,
                "--hero",
                follower,
                "--operator",
                "M",
                "--follower-run",
                "x");
    }

    @Test
    void trimsAreShownByOperatorThoseInForceFirst() {
        var match = new LinkedHashMap<String, Object>(Map.of(
                "id",
                ALERT,
                "followerPresetId",
                ALERT,
                "follower",
                "North/Suite 1/Client/HDR",
                "heroPresetId",
                ALERT,
                "hero",
                "North/Suite 1/Main/HDR",
                "operator",
                "Mara",
                "followerRunId",
                ALERT,
                "heroRunId",
                ALERT,
                "agreedOffset",
                StubStories.offset(),
                "trims",
                List.of(Map.of("control", "gain.red", "level", "all", "clicks", 2))));
        match.putAll(Map.of("signedAt", TIME, "recordedBy", "Mara", "inForce", true));
        var older = new LinkedHashMap<>(match);
        older.put("inForce", false);
        older.put("trims", List.of());
        var room = stub.things.get("rooms").get(id("rooms", "Suite 1"));
        room.put(
                "trims",
                Map.of(
                        "roomId",
                        id("rooms", "Suite 1"),
                        "room",
                        "Suite 1",
                        "inForce",
                        List.of(match),
                        "history",
                        List.of(older)));
        done("trim", "show", "Suite 1");
        assertThat(desk.lines())
                .containsExactly(
                        "Mara\tNorth/Suite 1/Client/HDR\tgain.red\tall\t2\t" + TIME + "\tin force\t\ttrue",
                        "Mara\tNorth/Suite 1/Client/HDR\tnone\t\t0\t" + TIME + "\treplaced\t\ttrue");
        done("trim", "show", "Suite 1", "--in-force");
        assertThat(desk.lines()).hasSize(1);
        done("trim", "show", "Suite 1", "--operator", "Ines");
        assertThat(desk.out).isEmpty();
    }

    @Test
    void aRoomIsAskedForAsItStoodAndForHowItWent() {
        var ready = Map.of(
                "roomId",
                id("rooms", "Suite 1"),
                "facility",
                "North",
                "room",
                "Suite 1",
                "state",
                "ready",
                "at",
                TIME,
                "reasons",
                List.of());
        var room = stub.things.get("rooms").get(id("rooms", "Suite 1"));
        room.put("readiness", ready);
        done("room", "readiness", "Suite 1", "--as-of", "2026-03-31");
        assertThat(List.copyOf(stub.seen).get(stub.seen.size() - 1).query())
                .as("a day stands for its end")
                .isEqualTo("as-of=2026-04-01T00%3A00%3A00Z");
        assertThat(desk.type("room", "readiness", "Suite 1", "--as-of", "yesterday"))
                .isEqualTo(2);
        assertThat(desk.err).contains("--as-of \"yesterday\" is not a date such as 2026-03-31");

        var change = Map.of("kind", "run", "text", "check of Main/HDR by Mara", "by", "probe");
        room.put(
                "readiness-history",
                Map.of(
                        "roomId",
                        id("rooms", "Suite 1"),
                        "facility",
                        "North",
                        "room",
                        "Suite 1",
                        "from",
                        TIME,
                        "to",
                        "2026-04-01T00:00:00Z",
                        "spans",
                        List.of(Map.of(
                                "from",
                                TIME,
                                "to",
                                "2026-04-01T00:00:00Z",
                                "state",
                                "not-ready",
                                "reasons",
                                List.of(Map.of(
                                        "weight",
                                        "not-ready",
                                        "code",
                                        "moved",
                                        "text",
                                        "It moved by 0.006.",
                                        "display",
                                        "Main")),
                                "changes",
                                List.of(change)))));
        done("room", "history", "Suite 1", "--from", "2026-03-31", "--until", "2026-03-31");
        assertThat(List.copyOf(stub.seen).get(stub.seen.size() - 1).query())
                .isEqualTo("from=2026-03-31T00%3A00%3A00Z&to=2026-04-01T00%3A00%3A00Z");
        assertThat(desk.out)
                .isEqualTo(TIME + "\t2026-04-01T00:00:00Z\tnot-ready\tMain: It moved by 0.006.\t"
                        + "check of Main/HDR by Mara (probe)\n");
    }

    @Test
    void readinessIsPrintedWithItsReasonsAndARoomThatIsNotReadyIsExitCode3() {
        var room = stub.things.get("rooms").get(id("rooms", "Suite 1"));
        var reason = Map.of(
                "weight",
                "not-ready",
                "code",
                "moved",
                "text",
                "Main/HDR moved by 0.006",
                "display",
                "Main",
                "preset",
                "HDR",
                "since",
                TIME);
        var notReady = Map.of(
                "roomId",
                id("rooms", "Suite 1"),
                "facility",
                "North",
                "room",
                "Suite 1",
                "state",
                "not-ready",
                "at",
                TIME,
                "reasons",
                List.of(reason));
        room.put("readiness", notReady);
        assertThat(desk.type("room", "readiness", "Suite 1")).isEqualTo(3);
        assertThat(desk.out)
                .isEqualTo("North/Suite 1\tnot-ready\tnot-ready\tmoved\tMain/HDR\t" + TIME
                        + "\tMain/HDR moved by 0.006\n");
        assertThat(desk.type("room", "readiness", "Suite 1", "--json=state")).isEqualTo(3);
        assertThat(desk.out).isEqualTo("{\"state\":\"not-ready\"}\n");
        var ready = new LinkedHashMap<String, Object>(notReady);
        ready.put("state", "ready");
        ready.put("reasons", List.of());
        room.put("readiness", ready);
        done("room", "readiness", "Suite 1");
        assertThat(desk.out).startsWith("North/Suite 1\tready\t");
        stub.things
                .get("facilities")
                .get(id("facilities", "North"))
                .put(
                        "readiness",
                        Map.of(
                                "facilityId",
                                id("facilities", "North"),
                                "facility",
                                "North",
                                "at",
                                TIME,
                                "ready",
                                1,
                                "readyWithRemarks",
                                0,
                                "notReady",
                                1,
                                "rooms",
                                List.of(notReady, ready)));
        assertThat(desk.type("room", "readiness", "--facility", "North")).isEqualTo(3);
        assertThat(desk.lines()).hasSize(2);
        fails(2, "Name a room, or a facility by --facility.", "room", "readiness");
    }

    @Test
    void whatAnAlertHoldsBackIsListedBelowItAndShownWithIt() {
        var step = new LinkedHashMap<>(alert("stepped", "North/Suite 1/Main/HDR", "It stepped"));
        var moved = new LinkedHashMap<>(alert("moved", "North/Suite 1/Main/HDR", "It moved"));
        var due = alert("recalibration-due", "North/Suite 1/Client/HDR", "It is due");
        var elsewhere = new LinkedHashMap<>(alert("moved", "North/Suite 2/Main/HDR", "It moved, too"));
        moved.put("heldBy", step.get("id"));
        moved.put(
                "history",
                List.of(Map.of(
                        "sequence", 7,
                        "alertId", moved.get("id"),
                        "kind", "held-back",
                        "cause", "moved",
                        "subject", "North/Suite 1/Main/HDR",
                        "at", TIME,
                        "by", "assessment",
                        "heldBack", true,
                        "headline", "It moved",
                        "note", "Explained by It stepped")));
        elsewhere.put("heldBy", UUID.randomUUID().toString());
        step.put(
                "holds",
                List.of(Map.of(
                        "id", moved.get("id"),
                        "cause", "moved",
                        "state", "open",
                        "subject", "North/Suite 1/Main/HDR",
                        "headline", "It moved")));
        var all = new LinkedHashMap<String, Map<String, Object>>();
        List.of(moved, due, elsewhere, step).forEach(alert -> all.put((String) alert.get("id"), alert));
        stub.things.put("alerts", all);

        done("alert", "list");
        assertThat(desk.lines())
                .extracting(line -> line.split("\t")[2] + " " + line.split("\t")[1])
                .as("newest first, but what is held back right below what explains it; nothing left out")
                .containsExactly(
                        "North/Suite 1/Client/HDR recalibration-due",
                        "North/Suite 2/Main/HDR moved",
                        "North/Suite 1/Main/HDR stepped",
                        "North/Suite 1/Main/HDR moved");
        assertThat(desk.lines().get(3).split("\t")[7]).as("held by").isEqualTo(step.get("id"));
        desk.terminal = true;
        done("alert", "list");
        assertThat(desk.lines().get(0)).contains("SUBJECT", "HELD BY");
        assertThat(desk.lines().get(4)).contains("    North/Suite 1/Main/HDR");
        desk.terminal = false;
        done("alert", "show", (String) step.get("id"));
        assertThat(desk.out).contains("open\tmoved\tNorth/Suite 1/Main/HDR\t" + moved.get("id") + "\tIt moved");
        done("alert", "show", (String) moved.get("id"));
        assertThat(desk.out)
                .contains("HELD BY\t" + step.get("id"), "7\t" + TIME + "\theld-back\tmoved")
                .contains("\tIt moved\theld back\tExplained by It stepped");
        done("alert", "list", "--speaking");
        assertThat(desk.lines())
                .extracting(line -> line.split("\t")[1])
                .containsExactly("recalibration-due", "stepped");
    }

    private static Map<String, Object> alert(String cause, String subject, String headline) {
        return Map.of(
                "id",
                UUID.randomUUID().toString(),
                "version",
                0,
                "cause",
                cause,
                "state",
                "open",
                "headline",
                headline,
                "subject",
                subject,
                "subjectId",
                ALERT,
                "openedAt",
                TIME,
                "updatedAt",
                TIME);
    }

    @Test
    void alertsAreListedShownAcknowledgedAndClosed() {
        var alert = new LinkedHashMap<String, Object>(Map.of(
                "cause",
                "moved",
                "state",
                "open",
                "headline",
                "Main/HDR moved",
                "subject",
                "North/Suite 1/Main/HDR",
                "subjectId",
                ALERT,
                "openedAt",
                TIME,
                "updatedAt",
                TIME,
                "followers",
                List.of(Map.of("presetId", ALERT, "preset", "North/Suite 1/Client/HDR", "text", "residual 0.004")),
                "history",
                List.of(Map.of(
                        "sequence",
                        1,
                        "alertId",
                        ALERT,
                        "kind",
                        "opened",
                        "cause",
                        "moved",
                        "subject",
                        "North/Suite 1/Main/HDR",
                        "at",
                        TIME,
                        "by",
                        "assessment",
                        "headline",
                        "Main/HDR moved"))));
        alert.put("id", ALERT);
        alert.put("version", 0);
        stub.things.put("alerts", new LinkedHashMap<>(Map.of(ALERT, alert)));
        done("alert", "list", "--state", "open", "--state", "closed", "--cause", "moved");
        assertThat(desk.out).startsWith("open\tmoved\tNorth/Suite 1/Main/HDR\t" + TIME);
        done("alert", "show", ALERT);
        assertThat(desk.out)
                .contains(
                        "HEADLINE\tMain/HDR moved",
                        "North/Suite 1/Client/HDR\tresidual 0.004",
                        "1\t" + TIME + "\topened\tmoved");
        done("alert", "ack", ALERT, "--note", "visit on Thursday");
        assertThat(desk.err).contains("Acknowledged: North/Suite 1/Main/HDR: Main/HDR moved.");
        done("alert", "close", ALERT, "--reason", "retired");
        assertThat(desk.out).startsWith("closed\t");
        fails(2, "--state \"gone\" is none of: open, acknowledged, closed.", "alert", "list", "--state", "gone");
        fails(2, "Missing required option: '--note=TEXT'", "alert", "ack", ALERT);
        fails(2, "is not the id of an alert. Copy it from: panelbook alert list", "alert", "show", "1");
    }

    @Test
    void findingsShowWhereTheirLimitComesFromAndABeyondOneIsExitCode3() {
        var preset = stub.things.get("presets").get(id("presets", "HDR"));
        var finding = new LinkedHashMap<String, Object>(Map.of(
                "id",
                ALERT,
                "presetId",
                id("presets", "HDR"),
                "preset",
                "North/Suite 1/Main/HDR",
                "rule",
                "own-drift",
                "metric",
                "own-drift-white",
                "value",
                0.0061,
                "limit",
                0.004,
                "unit",
                "u′v′",
                "decision",
                "within",
                "explanation",
                "moved towards blue"));
        finding.putAll(Map.of(
                "readings",
                List.of(),
                "toleranceSetId",
                ALERT,
                "toleranceSet",
                "House",
                "toleranceSetVersion",
                2,
                "basis",
                "secondary",
                "document",
                "EBU Tech 3320",
                "assessedAt",
                TIME));
        var findings = new ArrayList<>(List.of(finding));
        preset.put("findings", findings);
        done("finding", "list", "Suite 1/Main/HDR");
        assertThat(desk.out)
                .contains(
                        "within\town-drift-white\t0.0061\t≤ 0.004\tu′v′\t\tNorth/Suite 1/Main/HDR\tEBU Tech 3320 (by a summary of it)\t\tmoved towards blue");
        finding.put("decision", "beyond");
        assertThat(desk.type("finding", "list", "Suite 1/Main/HDR")).isEqualTo(3);
    }

    @Test
    void aBaselineIsDeclaredWithAReason() {
        upload("b.csv", "Suite 1/Main/HDR", "as-left", TIME);
        var run = stub.things.get("runs").keySet().iterator().next();
        done("baseline", "declare", "Suite 1/Main/HDR", run, "--reason", "client asked for 5600 K");
        assertThat(desk.err).contains("Run " + run + " is the baseline of North/Suite 1/Main/HDR.");
        fails(2, "Missing required option: '--reason=TEXT'", "baseline", "declare", "Suite 1/Main/HDR", run);
        done("baseline", "list", "Suite 1/Main/HDR");
        done("run", "show", run);
        assertThat(desk.out).contains("PRESET\tNorth/Suite 1/Main/HDR");
    }
}
