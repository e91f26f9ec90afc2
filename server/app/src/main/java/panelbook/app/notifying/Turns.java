package panelbook.app.notifying;

import java.util.Optional;
import java.util.UUID;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;

/**
 * Which instance of the service sends to a channel. A turn ends by itself when its instance falls silent; it is measured
 * by the clock of the database, which all instances share. No connection is held meanwhile.
 */
@Component
class Turns {

    private final JdbcClient jdbc;
    private final NotifyingRules rules;

    Turns(JdbcClient jdbc, NotifyingRules rules) {
        this.jdbc = jdbc;
        this.rules = rules;
    }

    /** A turn with a channel; empty while another one lasts. */
    Optional<UUID> take(UUID channelId) {
        var turn = UUID.randomUUID();
        var taken = jdbc.sql("""
                        insert into channel_turn (channel_id, taken_by, until)
                        values (:channel, :turn, clock_timestamp() + make_interval(secs => :secs))
                        on conflict (channel_id) do update set taken_by = excluded.taken_by, until = excluded.until
                        where channel_turn.until <= clock_timestamp()
                        """)
                .param("channel", channelId)
                .param("turn", turn)
                .param("secs", seconds())
                .update();
        return taken == 1 ? Optional.of(turn) : Optional.empty();
    }

    /** Starts the turn's time anew; false when it was lost. */
    boolean renew(UUID channelId, UUID turn) {
        return set(channelId, turn, seconds());
    }

    /** Ends a turn before its time. */
    void end(UUID channelId, UUID turn) {
        set(channelId, turn, 0);
    }

    private boolean set(UUID channelId, UUID turn, double seconds) {
        return jdbc.sql("""
                        update channel_turn set until = clock_timestamp() + make_interval(secs => :secs)
                        where channel_id = :channel and taken_by = :turn
                        """)
                        .param("channel", channelId)
                        .param("turn", turn)
                        .param("secs", seconds)
                        .update()
                == 1;
    }

    private double seconds() {
        return rules.lease().toMillis() / 1000.0;
    }
}
