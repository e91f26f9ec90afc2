package panelbook.app.runs;

import java.sql.ResultSet;
import java.sql.SQLException;
import panelbook.app.database.Rows;
import panelbook.app.rest.Words;
import panelbook.wire.Purpose;
import panelbook.wire.Run;

/** Rows of the run table as values. */
final class RunRows {

    /** Runs with all that {@link #wire} needs. */
    static final String SELECT = """
            select r.*, i.name as instrument,
                   %s as path,
                   exists (select 1 from counted_baseline b where b.run_id = r.id) as baseline,
                   rw.reason as withdrawn_because, rw.withdrawn_at, rw.withdrawn_by, rw.replaced_by
            from run r
            left join run_withdrawal rw on rw.run_id = r.id
            join instrument i on i.id = r.instrument_id
            %s
            """.formatted(PresetPath.expression(""), PresetPath.joins("", "r.preset_id"));

    private RunRows() {}

    static StoredRun stored(ResultSet row) throws SQLException {
        return new StoredRun(
                Rows.id(row, "id"),
                Rows.id(row, "preset_id"),
                Rows.id(row, "instrument_id"),
                Words.of(Purpose.class, row.getString("purpose")),
                Rows.instant(row, "taken_at"),
                Rows.instant(row, "received_at"),
                Rows.doubleOrNull(row, "panel_hours"),
                Rows.booleanOrNull(row, "warmed_up"),
                row.getInt("reading_count"));
    }

    /** Of a query that also holds preset path, instrument name and whether the run is a baseline. */
    static Run wire(ResultSet row) throws SQLException {
        return new Run(
                Rows.id(row, "id"),
                Rows.id(row, "preset_id"),
                Rows.id(row, "instrument_id"),
                row.getString("path"),
                row.getString("instrument"),
                Words.of(Purpose.class, row.getString("purpose")),
                row.getString("operator"),
                Rows.instant(row, "taken_at"),
                Rows.doubleOrNull(row, "panel_hours"),
                Rows.intOrNull(row, "minutes_since_power_on"),
                Rows.doubleOrNull(row, "ambient_illuminance_lux"),
                row.getString("file_name"),
                row.getString("remarks"),
                Rows.booleanOrNull(row, "warmed_up"),
                row.getInt("reading_count"),
                row.getBoolean("baseline"),
                Rows.instant(row, "received_at"),
                row.getString("received_from"),
                WithdrawalRows.withdrawal(row));
    }
}
