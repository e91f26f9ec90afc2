package panelbook.app.fleet;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.util.List;
import java.util.UUID;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import panelbook.app.testing.Answer;
import panelbook.app.testing.Samples;
import panelbook.app.testing.ServiceTest;
import panelbook.wire.AuditEntry;
import panelbook.wire.Display;
import panelbook.wire.Quirk;
import panelbook.wire.QuirkDraft;
import panelbook.wire.Retirement;
import panelbook.wire.Role;
import panelbook.wire.Settlement;
import panelbook.wire.SettlementDraft;

/** A quirk is for the next visitor: noted, later settled with a word, never lost. */
class QuirksTest extends ServiceTest {

    private static final String MENU = "The menu dims the picture while it is open.";

    private Display display;

    @BeforeEach
    void aDisplay() {
        var samples = new Samples(engineer());
        var room = samples.room(samples.facility().id());
        display = samples.display(room.facilityId(), room.id());
    }

    @Test
    void whatWasNotedIsShownNewestFirstWithWhoNotedIt() {
        var first = note(MENU);
        clock.advance(Duration.ofMinutes(1));
        var second = note("A converter sits in its feed.");
        assertThat(quirks()).containsExactly(second, first);
        assertThat(first.recordedBy()).isEqualTo("calibrator of the tests");
        assertThat(first.display()).isEqualTo(display.name());
        assertThat(first.settlement()).isNull();
    }

    @Test
    void aSettledQuirkLeavesTheListButNotTheRecord() {
        var quirk = note(MENU);
        var settled = settle(quirk, "set to close by itself", 200).as(Quirk.class);
        assertThat(settled.settlement())
                .isEqualTo(new Settlement("set to close by itself", clock.instant(), "calibrator of the tests"));
        assertThat(quirks()).isEmpty();
        assertThat(engineer().get(path() + "?settled=true").asListOf(Quirk.class))
                .containsExactly(settled);
    }

    @Test
    void theSameNoteOrWordAgainIsHarmlessAndAnotherUnderTheSameIdIsRefused() {
        var draft = new QuirkDraft(UUID.randomUUID(), MENU, null);
        var quirk = engineer().post(path(), draft).expect(201).as(Quirk.class);
        assertThat(engineer().post(path(), draft).expect(200).as(Quirk.class)).isEqualTo(quirk);
        engineer()
                .post(path(), new QuirkDraft(draft.id(), "something else", null))
                .expect(409);
        var settled = settle(quirk, "firmware replaced", 200).as(Quirk.class);
        clock.advance(Duration.ofMinutes(1));
        assertThat(settle(quirk, "firmware replaced", 200).as(Quirk.class)).isEqualTo(settled);
        assertThat(settle(quirk, "was imagined", 409).problem().detail()).contains("firmware replaced", "note it anew");
    }

    @Test
    void everyStepStandsInTheAuditLog() {
        var quirk = note(MENU);
        settle(quirk, "set to close by itself", 200);
        assertThat(engineer().all("/audit-entries?subject-id=" + quirk.id(), AuditEntry.class))
                .extracting(AuditEntry::subjectKind)
                .containsExactly("quirk_settlement", "quirk");
    }

    @Test
    void whatCannotBeNotedIsRefusedByItsPlace() {
        refused(new QuirkDraft(UUID.randomUUID(), " ", null), 400, "/note: Must not be empty.");
        refused(new QuirkDraft(UUID.randomUUID(), "bell \u0007", null), 400, "/note: Must not hold control characters");
        refused(new QuirkDraft(UUID.randomUUID(), "x".repeat(10_001), null), 400, "at most 10000 characters");
        var tomorrow = clock.instant().plus(Duration.ofDays(1));
        refused(new QuirkDraft(UUID.randomUUID(), MENU, tomorrow), 400, "/seenAt: Must not lie in the future.");
        assertThat(quirks()).isEmpty();
        var quirk = note(MENU);
        assertThat(settle(quirk, "", 400).problem().detail()).contains("/word: Must not be empty.");
        engineer()
                .post("/quirks/" + UUID.randomUUID() + "/settlement", new SettlementDraft("x"))
                .expect(404);
        engineer().get("/displays/" + UUID.randomUUID() + "/quirks").expect(404);
    }

    @Test
    void aRetiredDisplayTakesNoNewQuirkButAnOldOneCanStillBeSettled() {
        var quirk = note(MENU);
        clock.advance(Duration.ofMinutes(1));
        engineer()
                .post("/displays/" + display.id() + "/retirement", new Retirement("panel broken"))
                .expect(200);
        refused(new QuirkDraft(UUID.randomUUID(), "flickers", null), 409, "is retired");
        settle(quirk, "gone with the display", 200);
    }

    @Test
    void managersReadAndProbesDoNot() {
        note(MENU);
        as(Role.MANAGER).get(path()).expect(200);
        as(Role.MANAGER)
                .post(path(), new QuirkDraft(UUID.randomUUID(), MENU, null))
                .expect(403);
        as(Role.PROBE).get(path()).expect(403);
    }

    private String path() {
        return "/displays/" + display.id() + "/quirks";
    }

    private List<Quirk> quirks() {
        return as(Role.MANAGER).get(path()).asListOf(Quirk.class);
    }

    private Quirk note(String text) {
        return as(Role.CALIBRATOR)
                .post(path(), new QuirkDraft(UUID.randomUUID(), text, null))
                .expect(201)
                .as(Quirk.class);
    }

    private Answer settle(Quirk quirk, String word, int status) {
        return as(Role.CALIBRATOR)
                .post("/quirks/" + quirk.id() + "/settlement", new SettlementDraft(word))
                .expect(status);
    }

    private void refused(QuirkDraft draft, int status, String words) {
        assertThat(engineer().post(path(), draft).expect(status).problem().detail())
                .contains(words);
    }
}
