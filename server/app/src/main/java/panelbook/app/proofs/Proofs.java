package panelbook.app.proofs;

import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Locale;
import java.util.UUID;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Service;
import panelbook.app.access.Caller;
import panelbook.app.database.Rows;
import panelbook.app.fleet.RoomContents;
import panelbook.app.rest.Added;
import panelbook.app.rest.Checks;
import panelbook.app.rest.Paging;
import panelbook.app.rest.Refusal;
import panelbook.app.rest.Repeats;
import panelbook.wire.Page;
import panelbook.wire.Proof;
import panelbook.wire.ProofCheck;
import panelbook.wire.ProofCheckDraft;
import panelbook.wire.ProofContent;
import panelbook.wire.ProofDraft;
import panelbook.wire.ProofVerdict;

/** Makes proofs, keeps what was handed out, and says whether a document is one of them. */
@Service
public class Proofs {

    private static final Pattern DIGEST = Pattern.compile("[0-9a-f]{64}");
    private static final String DIGEST_FORM = "Must be a SHA-256 digest: 64 hexadecimal digits.";

    /** Where a day ends last. */
    private static final ZoneOffset LAST_ZONE = ZoneOffset.ofHours(-12);

    /** Changes that were being committed when it was first asked may only be found the next time. */
    private static final int TRIES = 3;

    private final Contents contents;
    private final Canonical canonical;
    private final ProofPaper paper;
    private final ProofRows rows;
    private final RoomContents rooms;
    private final Clock clock;

    Proofs(Contents contents, Canonical canonical, ProofPaper paper, ProofRows rows, RoomContents rooms, Clock clock) {
        this.contents = contents;
        this.canonical = canonical;
        this.paper = paper;
        this.rows = rows;
        this.rooms = rooms;
        this.clock = clock;
    }

    /**
     * What a proof of a room and day would say now, numbers rounded as they are in one.
     *
     * @param day in the room's time zone; today when null
     * @throws Refusal when there is no such room, the day lies ahead, or the room was not in use at its end
     */
    public ProofContent content(UUID roomId, @Nullable LocalDate day) {
        return canonical.content(canonical.text(contents.of(question(roomId, day, Rows.kept(clock.instant())))));
    }

    /**
     * Makes a proof. The same draft again gives the one that was made, whatever has happened since.
     *
     * @throws Refusal as {@link #content}, or when the id is that of another proof
     */
    public Added<Proof> make(UUID roomId, ProofDraft draft) {
        var there = rows.find(draft.id());
        if (there.isPresent()) {
            return new Added<>(same(there.get(), roomId, draft), false);
        }
        var askedAt = Rows.kept(clock.instant());
        var askedBy = Caller.current().holder();
        var question = question(roomId, draft.day(), askedAt);
        var text = canonical.text(contents.of(question));
        for (var tried = 1; ; tried++) {
            var content = canonical.content(text);
            var digest = Canonical.digest(text);
            var file = paper.print(content, draft.id(), digest, askedAt, askedBy);
            var again = canonical.text(contents.of(question));
            if (again.equals(text) || tried == TRIES) {
                var proof = proof(draft, content, askedAt, askedBy, digest, Canonical.digest(file));
                var isNew = rows.add(proof, new ProofRows.Kept(text, file));
                return new Added<>(isNew ? proof : same(get(draft.id()), roomId, draft), isNew);
            }
            text = again;
        }
    }

    private static Proof proof(
            ProofDraft draft,
            ProofContent content,
            Instant askedAt,
            String askedBy,
            String contentDigest,
            String fileDigest) {
        return new Proof(
                draft.id(),
                content.roomId(),
                content.facility(),
                content.room(),
                content.day(),
                content.asOf(),
                content.state(),
                askedAt,
                askedBy,
                contentDigest,
                fileDigest);
    }

    private static Proof same(Proof there, UUID roomId, ProofDraft draft) {
        Repeats.mustBeSame(there.roomId().equals(roomId) && there.day().equals(draft.day()), "proof", draft.id());
        return there;
    }

