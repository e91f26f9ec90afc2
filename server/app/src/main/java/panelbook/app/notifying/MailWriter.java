package panelbook.app.notifying;

import java.time.Instant;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.List;
import java.util.Locale;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import panelbook.app.database.Rows;
import panelbook.wire.AlertCause;
import panelbook.wire.AlertEvent;
import panelbook.wire.AlertEventKind;
import panelbook.wire.MessageKind;

/** Writes messages as plain text for people: what, where, since when, what to do, how to see more. */
@Component
class MailWriter {

    private static final DateTimeFormatter TIME = DateTimeFormatter.ofPattern("yyyy-MM-dd HH:mm", Locale.ROOT);

    private static final String CAUTION = """
            Take care: bright still patches age emissive panels, so keep them short; flashing ones can harm
            photosensitive viewers. Cabinets are opened by qualified service staff only.
            """;

    private final JdbcClient jdbc;

    MailWriter(JdbcClient jdbc) {
        this.jdbc = jdbc;
    }

    MessageText text(UUID channelId, MessageKind kind, List<Told> told) {
        return kind == MessageKind.ALERT ? single(channelId, told.get(0)) : list(kind, told);
    }

    private MessageText single(UUID channelId, Told told) {
        var event = told.event();
        var text = new StringBuilder();
        line(text, "What", event.headline());
        line(text, "Where", event.subject());
        line(text, "Since", since(event));
        line(text, "Now", Headings.lead(event.kind()) + (event.note() == null ? "" : ": " + event.note()));
        line(text, "Told", told.why());
        if (event.kind() != AlertEventKind.CLOSED) {
            text.append("\nWhat to do: ").append(advice(event)).append('\n');
            line(text, "In hand", "panelbook alert ack " + event.alertId() + " --note \"what you do about it\"");
        }
        line(text, "See more", "panelbook alert show " + event.alertId());
        if (touchesAPanel(event.cause()) && event.kind() != AlertEventKind.CLOSED) {
            text.append('\n').append(CAUTION);
        }
        return new MessageText(
                Headings.of(MessageKind.ALERT, List.of(told)),
                text.toString(),
                firstMessage(channelId, event.alertId()));
    }

    private MessageText list(MessageKind kind, List<Told> told) {
        var heading = Headings.of(kind, told);
        var text = new StringBuilder(heading).append('\n');
        for (var one : told) {
            var event = one.event();
            text.append("\n* ")
                    .append(Headings.lead(event.kind()))
                    .append(": ")
                    .append(event.headline())
                    .append("\n  ")
                    .append(event.subject())
                    .append(", since ")
                    .append(since(event))
                    .append("\n  panelbook alert show ")
                    .append(event.alertId())
                    .append('\n');
        }
        text.append("\nAll that is open: panelbook alert list\n");
        if (told.stream().anyMatch(one -> touchesAPanel(one.event().cause()))) {
            text.append('\n').append(CAUTION);
        }
        return new MessageText(heading, text.toString(), null);
    }

    /** When the alert opened, in the time of its room. */
    private String since(AlertEvent event) {
        return jdbc.sql("""
                        select a.opened_at, coalesce(r.time_zone, f.time_zone, 'UTC') as zone
                        from alert a left join room r on r.id = a.room_id left join facility f on f.id = a.facility_id
                        where a.id = :id
                        """)
                .param("id", event.alertId())
                .query((row, n) -> local(Rows.instant(row, "opened_at"), row.getString("zone")))
                .single();
    }

    private static String local(Instant at, String zone) {
        return TIME.format(at.atZone(ZoneId.of(zone))) + " (" + zone + ")";
    }

    /** The message of this channel that told of the alert first: mails of one alert make one thread. */
    private @Nullable String firstMessage(UUID channelId, UUID alertId) {
        return jdbc.sql("""
                        select m.id::text from notification n join message m on m.id = n.message_id
                        where n.channel_id = :channel and n.alert_id = :alert order by m.seq limit 1
                        """).param("channel", channelId).param("alert", alertId).query(String.class).list().stream()
                .findFirst()
                .orElse(null);
    }

    private static void line(StringBuilder text, String what, String value) {
        text.append(String.format(Locale.ROOT, "%-9s %s%n", what + ":", value));
    }

    private static String advice(AlertEvent event) {
        return switch (event.cause()) {
            case MOVED -> "measure it again on a warm display before its next session; if it stands, plan a visit.";
            case OFF_TARGET -> "rule out the signal path, then have it calibrated before critical work.";
            case RECALIBRATION_DUE -> "plan a visit.";
            case CERTIFICATE_EXPIRED -> "have the meter certified, or measure with another one.";
            case MATCH_IN_QUESTION -> "look at the pair with the operator and sign the match off anew.";
            // only a meter is of no facility
            case STEPPED ->
                event.facilityId() == null
                        ? "have the meter checked, and measure one of the displays with another one."
                        : "ask who was in the menu or at the feed at that time, then measure again.";
        };
    }

    private static boolean touchesAPanel(AlertCause cause) {
        return switch (cause) {
            case MOVED, OFF_TARGET, RECALIBRATION_DUE, STEPPED -> true;
            case CERTIFICATE_EXPIRED, MATCH_IN_QUESTION -> false;
        };
    }
}
