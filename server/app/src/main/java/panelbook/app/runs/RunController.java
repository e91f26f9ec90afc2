package panelbook.app.runs;

import java.time.Instant;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.http.ResponseEntity;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.bind.annotation.RestController;
import panelbook.app.access.Caller;
import panelbook.app.database.Rows;
import panelbook.app.rest.Added;
import panelbook.app.rest.Adds;
import panelbook.app.rest.Paging;
import panelbook.app.rest.Refusal;
import panelbook.wire.Page;
import panelbook.wire.Purpose;
import panelbook.wire.ReadingEntry;
import panelbook.wire.Run;
import panelbook.wire.RunUpload;
import panelbook.wire.RunVerdict;
import panelbook.wire.RunWithdrawalDraft;
import panelbook.wire.WithdrawnRun;

@RestController
class RunController {

    private static final String RUNS = "/api/v1/runs";

    private final Runs runs;
    private final Withdrawals withdrawals;
    private final ReadingBook readings;
    private final MeasuredRuns measured;
    private final JdbcClient jdbc;

    RunController(Runs runs, Withdrawals withdrawals, ReadingBook readings, MeasuredRuns measured, JdbcClient jdbc) {
        this.runs = runs;
        this.withdrawals = withdrawals;
        this.readings = readings;
        this.measured = measured;
        this.jdbc = jdbc;
    }

    @Adds
    @PostMapping(RUNS)
    ResponseEntity<RunVerdict> uploadRun(@RequestBody RunUpload upload) {
        var taken = Rivals.untilDone(() -> runs.take(upload, Caller.current()));
        return new Added<>(taken.verdict(), taken.fresh()).at(RUNS + "/" + upload.id());
    }

    @Adds
    @PostMapping(RUNS + "/{id}/withdrawal")
    ResponseEntity<WithdrawnRun> withdrawRun(@PathVariable UUID id, @RequestBody RunWithdrawalDraft draft) {
        return Rivals.untilDone(() -> withdrawals.withdraw(id, draft, Caller.current()))
                .at(RUNS + "/" + id);
    }

    @GetMapping(RUNS + "/{id}")
    Run run(@PathVariable UUID id) {
        return jdbc.sql(RunRows.SELECT + " where r.id = :id")
                .param("id", id)
                .query((row, n) -> RunRows.wire(row))
                .optional()
                .orElseThrow(() -> Refusal.notFound("run", id));
    }

    @GetMapping(RUNS + "/{id}/verdict")
    RunVerdict runVerdict(@PathVariable UUID id) {
        return runs.firstAnswer(id).orElseThrow(() -> Refusal.notFound("run", id));
    }

    /** Readings as they were taken, or with {@code corrected} as the correction of the meter that is in force gives them. */
    @GetMapping(RUNS + "/{id}/readings")
    Page<ReadingEntry> runReadings(
            @PathVariable UUID id, @RequestParam(defaultValue = "false") boolean corrected, Paging paging) {
        run(id);
        var after = paging.parsed(0, Integer::valueOf);
        var from = after == null ? -1 : after;
        var taken = readings.page(id, from, paging.fetch());
        var found = corrected ? measured.corrected(id, taken) : taken;
        return paging.page(found, last -> List.of(Integer.toString(from + paging.limit())));
    }

    @GetMapping(RUNS)
    Page<Run> runs(
            Paging paging,
            @RequestParam(required = false) @Nullable UUID preset,
            @RequestParam(required = false) @Nullable UUID instrument,
            @RequestParam(required = false) @Nullable Purpose purpose) {
        var found = jdbc.sql(RunRows.SELECT + """
                         where (:preset::uuid is null or r.preset_id = :preset)
                           and (:instrument::uuid is null or r.instrument_id = :instrument)
                           and (:purpose::text is null or r.purpose = :purpose)
                           and (:at::timestamptz is null or (r.taken_at, r.id) < (:at::timestamptz, :id::uuid))
                         order by r.taken_at desc, r.id desc limit :limit
                        """)
                .param("preset", preset)
                .param("instrument", instrument)
                .param("purpose", purpose == null ? null : purpose.toString())
                .param("at", Rows.atOrNull(paging.parsed(0, Instant::parse)))
                .param("id", paging.keyId(1))
                .param("limit", paging.fetch())
                .query((row, n) -> RunRows.wire(row))
                .list();
        return paging.page(
                found, run -> List.of(run.takenAt().toString(), run.id().toString()));
    }
}
