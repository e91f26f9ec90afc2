package panelbook.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** A match in the room, typed line by line. */
class MatchSessionTest extends MatchRoom {

    private Path journal(String id) {
        return home.resolve(".local/state/panelbook/matches/" + id + ".jsonl");
    }

    private List<String> kinds(String id) {
        return stub.stories.steps(id).stream().map(s -> (String) s.get("kind")).toList();
    }

    @Test
    void anOpeningSaysFirstWhatIsNotTrueAndHowToGoOn() {
        desk.type(
                "match",
                "open",
                "--follower",
                CLIENT,
                "--hero",
                MAIN,
                "--operator",
                "Mara",
                "--follower-on",
                "5",
                "--trim",
                "gain.red=+2");
        assertThat(desk.lines())
                .anyMatch(line -> line.startsWith("controls: gain.red +2"))
                .containsSubsequence(
                        "not met  follower warm up: on for 5 of 30 min; wait",
                        "unknown  viewing light: nobody said; dim the lights to viewing level",
                        "met  same target");
        assertThat(desk.err).contains("Opened. Next: panelbook match session ");
    }

    @Test
    void anOpeningWithSomethingNotTrueEndsWithExitCodeThree() {
        assertThat(desk.type(
                        "match",
                        "open",
                        "--follower",
                        CLIENT,
                        "--hero",
                        MAIN,
                        "--operator",
                        "Mara",
                        "--follower-on",
                        "5"))
                .isEqualTo(3);
    }

    @Test
    void aVisitIsTypedSeenTriedOvershotTakenBackReadAndSigned() {
        var id = open();
        reading("before.csv", CLIENT, "2026-03-31T11:00:00Z");
        reading("after.csv", CLIENT, "2026-03-31T11:20:00Z");
        reading("hero.csv", MAIN, "2026-03-31T11:30:00Z");
        var code = session(
                "saw red skin on 'beach, shot 3'",
                "read before.csv",
                "gain.red -1 -- on purpose past it",
                "gain.red -2",
                "worse",
                "back 3",
                "better",
                "read after.csv",
                "read hero.csv",
                "note it's the operator's \"warm\" look",
                "sign --material \"12 shots\" --remarks 'skin first'");
        assertThat(code).as(desk.out + desk.err).isZero();
        assertThat(kinds(id))
                .containsExactly(
                        "observation",
                        "reading",
                        "trim",
                        "trim",
                        "verdict",
                        "return",
                        "verdict",
                        "reading",
                        "reading",
                        "note");
        var steps = stub.stories.steps(id);
        assertThat(steps.get(0))
                .extractingByKey("observation", org.assertj.core.api.InstanceOfAssertFactories.MAP)
                .containsEntry("look", "redder")
                .containsEntry("place", "skin")
                .containsEntry("material", "beach, shot 3");
        assertThat(steps.get(2)).containsEntry("note", "on purpose past it");
        assertThat(steps.get(9)).containsEntry("note", "it's the operator's \"warm\" look");
        assertThat(desk.out)
                .contains("6  back 3   (controls: gain.red -1)")
                .contains("   advice for observation")
                .contains("TRIMS\tgain.red=-1", "MATERIAL\t12 shots", "MEASURED\ttrue");
        var match = (Map<?, ?>) stub.stories.stories.get(id).get("signOff");
        assertThat(match.get("followerRunId")).isEqualTo(steps.get(7).get("runId"));
        assertThat(match.get("heroRunId")).isEqualTo(steps.get(8).get("runId"));
        assertThat(session("show")).as("nothing is under way any more").isEqualTo(1);
        done("match", "story", id);
        assertThat(desk.lines())
                .contains("4\ttrim gain.red -2\tgain.red -3\tundone", "6\tback 3\tgain.red -1\t", "STATE\tsigned");
    }

    @Test
    void everyStepIsInTheOwnersJournalAndASecondSessionIsRefused() throws Exception {
        var id = open();
        session("gain.red -1", "better");
        assertThat(Files.readAllLines(journal(id)).stream()
                        .map(line -> line.replaceFirst("^\\{\"what\":\"([^\"]+)\".*", "$1")))
                .containsExactly("opening", "opened", "step", "stored", "step", "stored");
        assertThat(PosixFilePermissions.toString(Files.getPosixFilePermissions(journal(id))))
                .isEqualTo("rw-------");
        try (var channel = java.nio.channels.FileChannel.open(
                        journal(id).resolveSibling(id + ".lock"), StandardOpenOption.WRITE);
                var lock = channel.lock()) {
            assertThat(lock.isValid()).isTrue();
            fails(1, "Another session on this machine has match " + id + " open.", "match", "do", id, "better");
        }
    }

