package panelbook.app.runs;

import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Propagation;
import org.springframework.transaction.annotation.Transactional;
import panelbook.app.access.Caller;
import panelbook.app.database.Rows;
import panelbook.app.instruments.MeterCorrection;
import panelbook.app.rest.Added;
import panelbook.app.rest.Checks;
import panelbook.app.rest.Refusal;
import panelbook.app.runs.AmendmentJudge.Amendment;
import panelbook.app.runs.AmendmentJudge.Entered;
import panelbook.wire.Run;
import panelbook.wire.RunUpload;
import panelbook.wire.RunVerdict;
import panelbook.wire.RunWithdrawalDraft;
import panelbook.wire.WithdrawnRun;
import panelbook.wire.files.RunIds;

/** Withdraws runs that were entered by mistake, and enters their readings where they belong. */
@Service
public class Withdrawals {

    private final JdbcClient jdbc;
    private final Runs runs;
    private final RunBook book;
    private final ReadingBook readings;
    private final PresetFactsBook presets;
    private final AmendmentJudge judge;
    private final MendingAnswers answers;

    Withdrawals(
            JdbcClient jdbc,
            Runs runs,
            RunBook book,
            ReadingBook readings,
            PresetFactsBook presets,
            AmendmentJudge judge,
            MendingAnswers answers) {
        this.jdbc = jdbc;
        this.runs = runs;
        this.book = book;
        this.readings = readings;
        this.presets = presets;
        this.judge = judge;
        this.answers = answers;
    }

    /**
     * What stands in the stead of a withdrawn run.
     *
     * @param runId the run with the same readings on the other preset
     * @param entered null when that run was in the book already
     */
    public record Replacement(UUID runId, @Nullable Entered entered) {}

    /**
     * Withdraws a run, and judges anew what depended on it; the same again is answered with the first answer.
     *
     * @throws Refusal when there is no such run, when it was withdrawn otherwise, when a correction that is applied was made
     *     from it, or when its readings do not fit the preset
     */
    @Transactional
    Added<WithdrawnRun> withdraw(UUID runId, RunWithdrawalDraft draft, Caller caller) {
        reason(draft.reason());
        var run = lock(runId).orElseThrow(() -> Refusal.notFound("run", runId));
        var before = shown(runId).withdrawn();
        if (before != null) {
            mustBeSame(before.replacedBy(), draft.presetId(), before.by());
            return new Added<>(answers.of(runId, WithdrawnRun.class), false);
        }
        mustMakeNoCorrection(runId);
        var onto = draft.presetId();
        var replacement = onto == null ? null : replace(run, onto, "/presetId", caller);
        withdraw(run, draft.reason(), replacement == null ? null : replacement.runId(), caller);
        var entered = replacement == null ? null : replacement.entered();
        var outcome = judge.judge(new Amendment(
                List.of(run),
                entered == null ? List.of() : List.of(entered),
                onto == null ? Set.of() : Set.of(onto),
                Set.of(),
                draft.reason(),
                caller.holder()));
        var verdict = entered == null ? null : outcome.verdict(entered.run().id());
        if (verdict != null) {
            runs.keepAnswer(verdict);
        }
        var answer = new WithdrawnRun(shown(runId), verdict, outcome.judgedAnew(), outcome.alerts());
        answers.keep(runId, answer);
        return new Added<>(answer, true);
    }

    /** Refuses while a correction that was made from the run is applied: it would go on bending the figures of other runs. */
    private void mustMakeNoCorrection(UUID runId) {
        jdbc.sql("""
                        select i.name as instrument, coalesce(d.name, c.model) as place, d.id is not null as of_display, c.version
                        from instrument_correction c join instrument i on i.id = c.instrument_id
                        left join display d on d.id = c.display_id
                        where :run in (c.reference_run_id, c.field_run_id)
                          and not exists (select 1 from instrument_correction_withdrawal w where w.correction_id = c.id)
                        order by c.recorded_at limit 1
                        """)
                .param("run", runId)
                .query((row, n) -> MeterCorrection.name(
                        row.getString("instrument"),
                        row.getString("place"),
                        row.getBoolean("of_display"),
                        row.getInt("version")))
                .optional()
                .ifPresent(correction -> {
                    throw Refusal.conflict("The correction \"" + correction + "\" was made from this run: withdraw the"
                            + " correction first, and make it anew from runs that are right.");
                });
    }

