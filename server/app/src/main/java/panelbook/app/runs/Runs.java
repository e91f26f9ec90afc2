package panelbook.app.runs;

import java.time.Clock;
import java.time.Instant;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import panelbook.app.access.Caller;
import panelbook.app.database.Rows;
import panelbook.app.fleet.PanelHoursWatch;
import panelbook.app.rest.KeptJson;
import panelbook.app.rest.Refusal;
import panelbook.colorimetry.XYZ;
import panelbook.colorimetry.signal.Patch;
import panelbook.colorimetry.signal.Reading;
import panelbook.wire.ReadingEntry;
import panelbook.wire.Role;
import panelbook.wire.RunUpload;
import panelbook.wire.RunVerdict;
import tools.jackson.databind.json.JsonMapper;

/** Takes runs in and finds them again. */
@Service
public class Runs {

    private final JdbcClient jdbc;
    private final PresetFactsBook presets;
    private final ReadingBook readings;
    private final RunJudge judge;
    private final PanelHoursWatch panelHours;
    private final JsonMapper json;
    private final Clock clock;

    Runs(
            JdbcClient jdbc,
            PresetFactsBook presets,
            ReadingBook readings,
            RunJudge judge,
            PanelHoursWatch panelHours,
            JsonMapper json,
            Clock clock) {
        this.jdbc = jdbc;
        this.presets = presets;
        this.readings = readings;
        this.judge = judge;
        this.panelHours = panelHours;
        this.json = json;
        this.clock = clock;
    }

    /**
     * Whether the run was new, and the verdict on it.
     *
     * @param fresh false when the same run had been taken in before; the verdict is then the first answer
     */
    record Taken(boolean fresh, RunVerdict verdict) {}

    /**
     * Takes a run in and judges it, all or nothing. The same run again is answered with the first answer.
     *
     * @throws Refusal when the upload is not right, or another run has this id
     */
    @Transactional
    Taken take(RunUpload upload, Caller caller) {
        RunUploadCheck.form(upload, clock.instant());
        var digest = RunDigest.of(upload);
        var before = firstAnswer(upload.id(), digest);
        if (before.isPresent()) {
            return new Taken(false, before.get());
        }
        if (upload.baselineReason() != null && caller.role() == Role.PROBE) {
            throw Refusal.of(
                    Refusal.Kind.FORBIDDEN,
                    "A probe cannot declare a baseline: leave /baselineReason out, or ask a calibrator.");
        }
        var facts = presetToMeasure(upload);
        RunUploadCheck.codes(upload, facts.target());
        var run = stored(upload, facts);
        if (!insert(run, upload, digest, caller)) {
            // a rival brought the same id while we were checking: its transaction has ended by now
            return new Taken(
                    false,
                    firstAnswer(upload.id(), digest)
                            .orElseThrow(() -> new IllegalStateException("run without answer")));
        }
        readings.add(run.id(), upload.readings());
        notePanelHours(run, facts, caller);
        var verdict = judge.judge(run, facts, colorimetric(upload.readings()), upload.baselineReason());
        keepAnswer(verdict);
        return new Taken(true, verdict);
    }

    /** Keeps the verdict on a run as the answer to whoever sends it. */
    void keepAnswer(RunVerdict verdict) {
        jdbc.sql("insert into run_answer (run_id, answer) values (:run, :answer::jsonb)")
                .param("run", verdict.runId())
                .param("answer", json.writeValueAsString(verdict))
                .update();
    }

    /** The run of the same preset that says and holds just the same and counts, whatever its id. */
    Optional<UUID> sameAs(RunUpload upload) {
        return jdbc.sql("""
                        select id from counted_run where preset_id = :preset and taken_at = :at and digest = :digest
                        order by received_at limit 1
                        """)
                .param("preset", upload.presetId())
                .param("at", Rows.at(upload.takenAt()))
                .param("digest", RunDigest.of(upload))
                .query(UUID.class)
                .optional();
    }

    /** Stores a run in the stead of another one; it is not judged yet. */
    AmendmentJudge.Entered enter(RunUpload upload, PresetFacts facts, UUID insteadOf, Caller caller) {
        var run = stored(upload, facts);
        if (!insert(run, upload, RunDigest.of(upload), caller)) {
            throw Refusal.conflict(
                    "The run " + run.id() + " stands on " + facts.path()
                            + " already and was withdrawn: upload the readings with a remark that makes them a run of their own.");
        }
        readings.add(run.id(), upload.readings());
        notePanelHours(run, facts, caller);
        return new AmendmentJudge.Entered(run, facts, insteadOf, colorimetric(upload.readings()));
    }

    Instant now() {
        return Rows.kept(clock.instant());
    }

    /** The answer that a run got when it was taken in; empty when there is no such run. */
    Optional<RunVerdict> firstAnswer(UUID runId) {
        return jdbc.sql("select answer from run_answer where run_id = :id")
                .param("id", runId)
                .query(String.class)
                .optional()
                .map(this::verdict);
    }

    private Optional<RunVerdict> firstAnswer(UUID runId, byte[] digest) {
        var found = jdbc.sql(
                        "select r.digest, a.answer from run r join run_answer a on a.run_id = r.id where r.id = :id")
                .param("id", runId)
                .query((row, n) -> new StoredAnswer(row.getBytes("digest"), row.getString("answer")))
                .optional();
        found.ifPresent(answer -> {
            if (!Arrays.equals(answer.digest(), digest)) {
                throw Refusal.conflict("Another run has the id " + runId
                        + ": nothing was changed. Give this run an id of its own, made from its content.");
            }
        });
        return found.map(answer -> verdict(answer.answer()));
    }

