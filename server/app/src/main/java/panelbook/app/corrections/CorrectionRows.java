package panelbook.app.corrections;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import panelbook.app.database.Rows;
import panelbook.app.instruments.CorrectionMatrix;
import panelbook.app.instruments.MeterCorrection;
import panelbook.colorimetry.correction.FourColourMatrix;
import panelbook.wire.Correction;
import panelbook.wire.CorrectionDraft;
import panelbook.wire.CorrectionWithdrawal;

/** Corrections in and out of the book. */
@Component
class CorrectionRows {

    private static final String SELECT = """
            select c.*, i.name as instrument, d.name as display, ri.name as reference, w.reason, w.withdrawn_at,
                   w.withdrawn_by
            from instrument_correction c
            join instrument i on i.id = c.instrument_id
            left join display d on d.id = c.display_id
            join run rr on rr.id = c.reference_run_id
            join instrument ri on ri.id = rr.instrument_id
            left join instrument_correction_withdrawal w on w.correction_id = c.id
            where c.instrument_id = any (array(select :instrument::uuid union all
                                               select instrument_id from instrument_correction where id = :id::uuid))
            order by c.model nulls last, d.name, c.version desc
            """;

    private final JdbcClient jdbc;

    CorrectionRows(JdbcClient jdbc) {
        this.jdbc = jdbc;
    }

    /** All of an instrument: by model, then by display, the newest version first. */
    List<Correction> of(UUID instrumentId) {
        return inForceMarked(select(instrumentId, null));
    }

    Optional<Correction> find(UUID id) {
        return inForceMarked(select(null, id)).stream()
                .filter(correction -> correction.id().equals(id))
                .findFirst();
    }

    private List<Correction> select(@Nullable UUID instrumentId, @Nullable UUID id) {
        return jdbc.sql(SELECT)
                .param("instrument", instrumentId)
                .param("id", id)
                .query((row, n) -> correction(row))
                .list();
    }

    void add(UUID instrumentId, CorrectionDraft draft, FourColourMatrix made, Instant now, String by) {
        jdbc.sql("""
                        insert into instrument_correction (id, instrument_id, display_id, model, version, reference_run_id,
                                                           field_run_id, keeps_luminance, matrix, luminance_factor,
                                                           valid_from, note, recorded_at, recorded_by)
                        values (:id, :instrument, :display, :model,
                                (select count(*) + 1 from instrument_correction
                                 where instrument_id = :instrument
                                   and display_id is not distinct from :display::uuid
                                   and model is not distinct from :model::text),
                                :reference, :field, :keeps, :matrix, :factor, :from, :note, :now, :by)
                        """)
                .param("id", draft.id())
                .param("instrument", instrumentId)
                .param("display", draft.displayId())
                .param("model", draft.model())
                .param("reference", draft.referenceRunId())
                .param("field", draft.fieldRunId())
                .param("keeps", draft.keepsLuminance())
                .param("matrix", CorrectionMatrix.elements(made).toArray(new Double[0]))
                .param("factor", made.luminanceFactor())
                .param(
                        "from",
                        Rows.atOrNull(draft.validFrom() == null ? null : Rows.kept(draft.validFrom())),
                        java.sql.Types.TIMESTAMP_WITH_TIMEZONE)
                .param("note", draft.note())
                .param("now", Rows.at(now))
                .param("by", by)
                .update();
    }

    /** False when it was withdrawn before. */
    boolean withdraw(UUID id, String reason, Instant now, String by) {
        return jdbc.sql("""
                        insert into instrument_correction_withdrawal (correction_id, reason, withdrawn_at, withdrawn_by)
                        values (:id, :reason, :now, :by) on conflict (correction_id) do nothing
                        """)
                        .param("id", id)
                        .param("reason", reason)
                        .param("now", Rows.at(now))
                        .param("by", by)
                        .update()
                == 1;
    }

    /** Of those for one place that begin at one time the highest version holds, until the next time that one begins. */
    private static List<Correction> inForceMarked(List<Correction> all) {
        return all.stream()
                .map(one -> {
                    var rivals = all.stream()
                            .filter(other -> other.withdrawal() == null && ofSamePlace(one, other))
                            .toList();
                    var replaced = rivals.stream()
                            .anyMatch(other -> Objects.equals(other.validFrom(), one.validFrom())
                                    && other.version() > one.version());
                    var until = rivals.stream()
                            .map(Correction::validFrom)
                            .filter(Objects::nonNull)
                            .filter(from -> one.validFrom() == null || from.isAfter(one.validFrom()))
                            .min(Comparator.naturalOrder())
                            .orElse(null);
                    return marked(one, until, one.withdrawal() == null && !replaced);
                })
                .toList();
    }

    private static boolean ofSamePlace(Correction one, Correction other) {
        return Objects.equals(one.displayId(), other.displayId()) && Objects.equals(one.model(), other.model());
    }

    private static Correction marked(Correction c, @Nullable Instant until, boolean inForce) {
        return new Correction(
                c.id(),
                c.name(),
                c.instrumentId(),
                c.instrument(),
                c.displayId(),
                c.display(),
                c.model(),
                c.version(),
                c.referenceRunId(),
                c.reference(),
                c.fieldRunId(),
                c.keepsLuminance(),
                c.matrix(),
                c.luminanceFactor(),
                c.validFrom(),
                until,
                inForce,
                c.note(),
                c.recordedAt(),
                c.recordedBy(),
                c.withdrawal());
    }

    private static Correction correction(ResultSet row) throws SQLException {
        var display = row.getString("display");
        var model = row.getString("model");
        return new Correction(
                Rows.id(row, "id"),
                MeterCorrection.name(
                        row.getString("instrument"),
                        display == null ? model : display,
                        display != null,
                        row.getInt("version")),
                Rows.id(row, "instrument_id"),
                row.getString("instrument"),
                Rows.idOrNull(row, "display_id"),
                display,
                model,
                row.getInt("version"),
                Rows.id(row, "reference_run_id"),
                row.getString("reference"),
                Rows.id(row, "field_run_id"),
                row.getBoolean("keeps_luminance"),
                List.of((Double[]) row.getArray("matrix").getArray()),
                row.getDouble("luminance_factor"),
                Rows.instantOrNull(row, "valid_from"),
                null,
                false,
                row.getString("note"),
                Rows.instant(row, "recorded_at"),
                row.getString("recorded_by"),
                withdrawal(row));
    }

    private static @Nullable CorrectionWithdrawal withdrawal(ResultSet row) throws SQLException {
        var at = Rows.instantOrNull(row, "withdrawn_at");
        return at == null ? null : new CorrectionWithdrawal(row.getString("reason"), at, row.getString("withdrawn_by"));
    }
}
