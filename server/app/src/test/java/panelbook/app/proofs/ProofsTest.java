package panelbook.app.proofs;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static panelbook.app.testing.Studio.asAimed;
import static panelbook.app.testing.Studio.dimmed;
import static panelbook.app.testing.Studio.tinted;

import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.sql.SQLException;
import java.time.Duration;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.HexFormat;
import java.util.List;
import java.util.Locale;
import java.util.UUID;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import panelbook.app.papers.PdfRules;
import panelbook.app.testing.Http;
import panelbook.app.testing.ServiceTest;
import panelbook.app.testing.Studio;
import panelbook.wire.AsLeft;
import panelbook.wire.DisplayDraft;
import panelbook.wire.FieldProblem;
import panelbook.wire.InstrumentDraft;
import panelbook.wire.InstrumentKind;
import panelbook.wire.Match;
import panelbook.wire.Metric;
import panelbook.wire.MoveDraft;
import panelbook.wire.Preset;
import panelbook.wire.PresetDraft;
import panelbook.wire.Problem;
import panelbook.wire.Proof;
import panelbook.wire.ProofCheck;
import panelbook.wire.ProofCheckDraft;
import panelbook.wire.ProofContent;
import panelbook.wire.ProofDraft;
import panelbook.wire.ProofVerdict;
import panelbook.wire.Purpose;
import panelbook.wire.ReadinessChange;
import panelbook.wire.ReadinessSpan;
import panelbook.wire.Role;
import panelbook.wire.RoomDraft;
import panelbook.wire.RoomSheet;
import panelbook.wire.RunWithdrawalDraft;
import panelbook.wire.Trim;
import tools.jackson.databind.SerializationFeature;
import tools.jackson.databind.json.JsonMapper;

/** What a manager hands out, and what somebody who holds it can check. */
class ProofsTest extends ServiceTest {

    private static final HttpClient CLIENT = HttpClient.newHttpClient();
    private static final ZoneId LISBON = ZoneId.of("Europe/Lisbon");

    private Studio studio;
    private UUID follower;
    private Match match;

    /** A room calibrated, matched and checked on the first day. */
    @BeforeEach
    void enter() {
        studio = new Studio(engineer(), unique("proof"));
        follower = studio.display("Follower", "lcd");
        studio.upload(studio.run(studio.hero(), Purpose.AS_LEFT, clock.instant(), asAimed()));
        studio.upload(studio.run(follower, Purpose.AS_LEFT, clock.instant(), dimmed(0.99)));
        clock.advance(Duration.ofMinutes(30));
        var heroRun = studio.run(studio.hero(), Purpose.MATCH, clock.instant(), asAimed());
        var followerRun = studio.run(follower, Purpose.MATCH, clock.instant(), tinted(0.004, -0.002));
        studio.upload(heroRun);
        studio.upload(followerRun);
        match = engineer()
                .post(
                        "/matches",
                        studio.signOffDraft(
                                follower,
                                "Ilva",
                                followerRun.id(),
                                heroRun.id(),
                                List.of(new Trim("gain.red", "all", -2))))
                .expect(201)
                .as(Match.class);
        clock.advance(Duration.ofMinutes(30));
    }

    @Test
    void aManagerIsHandedAProofWithTheFiguresThatTheServiceAnswers() throws IOException {
        var sheet = engineer().get("/rooms/" + studio.room() + "/sheet").as(RoomSheet.class);
        var proof = make(today());
        assertThat(proof.state()).isEqualTo(sheet.readiness().state());
        assertThat(proof.askedBy()).isEqualTo("manager of the tests");
        var text = text(file(proof));
        assertThat(text)
                .contains(studio.name() + " / Grading 1")
                .contains(proof.id().toString())
                .contains(proof.contentDigest())
                .contains("Asked by manager of the tests")
                .contains("before the day was over")
                .contains("JCGM 106:2012");
        for (var target : sheet.targets()) {
            assertThat(text).contains(target.aim());
            for (var preset : target.presets()) {
                figuresStand(text, preset.asLeft());
            }
        }
        for (var meter : sheet.meters()) {
            assertThat(text)
                    .contains(meter.instrument().name(), meter.certificate().number(), "holds");
        }
        var offset = match.agreedOffset();
        assertThat(text)
                .contains("Ilva")
                .contains(minus("Δu′ %.4f", offset.du()))
                .contains(minus("Δv′ %.4f", offset.dv()))
                .contains("gain.red −2");
    }

