package panelbook.app.notifying;

import java.sql.Array;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Clock;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;
import panelbook.app.database.Rows;
import panelbook.app.rest.Words;
import panelbook.wire.ChannelKind;
import panelbook.wire.MessageKind;

/** All messages, sent and to be sent, and each attempt to send one. */
@Component
class Messages {

    /** A message that is tried again and again by itself; those that only try a channel are not. */
    static final String OPEN = "m.delivered_at is null and m.given_up_at is null and m.kind <> 'test'";

    /** After so many answers that the receiver will not take it, a message is given up: it must not hold back others. */
    private static final int REFUSALS = 5;

    private static final Logger LOG = LoggerFactory.getLogger(Messages.class);

    private static final String OUTGOING = """
            select m.*, c.kind as channel_kind, c.name as channel, c.addresses, c.url, s.secret
            from message m join channel c on c.id = m.channel_id left join channel_secret s on s.channel_id = c.id
            """;

    private final JdbcClient jdbc;
    private final NotifyingRules rules;
    private final Clock clock;

    Messages(JdbcClient jdbc, NotifyingRules rules, Clock clock) {
        this.jdbc = jdbc;
        this.rules = rules;
        this.clock = clock;
    }

    /** Channels that have something to send now. */
    List<UUID> dueChannels() {
        return jdbc.sql("""
                        select w.id from (
                            select channel_id as id from notification where state = 'waiting' and not_before <= :now
                            union
                            select channel_id from message m where %s) w
                        left join lateral (select m.not_before from message m where m.channel_id = w.id and %s
                                           order by m.seq limit 1) first on true
                        where first.not_before is null or first.not_before <= :now
                        """.formatted(OPEN, OPEN))
                .param("now", Rows.at(clock.instant()))
                .query(UUID.class)
                .list();
    }

    void add(UUID id, UUID channelId, MessageKind kind, String heading, String body, @Nullable String inReplyTo) {
        jdbc.sql("""
                        insert into message (id, channel_id, kind, heading, body, in_reply_to, created_at, not_before)
                        values (:id, :channel, :kind, :heading, :body, :reply, :now, :now)
                        """)
                .param("id", id)
                .param("channel", channelId)
                .param("kind", kind.toString())
                .param("heading", heading)
                .param("body", body)
                .param("reply", inReplyTo)
                .param("now", Rows.at(clock.instant()))
                .update();
    }

    /** Whether messages of a channel have not arrived yet. */
    boolean anyOpen(UUID channelId) {
        return jdbc.sql("select exists (select from message m where m.channel_id = :channel and " + OPEN + ")")
                .param("channel", channelId)
                .query(Boolean.class)
                .single();
    }

    /** The oldest message of a channel that did not arrive yet, when its time has come. */
    Optional<Outgoing> next(UUID channelId) {
        return jdbc.sql("select * from (" + OUTGOING + " where m.channel_id = :channel and " + OPEN
                        + " order by m.seq limit 1) f where f.not_before <= :now")
                .param("channel", channelId)
                .param("now", Rows.at(clock.instant()))
                .query(Messages::outgoing)
                .optional();
    }

    Outgoing get(UUID messageId) {
        return jdbc.sql(OUTGOING + " where m.id = :id")
                .param("id", messageId)
                .query(Messages::outgoing)
                .single();
    }

    /** Writes down what came of an attempt, and when to try again. */
    @Transactional
    void record(Outgoing message, Answer answer) {
        var now = clock.instant();
        var attempt = jdbc.sql("""
                        update message set attempts = attempts + 1, taken = taken || :taken where id = :id
                        returning attempts
                        """)
                .param("taken", answer.taken().toArray(new String[0]))
                .param("id", message.id())
                .query(Integer.class)
                .single();
        jdbc.sql("""
                        insert into message_attempt (message_id, attempt, at, delivered, answer)
                        values (:id, :attempt, :now, :delivered, :answer)
                        """)
                .param("id", message.id())
                .param("attempt", attempt)
                .param("now", Rows.at(now))
                .param("delivered", answer.delivered())
                .param("answer", answer.text())
                .update();
        if (answer.delivered()) {
            delivered(message.id(), now);
        } else if (over(message, answer, attempt, now)) {
            LOG.error(
                    "Message {} was given up after {} attempts: see the deliveries of its channel",
                    message.id(),
                    attempt);
            giveUp(message.id(), answer.text(), now);
        } else {
            tryAgain(message, answer, attempt, now);
        }
    }

    private boolean over(Outgoing message, Answer answer, int attempts, Instant now) {
        var refused = answer.result() == Answer.Result.REFUSED && attempts >= REFUSALS;
        return refused || !now.isBefore(message.createdAt().plus(rules.giveUpAfter()));
    }

    private void delivered(UUID id, Instant now) {
        jdbc.sql(
                        "update message set delivered_at = :now where id = :id and delivered_at is null and given_up_at is null")
                .param("id", id)
                .param("now", Rows.at(now))
                .update();
    }

    /** Nobody tries it any more. */
    void giveUp(UUID id, String error, Instant now) {
        jdbc.sql("""
                        update message set given_up_at = :now, last_error = :error
                        where id = :id and delivered_at is null and given_up_at is null
                        """)
                .param("id", id)
                .param("now", Rows.at(now))
                .param("error", error)
                .update();
    }

    private void tryAgain(Outgoing message, Answer answer, int attempts, Instant now) {
        var wait = Backoff.after(attempts, message.id(), rules.firstRetry(), rules.longestRetry());
        var asked = answer.retryAfter();
        var pause = asked != null && asked.compareTo(wait) > 0 ? asked : wait;
        jdbc.sql("""
                        update message set not_before = :then, last_error = :error
                        where id = :id and delivered_at is null and given_up_at is null
                        """)
                .param("id", message.id())
                .param("then", Rows.at(now.plus(pause)))
                .param("error", answer.text())
                .update();
    }

    private static Outgoing outgoing(ResultSet row, int n) throws SQLException {
        return new Outgoing(
                Rows.id(row, "id"),
                Words.of(ChannelKind.class, row.getString("channel_kind")),
                left(row),
                row.getString("url"),
                row.getBytes("secret"),
                row.getString("heading"),
                row.getString("body"),
                row.getString("in_reply_to"),
                Rows.instant(row, "created_at"),
                row.getInt("attempts"));
    }

    private static List<String> left(ResultSet row) throws SQLException {
        var taken = texts(row.getArray("taken"));
        return texts(row.getArray("addresses")).stream()
                .filter(address -> !taken.contains(address))
                .toList();
    }

    static List<String> texts(Array array) throws SQLException {
        return List.of((String[]) array.getArray());
    }
}