    /** Answers given before figures named the corrections of meters name none. */
    private RunVerdict verdict(String answer) {
        var tree = json.readTree(answer);
        tree.path("findings").forEach(finding -> KeptJson.completeList(finding, "corrections"));
        KeptJson.completeList(tree.path("diagnosis"), "corrections");
        return json.treeToValue(tree, RunVerdict.class);
    }

    private record StoredAnswer(byte[] digest, String answer) {}

    /** A target is not edited while a run is checked against it and stored. */
    private void lockTarget(UUID presetId) {
        jdbc.sql("select from target where id = (select target_id from preset where id = :preset) for share")
                .param("preset", presetId)
                .query(row -> {});
    }

    /** The facts of a preset that takes a run, whose target stays as it is until the transaction ends. */
    PresetFacts presetToMeasure(UUID presetId, Instant takenAt, String pointer) {
        lockTarget(presetId);
        var facts =
                presets.find(presetId).orElseThrow(() -> Refusal.invalid(pointer, "there is no preset " + presetId));
        takenInUse(pointer, facts.path(), facts.retiredAt(), takenAt);
        return facts;
    }

    private PresetFacts presetToMeasure(RunUpload upload) {
        var facts = presetToMeasure(upload.presetId(), upload.takenAt(), "/presetId");
        var instrument = jdbc.sql("select name, retired_at from instrument where id = :id")
                .param("id", upload.instrumentId())
                .query((row, n) -> new Meter(row.getString("name"), Rows.instantOrNull(row, "retired_at")))
                .optional()
                .orElseThrow(() -> Refusal.invalid("/instrumentId", "there is no instrument " + upload.instrumentId()));
        takenInUse("/instrumentId", instrument.name(), instrument.retiredAt(), upload.takenAt());
        return facts;
    }

    private record Meter(String name, @Nullable Instant retiredAt) {}

    /** A run that waited to be sent while its display or meter was taken out of use is still one of it. */
    private static void takenInUse(String pointer, String name, @Nullable Instant retiredAt, Instant takenAt) {
        if (retiredAt != null && !takenAt.isBefore(retiredAt)) {
            throw Refusal.invalid(
                    pointer, name + " was retired at " + retiredAt + " and takes no runs of later than that");
        }
    }

    private StoredRun stored(RunUpload upload, PresetFacts facts) {
        return new StoredRun(
                upload.id(),
                upload.presetId(),
                upload.instrumentId(),
                upload.purpose(),
                Rows.kept(upload.takenAt()),
                Rows.kept(clock.instant()),
                upload.panelHours(),
                warmedUp(upload.minutesSincePowerOn(), facts.warmUpMinutes()),
                upload.readings().size());
    }

    private static @Nullable Boolean warmedUp(@Nullable Integer minutesSincePowerOn, int warmUpMinutes) {
        return minutesSincePowerOn == null ? null : minutesSincePowerOn >= warmUpMinutes;
    }

    private boolean insert(StoredRun run, RunUpload upload, byte[] digest, Caller caller) {
        return jdbc.sql("""
                        insert into run (id, preset_id, instrument_id, purpose, operator, taken_at, panel_hours,
                                         minutes_since_power_on, ambient_illuminance_lux, warmed_up, file_name, remarks,
                                         reading_count, digest, received_at, received_from)
                        values (:id, :preset, :instrument, :purpose, :operator, :takenAt, :panelHours, :minutes, :ambient,
                                :warmedUp, :fileName, :remarks, :count, :digest, :receivedAt, :receivedFrom)
                        on conflict do nothing
                        """)
                        .param("id", run.id())
                        .param("preset", run.presetId())
                        .param("instrument", run.instrumentId())
                        .param("purpose", run.purpose().toString())
                        .param("operator", upload.operator())
                        .param("takenAt", Rows.at(run.takenAt()))
                        .param("panelHours", run.panelHours())
                        .param("minutes", upload.minutesSincePowerOn())
                        .param("ambient", upload.ambientIlluminanceLux())
                        .param("warmedUp", run.warmedUp())
                        .param("fileName", upload.fileName())
                        .param("remarks", upload.remarks())
                        .param("count", run.readingCount())
                        .param("digest", digest)
                        .param("receivedAt", Rows.at(run.receivedAt()))
                        .param("receivedFrom", caller.holder())
                        .update()
                == 1;
    }

    private void notePanelHours(StoredRun run, PresetFacts facts, Caller caller) {
        if (run.panelHours() == null) {
            return;
        }
        jdbc.sql("""
                        insert into panel_hours (display_id, at, hours, run_id, recorded_at, recorded_by)
                        values (:display, :at, :hours, :run, :now, :by)
                        """)
                .param("display", facts.displayId())
                .param("at", Rows.at(run.takenAt()))
                .param("hours", run.panelHours())
                .param("run", run.id())
                .param("now", Rows.at(run.receivedAt()))
                .param("by", caller.holder())
                .update();
        panelHours.lookAt(facts.displayId());
    }

    private static List<Reading> colorimetric(List<ReadingEntry> entries) {
        return entries.stream()
                .map(r -> new Reading(new Patch(r.red(), r.green(), r.blue()), new XYZ(r.x(), r.y(), r.z())))
                .toList();
    }
}
