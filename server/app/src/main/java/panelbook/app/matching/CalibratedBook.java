package panelbook.app.matching;

import java.time.Instant;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import panelbook.app.database.Rows;
import panelbook.app.runs.PresetFacts;
import panelbook.wire.Metric;

/** How presets were calibrated last, and what their tolerance sets allow from there. */
@Component
class CalibratedBook {

    /**
     * How far black may rise when the tolerance set does not judge it, cd/m²: what the set for HDR grading that comes with
     * the book allows. House rule.
     */
    static final double BLACK_TOLERANCE = 0.005;

    private final JdbcClient jdbc;

    CalibratedBook(JdbcClient jdbc) {
        this.jdbc = jdbc;
    }

    /**
     * The baseline in force.
     *
     * @param since from when it holds
     * @param hoursThen counter of the panel then, h
     * @param hoursNow counter of the panel as last read, h
     */
    record Calibrated(
            UUID runId,
            Instant since,
            @Nullable Double hoursThen,
            @Nullable Double hoursNow) {}

    /** How long a calibration lasts by the policy; null where it sets no limit. */
    record Lasting(@Nullable Integer days, @Nullable Integer panelHours) {}

    /** The baseline in force; empty when there is none. */
    Optional<Calibrated> of(PresetFacts preset) {
        return jdbc.sql("""
                        select b.run_id, lower(b.during) as since,
                               (select pc.hours from counted_panel_hours pc where pc.run_id = b.run_id
                                order by pc.id desc limit 1) as panel_hours,
                               (select hours from counted_panel_hours where display_id = :display
                                order by at desc, id desc limit 1) as hours_now
                        from counted_baseline b
                        where b.preset_id = :preset and upper_inf(b.during)
                        """)
                .param("preset", preset.presetId())
                .param("display", preset.displayId())
                .query((row, n) -> new Calibrated(
                        Rows.id(row, "run_id"),
                        Rows.instant(row, "since"),
                        Rows.doubleOrNull(row, "panel_hours"),
                        Rows.doubleOrNull(row, "hours_now")))
                .optional();
    }

    /** How long a calibration of the preset lasts. */
    Lasting lasting(PresetFacts preset) {
        return jdbc.sql("""
                        select recalibration_days, recalibration_panel_hours from tolerance_set_revision
                        where tolerance_set_id = :set and revision = :revision
                        """)
                .param("set", preset.toleranceSetId())
                .param("revision", preset.toleranceSetRevision())
                .query((row, n) -> new Lasting(
                        Rows.intOrNull(row, "recalibration_days"), Rows.intOrNull(row, "recalibration_panel_hours")))
                .single();
    }

    /** How far black may rise above the baseline's, cd/m². */
    double blackTolerance(PresetFacts preset) {
        return jdbc.sql("""
                        select limit_value from tolerance
                        where tolerance_set_id = :set and revision = :revision and metric = :metric
                        """)
                .param("set", preset.toleranceSetId())
                .param("revision", preset.toleranceSetRevision())
                .param("metric", Metric.OWN_DRIFT_BLACK.toString())
                .query(Double.class)
                .optional()
                .orElse(BLACK_TOLERANCE);
    }
}