    @Test
    void whileTheServiceIsAwayTheMatchGoesOnAndIsSentInOrderLater() {
        var id = open();
        reading("after.csv", CLIENT, "2026-03-31T11:20:00Z");
        session("gain.red -1");
        stub.stop();
        assertThat(session("saw red skin", "gain.red -1", "worse", "read after.csv", "back", "where"))
                .as(desk.err)
                .isZero();
        assertThat(desk.out)
                .contains("2  saw redder skin   (controls: gain.red -1)   not sent yet")
                .as("advice from the table as last fetched")
                .contains("   Try saturation.")
                .contains("Step 6; controls: gain.red -1. 5 steps are not sent.");
        assertThat(desk.err)
                .containsOnlyOnce("The match goes on: what you type is kept here")
                .contains("Spooled after.csv", "5 not sent yet; they wait on this machine");
        stub.restart();
        assertThat(session("show")).isZero();
        assertThat(desk.err).contains("Sent 1 run from the spool.", "Sent 5 steps that waited.");
        assertThat(kinds(id)).containsExactly("trim", "observation", "trim", "verdict", "reading", "return");
        assertThat(session("show")).isZero();
        assertThat(kinds(id)).hasSize(6);
    }

    @Test
    void aMatchIsOpenedOnThisMachineWhileTheServiceIsAwayIfTheNamesAreKnownHere() {
        stub.stop();
        fails(
                1,
                "is not known on this machine. Nothing was opened.",
                "match",
                "open",
                "--follower",
                CLIENT,
                "--hero",
                MAIN,
                "--operator",
                "Mara");
        stub.restart();
        done("preset", "show", CLIENT);
        done("preset", "show", MAIN);
        done("instrument", "show", "Meter 1");
        stub.stop();
        var id = open("--lights", "yes");
        assertThat(desk.err).contains("is checked when the service has it");
        assertThat(session("gain.red -1")).isZero();
        stub.restart();
        assertThat(session("better")).isZero();
        assertThat(desk.err).contains("The service has the opening.", "unknown  follower warm up");
        assertThat(kinds(id)).containsExactly("trim", "verdict");
    }

    @Test
    void anAnswerThatIsLostIsNoSecondStep() {
        var id = open();
        stub.afterStep.add(StubService.problem(503, "going down", List.of()));
        assertThat(session("gain.red -1", "better")).isZero();
        assertThat(kinds(id)).containsExactly("trim", "verdict");
    }

    @Test
    void aSignOffWithoutServiceGoesOutAfterTheStepsAndALostAnswerSignsNothingTwice() {
        var id = open();
        stub.stop();
        assertThat(session("gain.red -1", "better", "sign --unmeasured")).isZero();
        assertThat(desk.err).contains("The sign-off is kept here and goes out when the service is back");
        stub.restart();
        stub.afterStep.addAll(List.of(
                new StubService.Answer(503, Map.of()),
                new StubService.Answer(503, Map.of()),
                new StubService.Answer(503, Map.of())));
        for (var attempt = 0; attempt < 4; attempt++) {
            assertThat(desk.type("match", "do", id, "send")).isLessThanOrEqualTo(1);
        }
        assertThat(kinds(id)).containsExactly("trim", "verdict");
        assertThat(stub.stories.stories.get(id)).containsEntry("state", "signed");
        assertThat(stub.stories.stories.get(id).get("signOff"))
                .isInstanceOfSatisfying(
                        Map.class, m -> assertThat(m.get("followerRunId")).isNull());
    }

    @Test
    void aGuardsRefusalShowsBothReadingsStandsWithExitCodeThreeAndIsInTheWayOfSigning() {
        var id = open();
        reading("after.csv", CLIENT, "2026-03-31T11:20:00Z");
        assertThat(session("gain.red +3", "read after.csv --remarks clips")).isEqualTo(3);
        assertThat(desk.out)
                .contains("Guard: gain.red is REFUSED.")
                .contains("Before 4.1 %, after 0.02 %. Go back (back), or let it stand: keep gain.red because REASON");
        assertThat(session("sign --unmeasured")).isEqualTo(3);
        assertThat(desk.err).contains("A guard refuses gain.red: before 4.1 %");
        assertThat(session("keep gain.red because the client insists", "sign --unmeasured"))
                .as(desk.err)
                .isZero();
        assertThat(stub.stories.stories.get(id)).containsEntry("state", "signed");
    }

