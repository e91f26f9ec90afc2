package panelbook.app.notifying;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Clock;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;
import panelbook.app.alerts.AlertHistory;
import panelbook.app.database.Rows;
import panelbook.app.rest.Words;
import panelbook.wire.AlertEvent;
import panelbook.wire.ChannelKind;
import panelbook.wire.MessageKind;

/**
 * Makes messages of what waits for a channel: one of each notification, or one of all where there are more than the
 * facility wants at once. While a message of the channel has not arrived, nothing more is packed, so that what gathers
 * while a receiver is down comes as one summary when it is back.
 */
@Component
class Packing {

    /** As many events as one summary lists; more wait for the next. */
    private static final int MOST = 500;

    private final JdbcClient jdbc;
    private final Messages messages;
    private final AlertHistory history;
    private final SettingsBook settings;
    private final CloudEventWriter cloudEvents;
    private final MailWriter mails;
    private final Clock clock;

    Packing(
            JdbcClient jdbc,
            Messages messages,
            AlertHistory history,
            SettingsBook settings,
            CloudEventWriter cloudEvents,
            MailWriter mails,
            Clock clock) {
        this.jdbc = jdbc;
        this.messages = messages;
        this.history = history;
        this.settings = settings;
        this.cloudEvents = cloudEvents;
        this.mails = mails;
        this.clock = clock;
    }

    /** Packs what waits for a channel, if anything is due and nothing is on its way. */
    @Transactional
    void pack(UUID channelId) {
        // the lock keeps an instance out whose turn ended unnoticed
        var channel = jdbc.sql("select kind from channel where id = :id and retired_at is null for no key update")
                .param("id", channelId)
                .query(String.class)
                .optional()
                .map(word -> Words.of(ChannelKind.class, word))
                .orElse(null);
        if (channel == null) {
            leaveOut(channelId);
            return;
        }
        if (messages.anyOpen(channelId)) {
            return;
        }
        var waiting = waiting(channelId);
        var now = clock.instant();
        if (waiting.stream().noneMatch(one -> !one.notBefore().isAfter(now))) {
            return;
        }
        groups(waiting).forEach((group, members) -> pack(channelId, channel, group, members));
    }

    private List<Waiting> waiting(UUID channelId) {
        var rows = jdbc.sql("""
                        select * from notification where channel_id = :channel and state = 'waiting'
                        order by event_seq limit :most for update
                        """)
                .param("channel", channelId)
                .param("most", MOST)
                .query(Row::of)
                .list();
        Map<Long, AlertEvent> events = history
                .events(rows.stream().map(Row::sequence).toList())
                .stream()
                .collect(Collectors.toMap(AlertEvent::sequence, Function.identity()));
        return rows.stream()
                .map(row -> new Waiting(row, java.util.Objects.requireNonNull(events.get(row.sequence()))))
                .toList();
    }

    private static Map<Group, List<Waiting>> groups(List<Waiting> waiting) {
        return waiting.stream()
                .collect(Collectors.groupingBy(
                        one -> new Group(
                                one.event().facilityId(),
                                one.row().afterQuiet() ? one.row().quietId() : null),
                        LinkedHashMap::new,
                        Collectors.toList()));
    }

    private void pack(UUID channelId, ChannelKind kind, Group group, List<Waiting> members) {
        if (group.quietId() != null) {
            add(channelId, kind, MessageKind.AFTER_QUIET, members);
        } else if (members.size() > settings.of(group.facilityId()).summaryOver()) {
            add(channelId, kind, MessageKind.SUMMARY, members);
        } else {
            members.forEach(one -> add(channelId, kind, MessageKind.ALERT, List.of(one)));
        }
    }

    private void add(UUID channelId, ChannelKind channelKind, MessageKind kind, List<Waiting> members) {
        var id = UUID.randomUUID();
        var told = new ArrayList<Told>();
        members.forEach(
                one -> told.add(new Told(one.row().id(), one.event(), one.row().why())));
        var text = channelKind == ChannelKind.EMAIL
                ? mails.text(channelId, kind, told)
                : cloudEvents.text(id, kind, told, clock.instant());
        messages.add(id, channelId, kind, text.heading(), text.body(), text.inReplyTo());
        jdbc.sql("update notification set state = 'in-message', message_id = :message where id = any (:ids)")
                .param("message", id)
                .param("ids", members.stream().map(one -> one.row().id()).toArray(UUID[]::new))
                .update();
    }

    private void leaveOut(UUID channelId) {
        jdbc.sql("""
                        update notification set state = 'left-out', why = 'The channel was retired.'
                        where channel_id = :channel and state in ('waiting', 'quiet')
                        """).param("channel", channelId).update();
        jdbc.sql("select m.id from message m where m.channel_id = :channel and " + Messages.OPEN)
                .param("channel", channelId)
                .query(UUID.class)
                .list()
                .forEach(id -> messages.giveUp(id, "The channel was retired.", clock.instant()));
    }

    private record Group(
            @Nullable UUID facilityId, @Nullable UUID quietId) {}

    private record Waiting(Row row, AlertEvent event) {

        java.time.Instant notBefore() {
            return row.notBefore();
        }
    }

    private record Row(
            UUID id,
            long sequence,
            String why,
            @Nullable UUID quietId,
            boolean afterQuiet,
            java.time.Instant notBefore) {

        static Row of(ResultSet row, int n) throws SQLException {
            return new Row(
                    Rows.id(row, "id"),
                    row.getLong("event_seq"),
                    row.getString("why"),
                    Rows.idOrNull(row, "quiet_id"),
                    row.getBoolean("after_quiet"),
                    Rows.instant(row, "not_before"));
        }
    }
}
