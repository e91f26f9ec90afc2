package panelbook.app.board;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.UUID;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import panelbook.app.testing.HalfYear;
import panelbook.app.testing.ServiceTest;
import panelbook.app.testing.Studio;
import panelbook.wire.Decision;
import panelbook.wire.Display;
import panelbook.wire.Finding;
import panelbook.wire.Preset;
import panelbook.wire.Purpose;
import panelbook.wire.Run;
import panelbook.wire.RunWithdrawalDraft;

/** The pages of a display and of a run: every figure is two clicks from readings, instrument and correction. */
class MeasuredPagesTest extends ServiceTest {

    private static final Pattern RUN = Pattern.compile("href=\"/board/runs/([0-9a-f-]{36})\"");
    private static final Pattern CHART = Pattern.compile("(?s)<svg .*?</svg>");

    private UUID follower;
    private Preset preset;

    @BeforeEach
    void measure() {
        follower = HalfYear.of(engineer()).follower();
        preset = engineer().get("/presets/" + follower).expect(200).as(Preset.class);
    }

    @Test
    void aDisplayShowsItsChartsWithTheSameBytesAsTheContractAndEachAsATable() throws Exception {
        var page = page("/board/displays/" + preset.displayId());
        keep("display.html", page);
        var charts = CHART.matcher(page).results().map(MatchResult::group).toList();
        assertThat(charts).hasSize(10);
        assertThat(charts)
                .contains(engineer()
                        .get("/presets/" + follower + "/drawings/peak-luminance.svg")
                        .expect(200)
                        .text()
                        .strip());
        assertThat(page.split("<caption", -1).length - 1).isGreaterThanOrEqualTo(10);
        var findings =
                engineer().get("/presets/" + follower + "/findings").expect(200).asListOf(Finding.class);
        var beyond = findings.stream()
                .filter(finding -> finding.decision() == Decision.BEYOND)
                .count();
        assertThat(page)
                .contains(beyond + " figures are beyond the limit, 0 are undecided, " + (findings.size() - beyond)
                        + " within.")
                .doesNotContain("style=")
                .doesNotContain("<style");
        var ids = Pattern.compile(" id=\"([^\"]+)\"")
                .matcher(page)
                .results()
                .map(found -> found.group(1))
                .toList();
        assertThat(ids).as("ids of the page").doesNotHaveDuplicates();
    }

    @Test
    void everyFindingLeadsToARunThatTellsItsReadingsInstrumentAndCorrection() throws Exception {
        var page = page("/board/displays/" + preset.displayId());
        var findings =
                engineer().get("/presets/" + follower + "/findings").expect(200).asListOf(Finding.class);
        assertThat(findings).isNotEmpty();
        var linked = runs(page);
        for (var finding : findings) {
            assertThat(page).as("what was found of %s", finding.metric()).contains(escaped(finding.explanation()));
            assertThat(linked)
                    .as("the runs that %s rests on", finding.metric())
                    .containsAll(finding.readings().stream()
                            .map(reading -> reading.runId().toString())
                            .toList());
        }
        var run = findings.get(0).runId();
        var told = page("/board/runs/" + run);
        keep("run.html", told);
        assertThat(told)
                .contains(
                        "No. C-1",
                        "calibrator on duty",
                        "None applies: the readings stand as they were taken.",
                        "60 min since power-on",
                        "id=\"r-940-940-940\"");
        for (var found :
                engineer().get("/runs/" + run + "/findings").expect(200).asListOf(Finding.class)) {
            assertThat(told).contains(escaped(found.explanation()));
            found.readings().stream()
                    .filter(reading -> reading.red() != null)
                    .forEach(reading -> assertThat(told)
                            .as("the reading that %s rests on", found.metric())
                            .contains("#r-" + reading.red() + "-" + reading.green() + "-" + reading.blue() + "\""));
        }
    }

    @Test
    void aRunShowsItsReadingsBesideWhatTheTargetAsksFor() {
        var studio = new Studio(engineer(), unique("Read"));
        var run = studio.run(studio.hero(), Purpose.CHECK, START.minusSeconds(3600), Studio.dimmed(0.9));
        studio.upload(run);
        var row = row(page("/board/runs/" + run.id()), "r-502-502-502");
        // SMPTE ST 2084:2014: a signal of 0.5 is 92.2457 cd/m²; a tenth less light is 83.02, −10 %
        assertThat(row).contains("502 502 502", "92.25", "83.02", "−10.0 ±", "0.3127, 0.3290", "0.1978, 0.4683");
    }

    @Test
    void bothPagesTellOfTheirMomentWhenTheyAreAskedOfOne() {
        var asOf = "?as-of=" + clock.instant();
        assertThat(page("/board/displays/" + preset.displayId() + asOf))
                .contains("You are looking at the past", "Charts of User 1");
        var run = runs(page("/board/displays/" + preset.displayId())).get(0);
        assertThat(page("/board/runs/" + run + asOf)).contains("You are looking at the past", "940 940 940");
    }

    @Test
    void aWithdrawnRunSaysSoAndLeadsToWhatReplacedIt() {
        var studio = new Studio(engineer(), unique("Withdrawn"));
        var run = studio.run(studio.hero(), Purpose.CHECK, START.minusSeconds(7200), Studio.asAimed());
        studio.upload(run);
        engineer()
                .post("/runs/" + run.id() + "/withdrawal", new RunWithdrawalDraft("wrong preset was on", null))
                .expect(201);
        assertThat(page("/board/runs/" + run.id())).contains("Withdrawn: it counts no longer", "wrong preset was on");
    }

    @Test
    void aDisplayThatNobodyMeasuredHasAPage() {
        var studio = new Studio(engineer(), unique("Unmeasured"));
        var fresh = engineer().get("/presets/" + studio.hero()).expect(200).as(Preset.class);
        var display =
                engineer().get("/displays/" + fresh.displayId()).expect(200).as(Display.class);
        assertThat(page("/board/displays/" + display.id()))
                .contains("No figure of it was judged yet.", "Never calibrated to it.", "No run holds")
                .doesNotContain("<svg");
    }

    @Test
    void whatIsNotThereIsSaidOnAPage() {
        assertThat(engineer()
                        .get("/board/runs/" + UUID.randomUUID())
                        .expect(404)
                        .text())
                .contains("<h1");
        engineer().get("/board/displays/" + UUID.randomUUID()).expect(404);
        engineer()
                .get("/board/displays/" + preset.displayId() + "?preset=" + UUID.randomUUID())
                .expect(404);
        assertThat(engineer()
                        .get("/runs?preset=" + follower)
                        .expect(200)
                        .asPageOf(Run.class)
                        .items())
                .isNotEmpty();
    }

    private String page(String address) {
        return engineer().get(address).expect(200).text();
    }

    private static List<String> runs(String page) {
        return RUN.matcher(page).results().map(found -> found.group(1)).toList();
    }

    private static String row(String page, String id) {
        var from = page.indexOf("id=\"" + id + "\"");
        return page.substring(from, page.indexOf("</tr>", from));
    }

    private static String escaped(String words) {
        return words.replace("&", "&amp;").replace("'", "&#39;").replace("<", "&lt;");
    }

    /** For whoever wants to look at it. */
    private static void keep(String name, String page) throws Exception {
        var folder = Path.of("target", "pages");
        Files.createDirectories(folder);
        Files.writeString(folder.resolve(name), page);
    }
}