    private static void figuresStand(String text, AsLeft left) {
        assertThat(text)
                .contains(String.format(Locale.ROOT, "%.4f, %.4f", left.whiteU(), left.whiteV()))
                .contains(String.format(Locale.ROOT, "%.0f K", left.whiteCct()))
                .contains(String.format(Locale.ROOT, "%.0f:1", left.contrast()));
        assertThat(left.findings()).isNotEmpty();
        for (var finding : left.findings()) {
            assertThat(text).matches(all -> words(all).contains(words(finding.explanation())), finding.explanation());
        }
        // the standard uncertainty of the finding, expanded by k = 2 and rounded to two digits: JCGM 100:2008, 6.2 and
        // 7.2.6
        var white = left.findings().stream()
                .filter(finding -> finding.metric() == Metric.WHITE_LUMINANCE_ERROR)
                .findFirst()
                .orElseThrow();
        var aim = Studio.TARGET.aims().white();
        assertThat(text)
                .contains(String.format(
                        Locale.ROOT, "%.0f ± %.0f cd/m²", left.whiteLuminance(), 2 * white.uncertainty() / 100 * aim));
    }

    /** Without blanks: where a line breaks on paper is no matter. */
    private static String words(String text) {
        return text.replace(" ", "");
    }

    private static String minus(String pattern, double value) {
        return String.format(Locale.ROOT, pattern, value).replace('-', '−');
    }

    @Test
    void thePaperCanBeKeptSearchedAndReadAloud() throws IOException {
        var file = kept("proof.pdf", file(make(today())));
        assertThat(PdfRules.brokenOfArchiving(file)).as("PDF/A-2a, ISO 19005-2").isEmpty();
        assertThat(PdfRules.brokenOfAccessibility(file))
                .as("PDF/UA-1, ISO 14289-1")
                .isEmpty();
    }

    @Test
    void digestsAreThoseOfTheBytesThatAreHandedOut() throws Exception {
        var proof = make(today());
        var content =
                engineer().get("/proofs/" + proof.id() + "/content").expect(200).text();
        assertThat(proof.contentDigest()).isEqualTo(sha256(content.getBytes(StandardCharsets.UTF_8)));
        assertThat(proof.fileDigest()).isEqualTo(sha256(file(proof)));
        assertThat(new String(file(proof), StandardCharsets.ISO_8859_1))
                .as("any program finds the digest without reading PDF")
                .contains("panelbook-proof-digest:" + proof.contentDigest());
    }

    /** RFC 8785, 3.2: names sorted, no blanks; and the rounding that the proof promises. */
    @Test
    void theContentIsWrittenInTheCanonicalForm() {
        var text = engineer().get("/proofs/" + make(today()).id() + "/content").text();
        var tree = JsonMapper.builder()
                .enable(SerializationFeature.ORDER_MAP_ENTRIES_BY_KEYS)
                .build();
        var sorted = tree.writeValueAsString(tree.readValue(text, Object.class));
        assertThat(text.replaceAll("-?\\d+(\\.\\d+)?(e[+-]?\\d+)?", "0"))
                .isEqualTo(sorted.replaceAll("-?\\d+(\\.\\d+)?([eE][+-]?\\d+)?", "0"));
        assertThat(text.replaceAll("\"[^\"]*\"", ""))
                .as("no number of more than six digits but whole ones")
                .doesNotContainPattern("\\d{3,}\\.\\d{4,}|0\\.[1-9]\\d{6,}");
    }

    @Test
    void theSameDraftGivesTheSameFileAndAnotherDayUnderItsIdIsRefused() {
        var draft = new ProofDraft(UUID.randomUUID(), today());
        var first = manager().post(path(), draft).expect(201).as(Proof.class);
        clock.advance(Duration.ofHours(1));
        studio.upload(studio.run(follower, Purpose.CHECK, clock.instant(), dimmed(0.7)));
        var again = manager().post(path(), draft).expect(200).as(Proof.class);
        assertThat(again).isEqualTo(first);
        assertThat(file(again)).isEqualTo(file(first));
        var other = new ProofDraft(draft.id(), today().minusDays(1));
        assertThat(manager().post(path(), other).expect(409).problem().detail()).contains("says something else");
        assertThat(manager().get(path()).asPageOf(Proof.class).items()).containsExactly(first);
    }

