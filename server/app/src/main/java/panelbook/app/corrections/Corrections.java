package panelbook.app.corrections;

import java.time.Clock;
import java.util.List;
import java.util.Objects;
import java.util.UUID;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import org.springframework.transaction.interceptor.TransactionAspectSupport;
import panelbook.app.access.Caller;
import panelbook.app.assessment.ReadAnew;
import panelbook.app.database.Rows;
import panelbook.app.rest.Added;
import panelbook.app.rest.Checks;
import panelbook.app.rest.Refusal;
import panelbook.wire.Correction;
import panelbook.wire.CorrectionDraft;
import panelbook.wire.CorrectionPreview;
import panelbook.wire.CorrectionWithdrawalDraft;

/** Corrections of instruments: made once, withdrawn once. */
@Service
class Corrections {

    private final JdbcClient jdbc;
    private final CorrectionRows rows;
    private final RunPairs pairs;
    private final Previews previews;
    private final ReadAnew readAnew;
    private final Clock clock;

    Corrections(
            JdbcClient jdbc, CorrectionRows rows, RunPairs pairs, Previews previews, ReadAnew readAnew, Clock clock) {
        this.jdbc = jdbc;
        this.rows = rows;
        this.pairs = pairs;
        this.previews = previews;
        this.readAnew = readAnew;
        this.clock = clock;
    }

    /**
     * Makes a correction and judges anew what rests on readings that it changes; the same draft again is answered with the
     * correction as it stands.
     *
     * @throws Refusal when the runs make none, or another correction has this id
     */
    @Transactional
    Added<Correction> make(UUID instrumentId, CorrectionDraft draft) {
        check(draft);
        lock(instrumentId);
        var known = rows.find(draft.id());
        if (known.isPresent()) {
            if (!says(known.get(), instrumentId, draft)) {
                throw Refusal.conflict("Another correction has the id " + draft.id() + ": nothing was changed.");
            }
            return new Added<>(known.get(), false);
        }
        add(instrumentId, draft, pairs.of(instrumentId, draft));
        readAnew.judge(readAnew.restingOn(scope(instrumentId, draft)));
        return new Added<>(rows.find(draft.id()).orElseThrow(), true);
    }

    /**
     * What a correction would change: it is made, what follows is looked at, and all of it is taken back.
     *
     * @throws Refusal as {@link #make}
     */
    @Transactional
    CorrectionPreview preview(UUID instrumentId, CorrectionDraft draft) {
        check(draft);
        lock(instrumentId);
        if (rows.find(draft.id()).isPresent()) {
            throw Refusal.conflict("The correction " + draft.id() + " is made already: nothing was changed.");
        }
        var pair = pairs.of(instrumentId, draft);
        var resting = readAnew.restingOn(scope(instrumentId, draft));
        var before = previews.look(pair, resting);
        TransactionAspectSupport.currentTransactionStatus().setRollbackOnly();
        add(instrumentId, draft, pair);
        readAnew.judge(resting);
        return previews.compare(rows.find(draft.id()).orElseThrow(), pair, before, previews.look(pair, resting));
    }

    /** All of an instrument: by model, then by display, the newest version first. */
    @Transactional(readOnly = true)
    List<Correction> of(UUID instrumentId) {
        mustExist(instrumentId, "");
        return rows.of(instrumentId);
    }

    /**
     * Withdraws a correction and judges anew what rests on readings that it changed; the same reason again is harmless.
     *
     * @throws Refusal when there is no such correction, or it was withdrawn for another reason
     */
    @Transactional
    Correction withdraw(UUID instrumentId, UUID id, CorrectionWithdrawalDraft draft) {
        new Checks()
                .that(!draft.reason().isBlank(), "/reason", "Must not be empty: say why it is not to be applied.")
                .text("/reason", draft.reason(), 10_000)
                .refuse();
        lock(instrumentId);
        var correction = rows.find(id)
                .filter(found -> found.instrumentId().equals(instrumentId))
                .orElseThrow(() -> Refusal.notFound("correction", id));
        if (rows.withdraw(id, draft.reason(), clock.instant(), Caller.current().holder())) {
            readAnew.judge(readAnew.restingOn(new ReadAnew.Scope(
                    instrumentId, correction.displayId(), correction.model(), correction.validFrom())));
        }
        var withdrawn = rows.find(id).orElseThrow();
        var withdrawal = Objects.requireNonNull(withdrawn.withdrawal());
        if (!withdrawal.reason().equals(draft.reason())) {
            throw Refusal.conflict("It was withdrawn by " + withdrawal.withdrawnBy() + " at " + withdrawal.withdrawnAt()
                    + " already: \"" + withdrawal.reason() + "\".");
        }
        return withdrawn;
    }

    private void add(UUID instrumentId, CorrectionDraft draft, RunPairs.RunPair pair) {
        rows.add(
                instrumentId,
                draft,
                pair.correction(draft.keepsLuminance()),
                clock.instant(),
                Caller.current().holder());
    }

    /** One at a time of an instrument, since versions are counted; uploads go on meanwhile. */
    private void lock(UUID instrumentId) {
        mustExist(instrumentId, " for no key update");
    }

    private void mustExist(UUID instrumentId, String lock) {
        var found = jdbc.sql("select id from instrument where id = :id" + lock)
                .param("id", instrumentId)
                .query(UUID.class)
                .optional();
        if (found.isEmpty()) {
            throw Refusal.notFound("instrument", instrumentId);
        }
    }

    private static void check(CorrectionDraft draft) {
        new Checks()
                .that(
                        (draft.displayId() == null) != (draft.model() == null),
                        "/displayId",
                        "Name either a display or a model that the correction is for.")
                .optionalLine("/model", draft.model(), 200)
                .text("/note", draft.note(), 10_000)
                .refuse();
    }

    private static ReadAnew.Scope scope(UUID instrumentId, CorrectionDraft draft) {
        return new ReadAnew.Scope(instrumentId, draft.displayId(), draft.model(), draft.validFrom());
    }

    private static boolean says(Correction there, UUID instrumentId, CorrectionDraft draft) {
        return there.instrumentId().equals(instrumentId)
                && Objects.equals(there.displayId(), draft.displayId())
                && Objects.equals(there.model(), draft.model())
                && there.referenceRunId().equals(draft.referenceRunId())
                && there.fieldRunId().equals(draft.fieldRunId())
                && there.keepsLuminance() == draft.keepsLuminance()
                && Objects.equals(there.validFrom(), draft.validFrom() == null ? null : Rows.kept(draft.validFrom()))
                && Objects.equals(there.note(), draft.note());
    }
}
