package panelbook.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

/** Uploading runs, with the service there and away. */
class RunUploadTest extends CommandTest {

    private static final String AT = "2026-03-31T10:00:00Z";

    private List<Object> storedFiles() {
        return stub.runsInOrder.stream().map(run -> run.get("fileName")).toList();
    }

    private List<String> spoolStates() {
        desk.type("spool", "list");
        return desk.lines().stream().map(line -> line.split("\t")[1]).toList();
    }

    @Test
    void eachFileIsAnsweredWithItsVerdictAndTheSameRunAgainIsHarmless() {
        run("a.csv", AT);
        run("b.csv", "2026-03-31T11:00:00Z");
        done("run", "upload", "a.csv", "b.csv");
        assertThat(desk.lines()).hasSize(2);
        assertThat(desk.lines().get(0)).startsWith("a.csv\tcheck\twithin\tNorth/Suite 1/Main/HDR\t3 readings; run ");
        var first = desk.lines().get(0);
        run("renamed.csv", AT);
        done("run", "upload", "renamed.csv", "--preset", "Suite 1/Main/HDR");
        assertThat(desk.lines().get(0).replace("renamed.csv", "a.csv"))
                .as("the same run from a renamed file")
                .isEqualTo(first);
        assertThat(stub.runsInOrder).hasSize(2);
        assertThat(stub.runsInOrder.get(0))
                .containsEntry("presetId", id("presets", "HDR"))
                .containsEntry("instrumentId", id("instruments", "Meter 1"))
                .containsEntry("takenAt", AT)
                .containsEntry("operator", "Mara");
    }

    @Test
    void anotherWayToNameThePresetIsTheSameRun() {
        desk.write(
                "a.csv",
                "# readings: 1",
                "red,green,blue,X_cd_m2,Y_cd_m2,Z_cd_m2",
                "1023,1023,1023,950.2,1000.1,1088.7");
        for (var preset : List.of("Suite 1/Main/HDR", "North/Suite 1/Main/HDR", id("presets", "HDR"))) {
            done(
                    "run",
                    "upload",
                    "a.csv",
                    "--preset",
                    preset,
                    "--instrument",
                    "Meter 1",
                    "--purpose",
                    "check",
                    "--operator",
                    "Mara",
                    "--taken-at",
                    "2026-03-31T12:00:00+02:00");
        }
        assertThat(stub.runsInOrder).hasSize(1);
    }

    @Test
    void somethingBeyondToleranceIsExitCode3AndAFailedFileOutweighsIt() {
        run("a.csv", AT);
        assertThat(desk.type("run", "upload", "a.csv", "--remarks", "beyond")).isEqualTo(3);
        assertThat(desk.out).contains("\tbeyond\t");
        assertThat(desk.type("run", "upload", "nowhere.csv", "a.csv", "--remarks", "beyond"))
                .isEqualTo(1);
        assertThat(desk.err)
                .contains(
                        "panelbook: nowhere.csv cannot be read: there is no such file. Check the name and the folder.");
        assertThat(desk.out).as("the other file is uploaded all the same").contains("a.csv\tcheck\tbeyond");
        run("b.csv", "2026-03-31T13:00:00Z");
        done("run", "upload", "b.csv", "--remarks", "undecided");
    }

    @Test
    void jsonHasOneObjectPerFile() {
        run("a.csv", AT);
        done("run", "upload", "a.csv", "--json=file,outcome");
        assertThat(desk.out).isEqualTo("{\"file\":\"a.csv\",\"outcome\":\"stored\"}\n");
        fails(
                2,
                "Use --json alone for all, or any of: file, outcome, message, verdict.",
                "run",
                "upload",
                "a.csv",
                "--json=run");
        fails(1, "cannot be read", "run", "upload", "b.csv");
    }

    @Test
    void whatAFileLeavesOpenMustComeFromAnOptionAndContradictionsAreRefused() {
        desk.write(
                "bare.csv",
                "# readings: 1",
                "red,green,blue,X_cd_m2,Y_cd_m2,Z_cd_m2",
                "1023,1023,1023,950.2,1000.1,1088.7");
        fails(
                1,
                "bare.csv does not name its preset. Give it by --preset, or in the file.",
                "run",
                "upload",
                "bare.csv");
        run("a.csv", AT);
        fails(
                1,
                "a.csv: its purpose is \"check\", but --purpose says \"as-left\". Leave the option out, or mend the file.",
                "run",
                "upload",
                "a.csv",
                "--purpose",
                "as-left");
        fails(
                2,
                "--purpose \"asleft\" is none of: as-found, as-left, check, match.",
                "run",
                "upload",
                "a.csv",
                "--purpose",
                "asleft");
        fails(
                2,
                "--taken-at \"yesterday\" is not a time with its offset",
                "run",
                "upload",
                "a.csv",
                "--taken-at",
                "yesterday");
        fails(2, "panelHours is -1", "run", "upload", "a.csv", "--panel-hours", "-1");
        fails(2, "--ambient-lux \"dim\" is not a number", "run", "upload", "a.csv", "--ambient-lux", "dim");
        fails(2, "Missing required parameter: 'FILE'", "run", "upload");
        assertThat(stub.runsInOrder).isEmpty();
    }