    @Test
    void aProofOfADayPastDoesNotChangeWithWhatComesLater() {
        var day = today();
        clock.advance(Duration.ofDays(2));
        var before = make(day);
        studio.upload(studio.run(follower, Purpose.CHECK, clock.instant(), dimmed(0.7)));
        studio.upload(studio.run(follower, Purpose.AS_LEFT, clock.instant().minus(Duration.ofDays(2)), dimmed(0.8)));
        engineer()
                .post(
                        "/runs/" + match.followerRunId() + "/withdrawal",
                        new RunWithdrawalDraft("taken on the wrong preset", null))
                .expect(201);
        everythingIsNamedAnew();
        clock.advance(Duration.ofDays(1));
        var after = make(day);
        assertThat(after.contentDigest()).isEqualTo(before.contentDigest());
        assertThat(after.fileDigest()).as("who asked when is printed").isNotEqualTo(before.fileDigest());
        assertThat(check(file(before)).verdict()).isEqualTo(ProofVerdict.GENUINE);
        assertThat(check(file(after)).verdict()).isEqualTo(ProofVerdict.GENUINE);
        assertThat(content(before).displays()).hasSize(2);
        assertThat(content(make(today())).displays())
                .as("what came later is told of later days")
                .hasSize(1);
    }

    private void everythingIsNamedAnew() {
        var room = engineer().get("/rooms/" + studio.room());
        engineer()
                .put(
                        "/rooms/" + studio.room(),
                        new RoomDraft(studio.room(), studio.facility(), "Another name", "Asia/Tokyo"),
                        room.etag())
                .expect(200);
        var id = engineer().get("/presets/" + follower).as(Preset.class).displayId();
        var display = engineer().get("/displays/" + id);
        engineer()
                .put(
                        "/displays/" + id,
                        new DisplayDraft(
                                id, studio.facility(), studio.room(), "Another display", "M", "oled", "S-1", null),
                        display.etag())
                .expect(200);
        engineer()
                .post("/displays/" + id + "/moves", new MoveDraft(UUID.randomUUID(), null, null, "on tour"))
                .expect(200);
        var meter = engineer().get("/instruments/" + studio.instrument());
        engineer()
                .put(
                        "/instruments/" + studio.instrument(),
                        new InstrumentDraft(
                                studio.instrument(),
                                unique("another meter"),
                                InstrumentKind.COLORIMETER,
                                "S-2",
                                4.0,
                                0.4,
                                0.002,
                                0.0004,
                                0.0004),
                        meter.etag())
                .expect(200);
    }

    @Test
    void aDisplayThatCameLaterBringsNothingOfItsOwnIntoAProofOfTheDayBefore() {
        var day = today();
        var store = UUID.randomUUID();
        engineer()
                .post("/rooms", new RoomDraft(store, studio.facility(), "Store", null))
                .expect(201);
        var guest = UUID.randomUUID();
        var preset = UUID.randomUUID();
        engineer()
                .post(
                        "/displays",
                        new DisplayDraft(guest, studio.facility(), store, "Guest", "Model", "lcd", "S-9", null))
                .expect(201);
        engineer()
                .post("/presets", new PresetDraft(preset, guest, "Memory 1", studio.target()))
                .expect(201);
        studio.upload(studio.run(preset, Purpose.AS_LEFT, clock.instant(), asAimed()));
        clock.advance(Duration.ofMinutes(1));
        // both at the same moment, as limits that are edited or counters that are read in change many displays at once
        studio.upload(studio.run(preset, Purpose.CHECK, clock.instant(), dimmed(0.7)));
        studio.upload(studio.run(follower, Purpose.CHECK, clock.instant(), dimmed(0.7)));
        clock.advance(Duration.ofDays(2));
        var before = make(day);
        engineer()
                .post("/displays/" + guest + "/moves", new MoveDraft(UUID.randomUUID(), studio.room(), null, "to stay"))
                .expect(200);
        clock.advance(Duration.ofMinutes(1));
        assertThat(content(make(day)).readiness()).isEqualTo(content(before).readiness());
        assertThat(check(file(before)).verdict()).isEqualTo(ProofVerdict.GENUINE);
        assertThat(content(before).readiness())
                .flatExtracting(ReadinessSpan::changes)
                .extracting(ReadinessChange::text)
                .anyMatch(text -> text.contains("Follower"))
                .noneMatch(text -> text.contains("Guest"));
    }

