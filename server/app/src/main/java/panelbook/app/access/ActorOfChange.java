package panelbook.app.access;

import java.time.Clock;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.stereotype.Component;
import org.springframework.transaction.TransactionExecution;
import org.springframework.transaction.TransactionExecutionListener;
import panelbook.app.database.Rows;

/**
 * Tells the database at the start of each writing transaction who makes the changes and when, for its histories, and to plan each
 * statement once: those of a change join many tables and find few rows by their keys, so that planning them for each
 * request took longer than running them. Lists run outside of writing transactions: their filters deserve plans.
 */
@Component
class ActorOfChange implements TransactionExecutionListener {

    private static final String SERVICE = "service";
    private static final String SETTINGS =
            "select set_config('panelbook.actor', ?, true), set_config('panelbook.now', ?, true),"
                    + " set_config('plan_cache_mode', 'force_generic_plan', true)";

    private final JdbcTemplate jdbc;
    private final Clock clock;

    ActorOfChange(JdbcTemplate jdbc, Clock clock) {
        this.jdbc = jdbc;
        this.clock = clock;
    }

    @Override
    public void afterBegin(TransactionExecution transaction, @Nullable Throwable failure) {
        if (failure == null && !transaction.isReadOnly()) {
            var actor = Caller.find().map(Caller::actor).orElse(SERVICE);
            jdbc.query(SETTINGS, row -> {}, actor, Rows.kept(clock.instant()).toString());
        }
    }
}
