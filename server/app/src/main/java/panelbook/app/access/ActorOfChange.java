package panelbook.app.access;

import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.stereotype.Component;
import org.springframework.transaction.TransactionExecution;
import org.springframework.transaction.TransactionExecutionListener;

/** Tells the database at the start of each writing transaction who makes the changes, for its audit log. */
@Component
class ActorOfChange implements TransactionExecutionListener {

    private static final String SERVICE = "service";

    private final JdbcTemplate jdbc;

    ActorOfChange(JdbcTemplate jdbc) {
        this.jdbc = jdbc;
    }

    @Override
    public void afterBegin(TransactionExecution transaction, @Nullable Throwable failure) {
        if (failure == null && !transaction.isReadOnly()) {
            var actor = Caller.find().map(Caller::actor).orElse(SERVICE);
            jdbc.query("select set_config('panelbook.actor', ?, true)", row -> {}, actor);
        }
    }
}