    @Test
    void aProofOfADayPastIsOfItsLastMomentInTheRoomsZone() {
        clock.advance(Duration.ofDays(1));
        var day = today().minusDays(1);
        var content = content(make(day));
        assertThat(content.wholeDay()).isTrue();
        assertThat(content.from()).isEqualTo(day.atStartOfDay(LISBON).toInstant());
        assertThat(content.asOf())
                .isBefore(day.plusDays(1).atStartOfDay(LISBON).toInstant())
                .isAfter(day.plusDays(1).atStartOfDay(LISBON).toInstant().minusMillis(1));
    }

    @Test
    void oneByteMakesItAltered() {
        var proof = make(today());
        var file = file(proof);
        assertThat(check(file)).satisfies(check -> {
            assertThat(check.verdict()).isEqualTo(ProofVerdict.GENUINE);
            assertThat(check.proof()).isEqualTo(proof);
        });
        for (var at : List.of(20, file.length / 2, file.length - 8)) {
            var tampered = file.clone();
            tampered[at] ^= 1;
            assertThat(check(tampered, proof.contentDigest()).verdict())
                    .as("byte %s of %s", at, file.length)
                    .isEqualTo(ProofVerdict.ALTERED);
        }
        var strange = sha256(new byte[] {1});
        assertThat(check(new ProofCheckDraft(strange, null)).verdict()).isEqualTo(ProofVerdict.UNKNOWN);
        assertThat(check(new ProofCheckDraft(strange, strange)).verdict()).isEqualTo(ProofVerdict.UNKNOWN);
    }

    @Test
    void aBookThatWasChangedByOtherMeansIsFoundOut() {
        var proof = make(today());
        var file = file(proof);
        inTheDatabase("alter table history.display disable trigger user");
        try {
            inTheDatabase(
                    "update history.display set serial_number = 'forged' where name = 'Follower' and facility_id = '"
                            + studio.facility() + "'");
        } finally {
            inTheDatabase("alter table history.display enable trigger user");
        }
        assertThat(check(file)).satisfies(check -> {
            assertThat(check.verdict()).isEqualTo(ProofVerdict.RECORD_DIFFERS);
            assertThat(check.explanation()).contains("/displays/0/serialNumber");
        });
    }

    @Test
    void whatWasHandedOutCannotBeChangedOrTakenBack() {
        var proof = make(today());
        for (var change : List.of("update proof set asked_by = 'x'", "delete from proof_file", "truncate proof_file")) {
            assertThatThrownBy(() -> inTheDatabase(change)).hasMessageContaining("history");
        }
        assertThat(engineer()
                        .get("/audit-entries?subject-kind=proof&subject-id=" + proof.id())
                        .tree()
                        .path("items"))
                .hasSize(1);
    }

    @Test
    void aDayThatLiesAheadOrBeforeTheRoomIsRefusedInWords() {
        assertThat(refused(today().plusDays(1)).errors().get(0))
                .satisfies(error -> assertThat(error.pointer()).isEqualTo("/day"))
                .satisfies(error -> assertThat(error.detail()).contains("lies ahead", "Europe/Lisbon"));
        assertThat(refused(today().minusDays(1)).errors().get(0))
                .satisfies(error -> assertThat(error.pointer()).isEqualTo("/day"))
                .satisfies(error -> assertThat(error.detail()).contains("not in use at the end of"));
        var draft = new ProofDraft(UUID.randomUUID(), today());
        assertThat(manager()
                        .post("/rooms/" + UUID.randomUUID() + "/proofs", draft)
                        .expect(404)
                        .problem()
                        .detail())
                .contains("There is no room");
        manager().get("/proofs/" + UUID.randomUUID()).expect(404);
        manager().get("/proofs/" + UUID.randomUUID() + "/file").expect(404);
        assertThat(manager()
                        .postJson("/proof-checks", "{\"fileDigest\": \"abc\", \"contentDigest\": \"xyz\"}")
                        .expect(400)
                        .problem()
                        .errors())
                .extracting(FieldProblem::pointer)
                .containsExactly("/fileDigest", "/contentDigest");
        assertThat(manager().get(path()).asPageOf(Proof.class).items()).isEmpty();
    }

