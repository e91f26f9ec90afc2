package panelbook.app.database;

import java.time.Instant;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.function.Supplier;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.PlatformTransactionManager;
import org.springframework.transaction.TransactionDefinition;
import org.springframework.transaction.support.TransactionSynchronizationManager;
import org.springframework.transaction.support.TransactionTemplate;
import panelbook.app.rest.AnswersAsOf;
import panelbook.app.rest.Refusal;

/**
 * Asks the book as it stood at a moment. The same code that answers now answers then: within the question the names of tables mean their
 * state at that moment (the views of the schema as_of), and it is that moment to the clock.
 *
 * <p>Changes count from the moment at which their transaction began. An answer that was given while one was being committed may
 * therefore lack what is found later as of that moment; that is a matter of milliseconds.
 */
@Component
public class AsOf {

    // the schema of the present is not on the path: what has no history is an error there, not the state of today
    private static final String LOOK_BACK =
            "select set_config('search_path', 'as_of', true), set_config('panelbook.as_of', :moment, true)";

    private final BookClock clock;
    private final JdbcClient jdbc;
    private final TransactionTemplate transactions;

    AsOf(BookClock clock, JdbcClient jdbc, PlatformTransactionManager manager) {
        this.clock = clock;
        this.jdbc = jdbc;
        this.transactions = new TransactionTemplate(manager);
        transactions.setReadOnly(true);
        transactions.setIsolationLevel(TransactionDefinition.ISOLATION_REPEATABLE_READ);
    }

    /**
     * The answer to a question as of a moment. The question may only read, all of it in this thread.
     *
     * @param moment to the microsecond, which is what the book keeps
     * @throws Refusal when the moment lies ahead, or before the book keeps every version
     */
    public <T> T at(Instant moment, Supplier<T> question) {
        return at(List.of(moment), question).get(0);
    }

    /**
     * The answers to one question as of several moments, in their order, all from the same state of the histories.
     *
     * @throws Refusal as {@link #at(Instant, Supplier)}
     */
    public <T> List<T> at(List<Instant> moments, Supplier<T> question) {
        if (TransactionSynchronizationManager.isActualTransactionActive()) {
            throw new IllegalStateException("A transaction sees one state of the book: ask before it begins");
        }
        var now = clock.instant();
        if (moments.stream().anyMatch(moment -> moment.isAfter(now))) {
            throw Refusal.invalid(AnswersAsOf.PARAMETER, "That moment lies ahead: the book knows only what was.");
        }
        return transactions.execute(status -> {
            moments.stream().min(Comparator.naturalOrder()).ifPresent(this::refuseBefore);
            return moments.stream()
                    .map(moment -> clock.at(moment, () -> {
                        jdbc.sql(LOOK_BACK)
                                .param("moment", Rows.kept(moment).toString())
                                .query(row -> {});
                        return question.get();
                    }))
                    .toList();
        });
    }

    /** The moment from which on the book keeps every version; empty when it always did. */
    public Optional<Instant> beginning() {
        return jdbc.sql("select at from history.beginning where at > '-infinity'")
                .query((row, n) -> Rows.instant(row, "at"))
                .optional();
    }

    private void refuseBefore(Instant moment) {
        beginning().filter(moment::isBefore).ifPresent(beginning -> {
            throw Refusal.invalid(
                    AnswersAsOf.PARAMETER,
                    "The book tells how it stood only from " + beginning + " on: ask of a later moment.");
        });
    }
}