    /** The run, which no rival can withdraw until the transaction under way has ended. */
    @Transactional(propagation = Propagation.MANDATORY)
    public Optional<StoredRun> lock(UUID runId) {
        jdbc.sql("select from run where id = :id for no key update")
                .param("id", runId)
                .query(row -> {});
        return book.find(runId);
    }

    /** Keeps that a run counts no longer; nothing is judged yet. */
    @Transactional(propagation = Propagation.MANDATORY)
    public void withdraw(StoredRun run, String reason, @Nullable UUID replacedBy, Caller caller) {
        jdbc.sql("""
                        insert into run_withdrawal (run_id, reason, replaced_by, withdrawn_at, withdrawn_by)
                        values (:run, :reason, :by, :at, :holder)
                        """)
                .param("run", run.id())
                .param("reason", reason)
                .param("by", replacedBy, java.sql.Types.OTHER)
                .param("at", Rows.at(runs.now()))
                .param("holder", caller.holder())
                .update();
    }

    /**
     * Enters the readings of a run again on another preset, unless they are there already; nothing is judged yet.
     *
     * @param pointer where the request names the preset
     * @throws Refusal when the preset does not take them
     */
    @Transactional(propagation = Propagation.MANDATORY)
    public Replacement replace(StoredRun run, UUID presetId, String pointer, Caller caller) {
        if (presetId.equals(run.presetId())) {
            throw Refusal.invalid(pointer, "the run is on this preset already: name the one it was taken on");
        }
        var upload = upload(run, presetId, pointer);
        var there = runs.sameAs(upload);
        if (there.isPresent()) {
            return new Replacement(there.get(), null);
        }
        return new Replacement(upload.id(), runs.enter(upload, presetToTake(upload, pointer), run.id(), caller));
    }

    private PresetFacts presetToTake(RunUpload upload, String pointer) {
        var facts = runs.presetToMeasure(upload.presetId(), upload.takenAt(), pointer);
        try {
            RunUploadCheck.codes(upload, facts.target());
        } catch (Refusal misfit) {
            throw Refusal.invalid(
                    pointer,
                    "the run was not taken for the target of " + facts.path() + ": "
                            + misfit.errors().get(0).detail());
        }
        return facts;
    }

    private RunUpload upload(StoredRun run, UUID presetId, String pointer) {
        if (presets.find(presetId).isEmpty()) {
            throw Refusal.invalid(pointer, "there is no preset " + presetId);
        }
        var shown = shown(run.id());
        return new RunUpload(
                RunIds.nameBased(run.id(), presetId.toString().getBytes(StandardCharsets.UTF_8)),
                presetId,
                shown.instrumentId(),
                shown.purpose(),
                shown.operator(),
                shown.takenAt(),
                shown.panelHours(),
                shown.minutesSincePowerOn(),
                shown.ambientIlluminanceLux(),
                shown.fileName(),
                shown.remarks(),
                null,
                readings.page(run.id(), -1, run.readingCount()));
    }

    private Run shown(UUID runId) {
        return Objects.requireNonNull(book.shown(List.of(runId)).get(runId), "a run that is there");
    }

    private void mustBeSame(@Nullable UUID replacedBy, @Nullable UUID onto, String by) {
        var preset = replacedBy == null ? null : shown(replacedBy).presetId();
        if (!Objects.equals(preset, onto)) {
            throw Refusal.conflict("The run was withdrawn by " + by + " already, "
                    + (replacedBy == null
                            ? "without being entered again. To enter its readings again, upload them with a remark"
                                    + " that makes them a run of their own."
                            : "and entered again on " + shown(replacedBy).preset() + " as " + replacedBy
                                    + ". If that is wrong too, withdraw that one."));
        }
    }

    /** Keeps the verdict on a run that was entered again as the answer to whoever sends it. */
    @Transactional(propagation = Propagation.MANDATORY)
    public void keepAnswer(RunVerdict verdict) {
        runs.keepAnswer(verdict);
    }

    /** Refuses a reason that is empty or too long. */
    public static void reason(String reason) {
        new Checks()
                .that(!reason.isBlank(), "/reason", "Must not be empty: say what the mistake was.")
                .text("/reason", reason, 10_000)
                .refuse();
    }
}
