package panelbook.app.alerts;

import java.time.Clock;
import java.util.Collection;
import java.util.List;
import java.util.UUID;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Propagation;
import org.springframework.transaction.annotation.Transactional;
import panelbook.wire.AlertEvent;
import panelbook.wire.AlertEventKind;

/** The history of alerts, for those who tell people of it. */
@Component
public class AlertHistory {

    private static final String BY = "service";

    private final AlertLog log;
    private final JdbcClient jdbc;
    private final Clock clock;

    AlertHistory(AlertLog log, JdbcClient jdbc, Clock clock) {
        this.log = log;
        this.jdbc = jdbc;
        this.clock = clock;
    }

    /** The events of some sequence numbers, oldest first. */
    public List<AlertEvent> events(Collection<Long> sequences) {
        return log.at(sequences);
    }

    /** Takes the lock that adding needs, until the transaction ends. */
    @Transactional(propagation = Propagation.MANDATORY)
    public void lock() {
        log.lock();
    }

    /** Adds that people are told again, or others are told; the alert itself stays as it is. The lock must be held. */
    @Transactional(propagation = Propagation.MANDATORY)
    public void add(UUID alertId, AlertEventKind kind, String note) {
        jdbc.sql("select headline, detail from alert where id = :id")
                .param("id", alertId)
                .query(row -> {
                    log.append(
                            alertId,
                            kind,
                            clock.instant(),
                            BY,
                            note,
                            row.getString("headline"),
                            row.getString("detail"));
                });
    }
}