    @Test
    void aFileWithFaultsIsRefusedWholeWithTheLineOfEach() {
        desk.write(
                "bad.csv",
                "# readings: 3",
                "red,green,blue,X_cd_m2,Y_cd_m2,Z_cd_m2",
                "0,0,0,0.1,-0.2,0.1",
                "5,5,5,nan,1,1",
                "9,9,9,1,1,1");
        fails(
                1,
                "bad.csv has 2 problems; nothing of it was uploaded. Mend these and upload it again:",
                "run",
                "upload",
                "bad.csv");
        assertThat(desk.err).contains("bad.csv, line 3, Y_cd_m2: ", "bad.csv, line 4, X_cd_m2: ");
        desk.write(
                "codes.csv",
                "# preset: Suite 1/Main/HDR",
                "# instrument: Meter 1",
                "# purpose: check",
                "# operator: Mara",
                "# taken-at: " + AT,
                "# readings: 1",
                "red,green,blue,X_cd_m2,Y_cd_m2,Z_cd_m2",
                "4095,0,0,1,1,1");
        fails(1, "codes.csv does not fit target HDR 1000. Is the preset right?", "run", "upload", "codes.csv");
        assertThat(desk.err).contains("codes.csv, line 8, red: ").contains("1023");
        assertThat(stub.runsInOrder).isEmpty();
        assertThat(spoolStates()).isEmpty();
    }

    @Test
    void aRefusalByTheServiceNamesTheLineOfTheFile() {
        run("a.csv", AT);
        fails(
                1,
                "panelbook: a.csv, line 9, y: is too dark to be true",
                "run",
                "upload",
                "a.csv",
                "--remarks",
                "refuse");
        assertThat(spoolStates()).as("a refused run is no outage").isEmpty();
    }

    @Test
    void duringAnOutageRunsAreCheckedSpooledAndSentByTheNextCallInOrderEachOnce() {
        run("first.csv", AT);
        done("run", "upload", "first.csv");
        stub.stop();
        for (var hour = 1; hour <= 4; hour++) {
            run("run" + hour + ".csv", "2026-03-31T1" + hour + ":00:00Z");
        }
        done("run", "upload", "run1.csv", "run2.csv");
        assertThat(desk.err)
                .contains(
                        "cannot be reached", "Spooled run1.csv; the next command that reaches the service sends it.\n");
        assertThat(desk.lines().get(0))
                .startsWith(
                        "run1.csv\tupload\tspooled\t\tchecked here: file, code values, and against HDR 1000 as last seen: white +0.0 %, white Δu′v′ 0.000");
        done("run", "upload", "run3.csv");
        assertThat(desk.lines()).as("one that waits is sent before a new one").hasSize(1);
        assertThat(spoolStates()).containsExactly("waiting", "waiting", "waiting");
        stub.restart();
        done("room", "list");
        assertThat(desk.err).isEqualTo("Sent 3 runs from the spool.\n");
        done("run", "upload", "run4.csv", "run1.csv");
        assertThat(storedFiles()).containsExactly("first.csv", "run1.csv", "run2.csv", "run3.csv", "run4.csv");
        assertThat(spoolStates()).isEmpty();
    }

    @Test
    void anAnswerThatIsLostIsAskedForAgainAndDoublesNothing() {
        run("a.csv", AT);
        done("run", "upload", "a.csv");
        stub.afterStoring = StubService.problem(500, "Something broke.", List.of());
        run("b.csv", "2026-03-31T11:00:00Z");
        done("run", "upload", "b.csv");
        assertThat(desk.err).contains("Spooled b.csv");
        done("spool", "send");
        assertThat(desk.out).startsWith("spool\tcheck\twithin\t");
        assertThat(storedFiles()).containsExactly("a.csv", "b.csv");
    }

    @Test
    void aRunWhoseNamesAreNotKnownHereIsSpooledWithThemAndResolvedWhenItIsSent() {
        run("a.csv", AT);
        desk.write(
                "b.csv",
                "# preset: Suite 1/Main/SDR",
                "# instrument: Meter 1",
                "# purpose: check",
                "# operator: Mara",
                "# taken-at: " + AT,
                "# readings: 1",
                "red,green,blue,X_cd_m2,Y_cd_m2,Z_cd_m2",
                "1023,1023,1023,950.2,1000.1,1088.7");
        run("c.csv", "2026-03-31T11:00:00Z");
        stub.stop();
        done("run", "upload", "a.csv", "b.csv", "c.csv");
        assertThat(desk.err).contains("Its names are not known here and will be looked up when it is sent.");
        stub.restart();
        assertThat(desk.type("spool", "send")).isEqualTo(1);
        assertThat(desk.err)
                .contains(
                        "the service refused spooled run ",
                        "There is no preset \"Suite 1/Main/SDR\"",
                        "It was set aside; see panelbook spool list");
        assertThat(storedFiles()).as("a refused run does not block the others").containsExactly("a.csv", "c.csv");
        assertThat(spoolStates()).containsExactly("set-aside");
        assertThat(desk.out).contains("There is no preset \"Suite 1/Main/SDR\"");

        stub.add(
                "presets",
                "SDR",
                Map.of("displayId", id("displays", "Main"), "targetId", id("targets", "HDR 1000"), "hero", false));
        done("spool", "send", "--set-aside");
        assertThat(storedFiles()).containsExactly("a.csv", "c.csv", "b.csv");
        assertThat(spoolStates()).isEmpty();
    }

