package panelbook.app.runs;

import java.sql.ResultSet;
import java.sql.SQLException;
import org.jspecify.annotations.Nullable;
import panelbook.app.database.Rows;
import panelbook.wire.Withdrawal;

/** Withdrawals as columns of other rows. */
public final class WithdrawalRows {

    private WithdrawalRows() {}

    /**
     * The withdrawal in a row with the columns {@code withdrawn_because}, {@code withdrawn_at}, {@code withdrawn_by} and
     * {@code replaced_by}; null when they are.
     */
    public static @Nullable Withdrawal withdrawal(ResultSet row) throws SQLException {
        var at = Rows.instantOrNull(row, "withdrawn_at");
        return at == null
                ? null
                : new Withdrawal(
                        row.getString("withdrawn_because"),
                        at,
                        row.getString("withdrawn_by"),
                        Rows.idOrNull(row, "replaced_by"));
    }
}
