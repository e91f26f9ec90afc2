package panelbook.app.board;

import static org.assertj.core.api.Assertions.assertThat;
import static panelbook.app.testing.Studio.asAimed;
import static panelbook.app.testing.Studio.dimmed;
import static panelbook.app.testing.Studio.tinted;

import java.io.IOException;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.List;
import java.util.UUID;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import panelbook.app.papers.PdfRules;
import panelbook.app.testing.ServiceTest;
import panelbook.app.testing.Studio;
import panelbook.wire.Drawing;
import panelbook.wire.DrawingName;
import panelbook.wire.Preset;
import panelbook.wire.Purpose;
import panelbook.wire.ReadinessHistory;
import panelbook.wire.Role;
import panelbook.wire.RoomSheet;
import panelbook.wire.Trim;

/** What is taken along on paper says what the service answers. */
class PaperPagesTest extends ServiceTest {

    private static final HttpClient CLIENT = HttpClient.newHttpClient();
    private static final ZoneId LISBON = ZoneId.of("Europe/Lisbon");

    private Studio studio;
    private UUID follower;

    @BeforeEach
    void enter() {
        studio = new Studio(engineer(), unique("paper"));
        follower = studio.display("Follower", "lcd");
        studio.upload(studio.run(studio.hero(), Purpose.AS_LEFT, clock.instant(), asAimed()));
        studio.upload(studio.run(follower, Purpose.AS_LEFT, clock.instant(), dimmed(0.99)));
        clock.advance(Duration.ofMinutes(30));
        var heroRun = studio.run(studio.hero(), Purpose.MATCH, clock.instant(), asAimed());
        var followerRun = studio.run(follower, Purpose.MATCH, clock.instant(), tinted(0.004, -0.002));
        studio.upload(heroRun);
        studio.upload(followerRun);
        var trims = List.of(new Trim("gain.red", "all", -2));
        engineer()
                .post("/matches", studio.signOffDraft(follower, "Ilva", followerRun.id(), heroRun.id(), trims))
                .expect(201);
        clock.advance(Duration.ofDays(3));
        studio.upload(studio.run(follower, Purpose.CHECK, clock.instant(), dimmed(0.7)));
        clock.advance(Duration.ofDays(1));
    }

    @Test
    void theRoomSheetOnPaperSaysWhatACalibratorNeeds() throws IOException {
        var sheet = engineer().get("/rooms/" + studio.room() + "/sheet").as(RoomSheet.class);
        var file = pdf("sheet.pdf", "/sheet.pdf", 200);
        var text = text(file);
        assertThat(sheet.cautions())
                .isNotEmpty()
                .allSatisfy(caution -> assertThat(text).contains(words(caution)));
        assertThat(sheet.readiness().reasons())
                .isNotEmpty()
                .allSatisfy(reason -> assertThat(text).contains(words(reason.text())));
        assertThat(sheet.alerts())
                .isNotEmpty()
                .allSatisfy(alert -> assertThat(text).contains(words(alert.headline())));
        assertThat(sheet.targets().get(0).presets()).hasSize(2).allSatisfy(preset -> {
            assertThat(text).contains(words(preset.asLeft().run().instrument()));
            assertThat(preset.drift()).allSatisfy(finding -> assertThat(text).contains(words(finding.explanation())));
        });
        assertThat(text)
                .contains("gain.red−2", words("for Ilva"), words("C-1, holds until"), words("Notes of the visit"));
        assertThat(PdfRules.brokenOfArchiving(file)).isEmpty();
        assertThat(PdfRules.brokenOfAccessibility(file)).isEmpty();
    }

    @Test
    void theSheetAsItStoodEarlierIsPrintedToo() throws IOException {
        var then = clock.instant().minus(Duration.ofDays(3));
        var text = text(pdf("sheet-then.pdf", "/sheet.pdf?as-of=" + then, 200));
        assertThat(text).contains(words("No alert is open."));
    }

    @Test
    void theHistoryOnPaperTellsEachStateWithItsCauseAndHowLongItLasted() throws IOException {
        var history =
                engineer().get("/rooms/" + studio.room() + "/readiness-history").as(ReadinessHistory.class);
        var file = pdf("history.pdf", "/history.pdf", 200);
        var text = text(file);
        assertThat(history.spans()).hasSizeGreaterThan(2).allSatisfy(span -> {
            assertThat(span.reasons()).allSatisfy(reason -> assertThat(text).contains(words(reason.text())));
            assertThat(span.changes()).allSatisfy(change -> assertThat(text).contains(words(change.text())));
        });
        var notReady = history.spans().stream()
                .filter(span -> span.state() == panelbook.wire.ReadinessState.NOT_READY)
                .mapToLong(span -> Duration.between(span.from(), span.to()).toMinutes())
                .sum();
        assertThat(notReady).isPositive();
        assertThat(text).contains(words(String.format(java.util.Locale.ROOT, "not ready %.1f", notReady / 60.0)));
        assertThat(PdfRules.brokenOfArchiving(file)).isEmpty();
        assertThat(PdfRules.brokenOfAccessibility(file)).isEmpty();
    }

    /** The words of a drawing are outlines on paper: its figures are read from the table below it. */
    @Test
    void aDisplayIsPrintedWithItsChartsAndTheirNumbers() throws IOException {
        var display = engineer().get("/presets/" + follower).as(Preset.class).displayId();
        var file = pdf("display.pdf", "/board/displays/" + display + ".pdf", 200);
        var text = text(file);
        for (var name : DrawingName.values()) {
            var drawing =
                    engineer().get("/presets/" + follower + "/drawings/" + name).as(Drawing.class);
            assertThat(text).contains(words(drawing.title()), words(drawing.summary()));
        }
        assertThat(text).contains(words("own drift luminance"), words("the numbers"));
        assertThat(PdfRules.brokenOfArchiving(file)).isEmpty();
        assertThat(PdfRules.brokenOfAccessibility(file)).isEmpty();
    }

    @Test
    void daysThatCannotBePrintedAreRefused() {
        var today = LocalDate.ofInstant(clock.instant(), LISBON);
        for (var query : List.of(
                "?from=yesterday",
                "?from=" + today + "&to=" + today.minusDays(1),
                "?from=+999999999-12-31",
                "?to=-999999999-01-01",
                "?from=" + today.plusDays(2) + "&to=" + today.plusDays(3))) {
            pdf(null, "/history.pdf" + query, 400);
        }
    }

    private byte[] pdf(String kept, String path, int status) {
        var request = HttpRequest.newBuilder(engineer()
                        .uri("/api/v1")
                        .resolve((path.startsWith("/board") ? path : "/board/rooms/" + studio.room() + path)
                                .replace("+", "%2B")))
                .header("Authorization", "Bearer " + as(Role.MANAGER).token())
                .build();
        try {
            var answer = CLIENT.send(request, HttpResponse.BodyHandlers.ofByteArray());
            assertThat(answer.statusCode()).as(path).isEqualTo(status);
            if (status == 200) {
                assertThat(answer.headers().firstValue("Content-Type")).contains("application/pdf");
                // to be looked at
                Files.write(Files.createDirectories(Path.of("target", "papers")).resolve(kept), answer.body());
            }
            return answer.body();
        } catch (IOException | InterruptedException failed) {
            throw new AssertionError(path, failed);
        }
    }

    private static String text(byte[] file) throws IOException {
        try (var document = Loader.loadPDF(file)) {
            return words(new PDFTextStripper().getText(document));
        }
    }

    /** Without blanks: where a line breaks on paper is no matter. */
    private static String words(String text) {
        return text.replaceAll("\\s+", "");
    }
}
