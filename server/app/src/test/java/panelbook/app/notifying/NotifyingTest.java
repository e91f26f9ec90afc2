package panelbook.app.notifying;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.springframework.beans.factory.annotation.Autowired;
import panelbook.app.testing.ServiceTest;
import panelbook.app.testing.Studio;
import panelbook.wire.AlertNotification;
import panelbook.wire.Channel;
import panelbook.wire.ChannelDraft;
import panelbook.wire.ChannelKind;
import panelbook.wire.Delivery;
import panelbook.wire.NewChannel;
import panelbook.wire.NotificationSettingsDraft;
import panelbook.wire.Purpose;
import panelbook.wire.Retirement;
import tools.jackson.databind.json.JsonMapper;

/** A studio whose alerts are told by channels of its own; nothing is sent but when the test says so. */
abstract class NotifyingTest extends ServiceTest {

    private static final JsonMapper JSON = new JsonMapper();

    @Autowired
    protected Dispatcher dispatcher;

    protected Studio studio;
    private final List<UUID> added = new ArrayList<>();

    @BeforeEach
    void enterAStudio() {
        studio = new Studio(engineer(), unique("studio"));
        set(new NotificationSettingsDraft(240, 1440, 5, 30));
    }

    @AfterEach
    void retireChannels() {
        added.forEach(id -> engineer().post("/channels/" + id + "/retirement", new Retirement("test over")));
    }

    protected void set(NotificationSettingsDraft draft) {
        var path = "/facilities/" + studio.facility() + "/notification-settings";
        engineer().put(path, draft, engineer().get(path).expect(200).etag()).expect(200);
    }

    protected NewChannel webhook(Receiver receiver) {
        return add(webhookDraft(receiver.url(), false));
    }

    protected ChannelDraft webhookDraft(String url, boolean escalationsOnly) {
        return new ChannelDraft(
                UUID.randomUUID(),
                unique("webhook"),
                ChannelKind.WEBHOOK,
                studio.facility(),
                List.of(),
                escalationsOnly,
                List.of(),
                url);
    }

    protected NewChannel add(ChannelDraft draft) {
        added.add(draft.id());
        return engineer().post("/channels", draft).expect(201).as(NewChannel.class);
    }

    protected Channel channel(UUID id) {
        return engineer().get("/channels/" + id).expect(200).as(Channel.class);
    }

    protected List<Delivery> deliveries(UUID channel) {
        return engineer().all("/channels/" + channel + "/deliveries", Delivery.class);
    }

    protected List<AlertNotification> notifications(UUID alert) {
        return engineer().get("/alerts/" + alert + "/notifications").expect(200).asListOf(AlertNotification.class);
    }

    /** A display that does not meet its target. */
    protected UUID openAlert() {
        return offTarget(studio.display(unique("Display"), "lcd"), 0.5);
    }

    /** Leaves a preset at a share of its aim; the alert that tells of it. */
    protected UUID offTarget(UUID preset, double share) {
        var now = clock.advance(Duration.ofSeconds(1));
        return studio.upload(studio.run(preset, Purpose.AS_LEFT, now, Studio.dimmed(share)))
                .alerts()
                .get(0)
                .alertId();
    }

    /** Sends all that is due now. */
    protected void send() {
        try {
            dispatcher.serveDue().get(60, TimeUnit.SECONDS);
        } catch (Exception e) {
            throw new AssertionError("sending did not end", e);
        }
    }

    protected void sendAfter(Duration time) {
        clock.advance(time);
        send();
    }

    /** Sends when the time of gathering is over. */
    protected void sendGathered() {
        sendAfter(Duration.ofSeconds(31));
    }

    /** The events and causes that a receiver was told of in turn; due dates apart. */
    protected static List<String> told(Receiver receiver) {
        return receiver.taken.stream()
                .flatMap(request -> JSON.readTree(request.body())
                        .path("data")
                        .path("notifications")
                        .valueStream())
                .map(one -> one.path("event"))
                .map(event -> event.path("kind").asString() + " "
                        + event.path("cause").asString())
                .filter(event -> !event.endsWith("recalibration-due"))
                .toList();
    }
}
