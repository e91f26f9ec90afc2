package panelbook.app.notifying;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Clock;
import java.util.Arrays;
import java.util.List;
import java.util.UUID;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import panelbook.app.database.Rows;
import panelbook.app.rest.Paging;
import panelbook.app.rest.Refusal;
import panelbook.app.rest.Words;
import panelbook.wire.AlertEventKind;
import panelbook.wire.AlertNotification;
import panelbook.wire.ChannelKind;
import panelbook.wire.ChannelTrial;
import panelbook.wire.Delivery;
import panelbook.wire.MessageKind;
import panelbook.wire.NotificationState;
import panelbook.wire.Page;

/** What was sent, and what became of it; and trying a channel. */
@Component
public class Deliveries {

    private final JdbcClient jdbc;
    private final Channels channels;
    private final Messages messages;
    private final Dispatcher dispatcher;
    private final CloudEventWriter cloudEvents;
    private final Clock clock;

    Deliveries(
            JdbcClient jdbc,
            Channels channels,
            Messages messages,
            Dispatcher dispatcher,
            CloudEventWriter cloudEvents,
            Clock clock) {
        this.jdbc = jdbc;
        this.channels = channels;
        this.messages = messages;
        this.dispatcher = dispatcher;
        this.cloudEvents = cloudEvents;
        this.clock = clock;
    }

    /** Sends one message now, once, ahead of all others, and says what came of it. */
    ChannelTrial test(UUID channelId) {
        var channel = channels.get(channelId);
        Channels.mustBeInUse(channel);
        var id = UUID.randomUUID();
        var text = channel.kind() == ChannelKind.WEBHOOK
                ? cloudEvents.text(id, MessageKind.TEST, List.of(), clock.instant())
                : new MessageText(
                        Headings.of(MessageKind.TEST, List.of()),
                        "Somebody tried the channel \"" + channel.name() + "\" of Panelbook. There is nothing to do.\n",
                        null);
        messages.add(id, channelId, MessageKind.TEST, text.heading(), text.body(), null);
        var message = messages.get(id);
        var answer = dispatcher.sendNow(message);
        messages.record(message, answer);
        if (!answer.delivered()) {
            messages.giveUp(id, answer.text(), clock.instant());
        }
        return new ChannelTrial(id, answer.delivered(), answer.text());
    }

    /** Messages of a channel, newest first. */
    Page<Delivery> of(UUID channelId, Paging paging) {
        channels.get(channelId);
        var before = paging.parsed(0, Long::valueOf);
        var found = jdbc.sql("""
                        select m.*, array(select distinct n.alert_id from notification n where n.message_id = m.id) as alerts
                        from message m
                        where m.channel_id = :channel and (:before::bigint is null or m.seq < :before)
                        order by m.seq desc limit :fetch
                        """)
                .param("channel", channelId)
                .param("before", before)
                .param("fetch", paging.fetch())
                .query(Numbered::of)
                .list();
        var page = paging.page(found, one -> List.of(Long.toString(one.seq())));
        return new Page<>(page.items().stream().map(Numbered::delivery).toList(), page.next());
    }

    /** Who was told of an alert, who not, and why; oldest first. */
    public List<AlertNotification> about(UUID alertId) {
        if (!Rows.exists(jdbc, "alert", alertId)) {
            throw Refusal.notFound("alert", alertId);
        }
        return jdbc.sql("""
                        select n.*, c.name as channel, e.kind, m.delivered_at, m.given_up_at,
                               case when n.state = 'waiting' then n.not_before
                                    when m.delivered_at is null and m.given_up_at is null then m.not_before end as next
                        from notification n join channel c on c.id = n.channel_id join alert_event e on e.seq = n.event_seq
                        left join message m on m.id = n.message_id
                        where n.alert_id = :alert order by n.event_seq, c.name
                        """)
                .param("alert", alertId)
                .query((row, n) -> new AlertNotification(
                        Rows.id(row, "id"),
                        Rows.id(row, "channel_id"),
                        row.getString("channel"),
                        row.getLong("event_seq"),
                        Words.of(AlertEventKind.class, row.getString("kind")),
                        Words.of(NotificationState.class, row.getString("state")),
                        row.getString("why"),
                        Rows.instant(row, "created_at"),
                        Rows.idOrNull(row, "message_id"),
                        Rows.instantOrNull(row, "next"),
                        Rows.instantOrNull(row, "delivered_at"),
                        Rows.instantOrNull(row, "given_up_at")))
                .list();
    }

    private record Numbered(long seq, Delivery delivery) {

        static Numbered of(ResultSet row, int n) throws SQLException {
            var delivered = Rows.instantOrNull(row, "delivered_at");
            var givenUp = Rows.instantOrNull(row, "given_up_at");
            return new Numbered(
                    row.getLong("seq"),
                    new Delivery(
                            Rows.id(row, "id"),
                            Words.of(MessageKind.class, row.getString("kind")),
                            row.getString("heading"),
                            Arrays.asList((UUID[]) row.getArray("alerts").getArray()),
                            Rows.instant(row, "created_at"),
                            row.getInt("attempts"),
                            delivered == null && givenUp == null ? Rows.instantOrNull(row, "not_before") : null,
                            row.getString("last_error"),
                            delivered,
                            givenUp));
        }
    }
}