    @Test
    void aStepThatTheServiceRefusesIsSaidAtOnceAndLeavesNoGap() {
        var id = open();
        assertThat(session("gain.red -1", "gain.red -500", "better")).isEqualTo(1);
        assertThat(desk.err)
                .contains("panelbook: line 2: Not taken down: trim gain.red -500.")
                .contains("goes beyond the control's range")
                .contains("Nothing after it was done");
        assertThat(session("better")).isZero();
        assertThat(kinds(id)).containsExactly("trim", "verdict");
    }

    @Test
    void aRefusedStepWithOthersBehindItStopsTheSendingUntilAPersonDecides() {
        var id = open();
        session("gain.red -1");
        stub.stop();
        session("gain.red -500", "worse", "back 1");
        stub.restart();
        assertThat(session("show")).isZero();
        assertThat(desk.err)
                .contains("Step 2 was refused: trim gain.red -500.")
                .contains("Type again to add them anew at the end, or leave to leave them out.");
        assertThat(kinds(id)).containsExactly("trim");
        assertThat(session("leave")).isZero();
        assertThat(kinds(id)).containsExactly("trim", "verdict", "return");
    }

    @Test
    void stepsFromAnotherMachineAreTakenInAndACollisionIsShownAndLosesNothing() {
        var id = open();
        session("gain.red -1");
        var other = new Desk(home.resolve("other"));
        other.environment.put("HOME", home.resolve("other").toString());
        other.logIn(stub);
        assertThat(other.type("match", "do", id, "gain.blue +1")).as(other.err).isZero();
        assertThat(session("where")).isZero();
        assertThat(desk.err).contains("Taken in from another machine: 2 trim gain.blue +1 (Mara).");
        assertThat(desk.out).contains("controls: gain.blue +1, gain.red -1");
        stub.stop();
        session("gain.green -1", "better");
        stub.restart();
        assertThat(other.type("match", "do", id, "note elsewhere")).isZero();
        assertThat(session("where")).isZero();
        assertThat(desk.err)
                .contains("The place of this step was taken on another machine: 3 note elsewhere (Mara).")
                .contains("Not in the record, but kept here: trim gain.green -1; better.");
        assertThat(session("again")).isZero();
        assertThat(kinds(id)).containsExactly("trim", "trim", "note", "trim", "verdict");
    }

    @Test
    void aMatchThatWasSignedElsewhereMeanwhileTakesNothingMoreAndKeepsWhatWasTyped() throws Exception {
        var id = open();
        stub.stop();
        session("gain.red -1");
        stub.restart();
        stub.stories.stories.get(id).put("state", "given-up");
        session("where");
        assertThat(desk.err).contains("The match was given up before this step arrived.", "trim gain.red -1");
        assertThat(Files.readString(journal(id))).contains("gain.red");
        assertThat(desk.type("match", "do", id, "leave")).isZero();
        assertThat(journal(id)).doesNotExist();
        assertThat(journal(id).resolveSibling("closed").resolve(id + ".jsonl"))
                .content()
                .contains("gain.red");
    }

    @Test
    void aLineThatAKillLeftHalfWrittenIsPutAsideAndTheStepIsNotThere() throws Exception {
        var id = open();
        session("gain.red -1");
        Files.writeString(journal(id), "{\"what\":\"step\",\"at\":\"2026-", StandardOpenOption.APPEND);
        assertThat(session("better", "where")).isZero();
        assertThat(desk.out).contains("Step 2; controls: gain.red -1.");
        assertThat(kinds(id)).containsExactly("trim", "verdict");
        assertThat(journal(id).resolveSibling(id + ".jsonl.torn")).hasContent("{\"what\":\"step\",\"at\":\"2026-");
    }