    @Test
    void aRunThatWasSetAsideIsDeletedOnlyWhenSomebodySaysSo() {
        run("a.csv", AT);
        stub.stop();
        done("run", "upload", "a.csv", "--remarks", "refuse");
        stub.restart();
        done("room", "list");
        assertThat(desk.err).contains("It was set aside");
        assertThat(spoolStates()).containsExactly("set-aside");
        var name = desk.lines().get(0).split("\t")[0];
        fails(1, "No run of the name \"../x\" is set aside.", "spool", "delete", "../x");
        done("spool", "delete", name);
        assertThat(spoolStates()).isEmpty();
        done("spool", "send");
        assertThat(desk.err).isEqualTo("The spool is empty.\n");
    }

    @Test
    void aTokenThatIsRefusedIsNotTheRunsFault() {
        run("a.csv", AT);
        stub.stop();
        done("run", "upload", "a.csv");
        stub.restart();
        stub.instead.add(StubService.problem(403, "A manager reads.", List.of()));
        assertThat(desk.type("spool", "send")).isEqualTo(1);
        assertThat(desk.err).contains("1 run still in the spool: A manager reads. See who you are: panelbook who");
        assertThat(spoolStates()).containsExactly("waiting");
        run("b.csv", "2026-03-31T11:00:00Z");
        stub.instead.add(StubService.problem(401, "The token has expired.", List.of()));
        fails(1, "The token has expired. Log in again: panelbook log-in URL", "run", "upload", "b.csv");
        done("spool", "send");
        assertThat(storedFiles()).containsExactly("a.csv");
    }

    @Test
    void aSpooledRunIsItsOwnersOnlyAndForTheServiceItWasMeantFor() throws Exception {
        run("a.csv", AT);
        stub.stop();
        done("run", "upload", "a.csv");
        stub.restart();
        var spool = home.resolve(".local/state/panelbook/spool");
        assertThat(PosixFilePermissions.toString(Files.getPosixFilePermissions(spool)))
                .isEqualTo("rwx------");
        try (var files = Files.list(spool)) {
            assertThat(files.filter(Files::isRegularFile))
                    .isNotEmpty()
                    .allSatisfy(file -> assertThat(PosixFilePermissions.toString(Files.getPosixFilePermissions(file)))
                            .isEqualTo("rw-------"));
        }
        try (var other = new StubService()) {
            desk.logIn(other);
            assertThat(desk.type("spool", "send")).isEqualTo(1);
            assertThat(desk.err).contains("1 run wait for another address");
            assertThat(other.runsInOrder).isEmpty();
        }
        desk.logIn(stub);
        done("spool", "send");
        assertThat(stub.runsInOrder).hasSize(1);
    }

    @Test
    void aFileInTheSpoolThatCannotBeReadIsSetAsideAndBlocksNothing() throws Exception {
        run("a.csv", AT);
        stub.stop();
        done("run", "upload", "a.csv");
        stub.restart();
        Files.writeString(home.resolve(".local/state/panelbook/spool/000000000000-00000000.json"), "{\"service\":");
        assertThat(desk.type("spool", "send")).isEqualTo(1);
        assertThat(storedFiles()).containsExactly("a.csv");
        assertThat(spoolStates()).containsExactly("set-aside");
    }

    @Test
    void aLongUploadShowsItsProgressToAPersonAndWipesIt() throws Exception {
        var lines = new java.util.ArrayList<>(List.of(
                "# preset: Suite 1/Main/HDR",
                "# instrument: Meter 1",
                "# purpose: check",
                "# operator: Mara",
                "# taken-at: " + AT,
                "# readings: 20000",
                "red,green,blue,X_cd_m2,Y_cd_m2,Z_cd_m2"));
        for (var i = 0; i < 20_000; i++) {
            lines.add(i % 1000 + "," + i / 1000 + ",7," + (1 + i / 7.0) + "," + (2 + i / 3.0) + ",1.25");
        }
        desk.write("big.csv", lines.toArray(String[]::new));
        desk.terminal = true;
        done("run", "upload", "big.csv");
        assertThat(desk.err).contains("\rbig.csv, sent 0.5 MB").endsWith("\r");
        desk.terminal = false;
        done("run", "upload", "big.csv");
        assertThat(desk.err).isEmpty();
        assertThat((List<?>) stub.runsInOrder.get(0).get("readings")).hasSize(20_000);
    }

    @Test
    void aRunComesFromStandardInputToo() throws Exception {
        desk.typed = Files.readString(run("a.csv", AT));
        done("run", "upload", "-");
        assertThat(desk.out).startsWith("-\tcheck\twithin");
    }
}