    private Question question(UUID roomId, @Nullable LocalDate day, Instant askedAt) {
        var zone = ZoneId.of(rooms.room(roomId).timeZone());
        var today = askedAt.atZone(zone).toLocalDate();
        var asked = day == null ? today : day;
        if (asked.isAfter(today)) {
            throw Refusal.invalid(
                    "/day", asked + " lies ahead: in the room's time zone, " + zone + ", it is " + today + ".");
        }
        if (asked.isBefore(LocalDate.EPOCH)) {
            throw Refusal.invalid("/day", asked + " lies before any book. Write a day such as " + today + ".");
        }
        // a day past is a day of the zone that the room was in then; by this moment it is over in every zone
        var overEverywhere = asked.plusDays(1).atStartOfDay(LAST_ZONE).toInstant();
        var then = contents.zone(roomId, overEverywhere.isAfter(askedAt) ? askedAt : overEverywhere, zone);
        return Question.of(roomId, asked, then, askedAt);
    }

    /** A proof. */
    public Proof get(UUID id) {
        return rows.find(id).orElseThrow(() -> Refusal.notFound("proof", id));
    }

    /** The PDF of a proof, as it was handed out. */
    public byte[] file(UUID id) {
        return rows.kept(get(id).id()).file();
    }

    /** What a proof says: the canonical JSON that its content digest is of. */
    String contentOf(UUID id) {
        return rows.kept(get(id).id()).content();
    }

    /** The proofs of a room, newest first. */
    Page<Proof> ofRoom(UUID roomId, Paging paging) {
        return rows.ofRoom(rooms.room(roomId).id(), paging);
    }

    /** Those of a room and day, newest first. */
    public List<Proof> ofDay(UUID roomId, LocalDate day) {
        return rows.ofDay(roomId, day);
    }

    /** Whether a document is genuine: the book is asked again as of the moment that it is of. */
    ProofCheck check(ProofCheckDraft draft) {
        var file = draft.fileDigest().toLowerCase(Locale.ROOT);
        var content =
                draft.contentDigest() == null ? null : draft.contentDigest().toLowerCase(Locale.ROOT);
        new Checks()
                .that(DIGEST.matcher(file).matches(), "/fileDigest", DIGEST_FORM)
                .that(content == null || DIGEST.matcher(content).matches(), "/contentDigest", DIGEST_FORM)
                .refuse();
        var handedOut = rows.byDigest("file_digest", file);
        if (handedOut.isPresent()) {
            return unaltered(handedOut.get());
        }
        var like = content == null
                ? null
                : rows.byDigest("content_digest", content).orElse(null);
        return like == null
                ? new ProofCheck(
                        ProofVerdict.UNKNOWN,
                        "This service handed out no such file, and none that says what it claims to say.",
                        null)
                : new ProofCheck(
                        ProofVerdict.ALTERED,
                        "It carries the content digest of " + inWords(like)
                                + ", but it is not the file that was handed out:"
                                + " it was altered, or another program saved it anew. The file that was handed out can be"
                                + " fetched by that number.",
                        like);
    }

    private ProofCheck unaltered(Proof proof) {
        var why = whyTheRecordDiffers(proof);
        return why == null
                ? new ProofCheck(
                        ProofVerdict.GENUINE,
                        "It is " + inWords(proof)
                                + ", unaltered; worked out anew, the book says the same of that moment.",
                        proof)
                : new ProofCheck(
                        ProofVerdict.RECORD_DIFFERS, "It is " + inWords(proof) + ", unaltered. But " + why, proof);
    }

    private @Nullable String whyTheRecordDiffers(Proof proof) {
        var kept = rows.kept(proof.id());
        if (!Canonical.digest(kept.content()).equals(proof.contentDigest())
                || !Canonical.digest(kept.file()).equals(proof.fileDigest())) {
            return "what the book keeps of it no longer has the digests that were noted: somebody changed it by other means than"
                    + " this service.";
        }
        var said = canonical.content(kept.content());
        if (said.version() != Contents.VERSION) {
            return "it was written in form " + said.version() + ", and this version of the service writes form "
                    + Contents.VERSION + ": the book cannot be compared with it.";
        }
        try {
            var again = canonical.text(contents.of(Question.answeredBy(said)));
            return again.equals(kept.content())
                    ? null
                    : "worked out anew, the book says something else of that moment, first at "
                            + canonical.firstDifference(kept.content(), again)
                            + ": it was changed by other means than this service, or another version of the service works it"
                            + " out otherwise.";
        } catch (Refusal refused) {
            return "it cannot be worked out anew: " + refused.getMessage();
        }
    }

    private static String inWords(Proof proof) {
        return "proof " + proof.id() + " of " + proof.facility() + "/" + proof.room() + " on " + proof.day()
                + ", handed out to " + proof.askedBy() + " at " + proof.askedAt();
    }
}