    @Test
    void thePageSaysTheSameAndMakesTheProof() throws Exception {
        var page = send(HttpRequest.newBuilder(board("/rooms/" + studio.room() + "/proof?day=" + today())));
        assertThat(page.statusCode()).isEqualTo(200);
        var html = new String(page.body(), StandardCharsets.UTF_8);
        kept("page.html", page.body());
        assertThat(html).contains("Make the PDF", "Follower", "Ilva", "JCGM 106:2012");
        var id = UUID.randomUUID();
        var form = HttpRequest.newBuilder(board("/rooms/" + studio.room() + "/proof"))
                .header("Content-Type", "application/x-www-form-urlencoded")
                .POST(HttpRequest.BodyPublishers.ofString("id=" + id + "&day=" + today()));
        var made = send(form);
        assertThat(made.statusCode()).isEqualTo(302);
        assertThat(made.headers().firstValue("Location").orElseThrow()).endsWith("/board/proofs/" + id + ".pdf");
        var file = send(HttpRequest.newBuilder(board("/proofs/" + id + ".pdf")));
        assertThat(file.headers().firstValue("Content-Type")).contains("application/pdf");
        assertThat(check(file.body()).verdict()).isEqualTo(ProofVerdict.GENUINE);
    }

    private URI board(String path) {
        return manager().uri("/api/v1").resolve("/board" + path);
    }

    private LocalDate today() {
        return clock.instant().atZone(LISBON).toLocalDate();
    }

    private Http manager() {
        return as(Role.MANAGER);
    }

    private String path() {
        return "/rooms/" + studio.room() + "/proofs";
    }

    private Proof make(LocalDate day) {
        return manager()
                .post(path(), new ProofDraft(UUID.randomUUID(), day))
                .expect(201)
                .as(Proof.class);
    }

    private Problem refused(LocalDate day) {
        return manager()
                .post(path(), new ProofDraft(UUID.randomUUID(), day))
                .expect(400)
                .problem();
    }

    private ProofContent content(Proof proof) {
        return manager().get("/proofs/" + proof.id() + "/content").as(ProofContent.class);
    }

    private byte[] file(Proof proof) {
        var answer = send(HttpRequest.newBuilder(manager().uri("/proofs/" + proof.id() + "/file")));
        assertThat(answer.statusCode()).isEqualTo(200);
        assertThat(answer.headers().firstValue("Content-Type")).contains("application/pdf");
        return answer.body();
    }

    /** To be looked at. */
    private static byte[] kept(String name, byte[] file) throws IOException {
        Files.write(Files.createDirectories(Path.of("target", "papers")).resolve(name), file);
        return file;
    }

    private ProofCheck check(byte[] file) {
        return check(file, null);
    }

    private ProofCheck check(byte[] file, String contentDigest) {
        return check(new ProofCheckDraft(sha256(file), contentDigest));
    }

    private ProofCheck check(ProofCheckDraft draft) {
        return as(Role.PROBE).post("/proof-checks", draft).expect(200).as(ProofCheck.class);
    }

    private HttpResponse<byte[]> send(HttpRequest.Builder request) {
        try {
            return CLIENT.send(
                    request.header("Authorization", "Bearer " + manager().token())
                            .build(),
                    HttpResponse.BodyHandlers.ofByteArray());
        } catch (IOException | InterruptedException failed) {
            throw new AssertionError(failed);
        }
    }

    private static void inTheDatabase(String statement) {
        try (var connection = DATABASE.connect();
                var change = connection.createStatement()) {
            change.execute(statement);
        } catch (SQLException refused) {
            throw new IllegalStateException(refused);
        }
    }

    private static String text(byte[] file) throws IOException {
        try (var document = Loader.loadPDF(file)) {
            var reader = new PDFTextStripper();
            return reader.getText(document).replaceAll("\\s+", " ");
        }
    }

    private static String sha256(byte[] bytes) {
        try {
            return HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(bytes));
        } catch (NoSuchAlgorithmException impossible) {
            throw new AssertionError(impossible);
        }
    }
}