    @Test
    void aJournalThatSomebodySpoiltIsAnsweredWithFileAndLine() throws Exception {
        var id = open();
        Files.writeString(journal(id), "nonsense\n", StandardOpenOption.APPEND);
        fails(1, ".jsonl, line 3: this cannot be read", "match", "do", id, "better");
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "saw purple | There is no look \"purple\". There are: redder, greener",
                "saw more-s nowhere | There is no place \"nowhere\"",
                "saw more- skin | may be more-cyan or more-magenta",
                "saw redder one-colour | Which colour?",
                "saw redder skin teal | A colour follows one-colour only",
                "gain.red 2 | There is no word \"gain.red\"",
                "trim gain.red 2 | is no trim. Type CONTROL CLICKS with the sign",
                "trim gain.red +0 | changes nothing",
                "gain.red =0 | gain.red stands at 0 already.",
                "better | Nothing was trimmed yet",
                "back | There is no trim to go back on.",
                "back 7 | There is no step 7 yet; the last one is 0.",
                "keep gain.red | Type keep CONTROL because REASON",
                "note | Type what is to be noted",
                "read | Name the file of the run",
                "read no.csv | no.csv cannot be read: there is no such file",
                "give in | Type give up REASON",
                "s | may be saw or same or show or suggest",
                "dance | There is no word \"dance\". There are: saw, trim",
                "sign | There is no reading of the follower as its controls stand now",
                "suggest | There is no reading of the follower yet",
            })
    void whatIsNotUnderstoodIsAnsweredWithWhatWouldBeAndChangesNothing(String line, String message) {
        var id = open();
        assertThat(session(line)).isEqualTo(1);
        assertThat(desk.err).contains("panelbook: line 1: ").contains(message);
        assertThat(kinds(id)).isEmpty();
    }

    @Test
    void wordsMayBeShortAndClicksMayNameWhereAControlIsToStand() {
        var id = open("--trim", "gain.red=+2");
        assertThat(session("saw magenta shad", "gain.red@low +2", "gain.red =0", "b -- nearly", "# a remark", "", "q"))
                .isEqualTo(1);
        assertThat(desk.err).contains("\"b\" may be better or back.");
        assertThat(session("be -- nearly", "q", "never reached")).isZero();
        assertThat(stub.stories.steps(id).get(2).get("trim"))
                .isEqualTo(Map.of("control", "gain.red", "level", "all", "clicks", -2));
        assertThat(kinds(id)).containsExactly("observation", "trim", "trim", "verdict");
    }

    @Test
    void theSamePairAndOperatorAreNotOpenedTwiceOnOneMachine() {
        var id = open();
        fails(
                1,
                "Such a match is open already: " + id,
                "match",
                "open",
                "--follower",
                CLIENT,
                "--hero",
                MAIN,
                "--operator",
                "Mara");
    }

    @Test
    void anOpeningThatTheServiceRefusesIsNoMatch() {
        fails(
                1,
                "There is no operator nobody.",
                "match",
                "open",
                "--follower",
                CLIENT,
                "--hero",
                MAIN,
                "--operator",
                "nobody");
        assertThat(session("show")).isEqualTo(1);
        assertThat(desk.err).contains("No match is under way on this machine.");
    }

    @Test
    void restoringListsWhichControlsToSetToWhatAtAnyStepAlsoOffLine() {
        var id = open("--trim", "gain.red=+2");
        session("gain.red -3", "gain.blue +1");
        assertThat(session("restore 1")).isZero();
        assertThat(desk.lines()).contains("gain.blue\t+1\t0\t-1", "gain.red\t-1\t-1\tleave");
        done("match", "restore", id.substring(0, 8), "--step", "0", "--json=step");
        assertThat(desk.out).isEqualTo("{\"step\":0}\n");
        stub.stop();
        done("match", "restore", id, "--step", "0");
        assertThat(desk.lines()).contains("gain.red\t-1\t+2\t+3");
        done("match", "story", id);
        assertThat(desk.lines()).contains("2\ttrim gain.blue +1\tgain.blue +1, gain.red -1\t");
    }

    @Test
    void aSuggestionShowsWhatToTurnWhatIsLeftAndWhyNotMore() {
        open();
        stub.suggestion = new java.util.LinkedHashMap<>(Map.of(
                "followerPresetId",
                id("presets", "HDR"),
                "follower",
                CLIENT,
                "heroPresetId",
                id("presets", "HDR"),
                "hero",
                MAIN,
                "operator",
                "Mara",
                "offsetSource",
                "usual",
                "aim",
                "hero + 0.002 in u′"));
        stub.suggestion.putAll(Map.of(
                "followerRunId", id("presets", "HDR"),
                "heroRunId", id("presets", "HDR"),
                "changes",
                        List.of(
                                Map.of("control", "gain.red", "level", "all", "from", 0, "to", -2),
                                Map.of("control", "gain.blue", "level", "low", "from", 1, "to", 1)),
                "rest",
                        List.of(Map.of(
                                "grey",
                                100,
                                "du",
                                0.0003,
                                "dv",
                                -0.0001,
                                "luminancePercent",
                                -0.4,
                                "chromaticityUncertainty",
                                0.0002,
                                "luminanceUncertaintyPercent",
                                0.3)),
                "costBefore", 9.0,
                "costAfter", 0.4,
                "whyNotMore", List.of(Map.of("reason", "whole-clicks", "explanation", "There are no half clicks.")),
                "effectUnknown", List.of("hue")));
        assertThat(session("suggest")).as(desk.err).isZero();
        assertThat(desk.lines())
                .contains("gain.red\t0\t-2\t-2", "gain.blue@low\t+1\t+1\tleave")
                .contains("Aim: hero + 0.002 in u′", "Why not more: There are no half clicks.")
                .anyMatch(line -> line.startsWith("Expected rest, 100 % grey: Δu′ +0.0003"))
                .anyMatch(line -> line.startsWith("Left out, since no step tells what a click does: hue."));
        done("trim", "suggest", "--follower", CLIENT, "--hero", MAIN, "--operator", "Mara", "--json=aim");
        assertThat(desk.out).isEqualTo("{\"aim\":\"hero + 0.002 in u′\"}\n");
    }

    @Test
    void theAnswersToSingleStepsComeAsJsonWhereThatIsAskedFor() {
        var id = open();
        done("match", "do", id, "gain.red -1", "better", "--json");
        assertThat(desk.lines()).hasSize(2);
        assertThat(desk.lines().get(0))
                .startsWith(
                        "{\"number\":1,\"step\":\"trim gain.red -1\",\"sent\":true,\"settings\":[{\"control\":\"gain.red\"")
                .contains("\"advice\":[\"advice for trim\"]");
    }

    @Test
    void aReadingOfAnotherDisplayIsARunAndNoStep() {
        var id = open();
        var display = stub.add(
                "displays",
                "Third",
                Map.of("facilityId", id("facilities", "North"), "roomId", id("rooms", "Suite 1"), "model", "M"));
        stub.add("presets", "HDR", Map.of("displayId", display.get("id"), "targetId", id("targets", "HDR 1000")));
        reading("third.csv", "Suite 1/Third/HDR", "2026-03-31T11:20:00Z");
        assertThat(session("read third.csv")).isEqualTo(1);
        assertThat(desk.err).contains("The run is of neither the follower").contains("is no step of this match");
        assertThat(kinds(id)).isEmpty();
        assertThat(stub.runsInOrder).hasSize(1);
    }

    @Test
    void aMatchIsGivenUpWithItsReason() {
        var id = open();
        done("match", "give-up", id, "--reason", "the converter has to go first");
        assertThat(stub.stories.stories.get(id)).containsEntry("endedBecause", "the converter has to go first");
        fails(1, "is over: it was given up, because the converter has to go first", "match", "do", id, "better");
    }

    @Test
    void stepsTypedInFromNotesAreStampedAMinuteApartFromTheTimeGiven() {
        var id = open();
        done("match", "do", id, "gain.red -1", "better", "note from paper", "--at", "2026-03-31T09:00:00Z");
        assertThat(stub.stories.steps(id).stream().map(step -> step.get("at")))
                .containsExactly("2026-03-31T09:00:00Z", "2026-03-31T09:01:00Z", "2026-03-31T09:02:00Z");
    }

    @Test
    void anOpeningMadeOffLineThatTheServiceThenRefusesKeepsItsStepsAndSaysWhere() {
        for (var preset : List.of(CLIENT, MAIN)) {
            done("preset", "show", preset);
        }
        stub.stop();
        done("match", "open", "--follower", CLIENT, "--hero", MAIN, "--operator", "nobody");
        session("gain.red -1");
        stub.restart();
        session("better");
        assertThat(desk.err)
                .contains("The service refused to open this match: There is no operator nobody.")
                .contains("Its steps stay on this machine, in " + home.resolve(".local/state/panelbook/matches"));
    }

    @Test
    void aSessionThatTakesUpAMatchSignedOffLineSendsThatAndEnds() {
        open();
        stub.stop();
        session("gain.red -1", "sign --unmeasured");
        assertThat(session("gain.red -1"))
                .as("it is over for whoever sits here")
                .isEqualTo(1);
        stub.restart();
        assertThat(session()).isZero();
        assertThat(desk.err)
                .contains("Sent 1 step that waited.", "Signed off, unmeasured: North/Suite 1/Client/HDR to ");
        assertThat(desk.out).contains("TRIMS\tgain.red=-1");
    }

    @Test
    void ofSeveralStepsOneThatIsNotUnderstoodIsToldBeforeAnyIsDone() {
        var id = open();
        fails(2, "There is no word \"dance\"", "match", "do", id, "gain.red -1", "dance");
        assertThat(kinds(id)).isEmpty();
    }

    @Test
    void adviceThatWasJustGivenIsNotRepeatedAtEveryStep() {
        open();
        session("gain.red -1", "gain.red -1", "gain.red -1", "note a", "note b", "note c", "gain.red -1");
        assertThat(desk.out.split("advice for trim", -1)).as("given twice").hasSize(3);
    }
}
