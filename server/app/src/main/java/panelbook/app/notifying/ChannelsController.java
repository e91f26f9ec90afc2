package panelbook.app.notifying;

import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.PutMapping;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.RequestHeader;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.bind.annotation.RestController;
import panelbook.app.rest.Adds;
import panelbook.app.rest.Etags;
import panelbook.app.rest.Paging;
import panelbook.wire.AlertNotification;
import panelbook.wire.Channel;
import panelbook.wire.ChannelDraft;
import panelbook.wire.ChannelTrial;
import panelbook.wire.Delivery;
import panelbook.wire.NewChannel;
import panelbook.wire.NotificationSettings;
import panelbook.wire.NotificationSettingsDraft;
import panelbook.wire.Page;
import panelbook.wire.Retirement;

/** Channels, what was sent through them, and when people of a facility are told. */
@RestController
class ChannelsController {

    private static final String CHANNELS = "/api/v1/channels";
    private static final String SETTINGS = "/api/v1/facilities/{id}/notification-settings";

    private final Channels channels;
    private final Deliveries deliveries;
    private final SettingsBook settings;

    ChannelsController(Channels channels, Deliveries deliveries, SettingsBook settings) {
        this.channels = channels;
        this.deliveries = deliveries;
        this.settings = settings;
    }

    /** Adds a channel; the secret of a webhook is in this answer and nowhere else. */
    @Adds
    @PostMapping(CHANNELS)
    ResponseEntity<NewChannel> addChannel(@RequestBody ChannelDraft draft) {
        var added = channels.add(draft);
        return added.at(CHANNELS + "/" + draft.id(), added.body().channel().version());
    }

    /** Channels by name. */
    @GetMapping(CHANNELS)
    Page<Channel> listChannels(
            @RequestParam(required = false) @Nullable String name,
            @RequestParam(defaultValue = "false") boolean retired,
            Paging paging) {
        return channels.page(name, retired, paging);
    }

    /** One channel. */
    @GetMapping(CHANNELS + "/{id}")
    ResponseEntity<Channel> getChannel(@PathVariable UUID id) {
        return withEtag(channels.get(id));
    }

    /** Edits a channel. */
    @PutMapping(CHANNELS + "/{id}")
    ResponseEntity<Channel> editChannel(
            @PathVariable UUID id,
            @RequestBody ChannelDraft draft,
            @RequestHeader(name = "If-Match", required = false) @Nullable String ifMatch) {
        return withEtag(channels.edit(id, draft, Etags.expected(ifMatch)));
    }

    /** Takes a channel out of use; what waits for it is not sent any more. */
    @PostMapping(CHANNELS + "/{id}/retirement")
    Channel retireChannel(@PathVariable UUID id, @RequestBody Retirement retirement) {
        return channels.retire(id, retirement);
    }

    /** Sends a message that tells nothing, at once and once. */
    @PostMapping(CHANNELS + "/{id}/test")
    ChannelTrial testChannel(@PathVariable UUID id) {
        return deliveries.test(id);
    }

    /** Messages of a channel, newest first. */
    @GetMapping(CHANNELS + "/{id}/deliveries")
    Page<Delivery> listDeliveries(@PathVariable UUID id, Paging paging) {
        return deliveries.of(id, paging);
    }

    /** Who was told of an alert, who was not, and why. */
    @GetMapping("/api/v1/alerts/{id}/notifications")
    List<AlertNotification> listAlertNotifications(@PathVariable UUID id) {
        return deliveries.about(id);
    }

    /** When people of a facility are told of its alerts. */
    @GetMapping(SETTINGS)
    ResponseEntity<NotificationSettings> getNotificationSettings(@PathVariable UUID id) {
        return withEtag(settings.get(id));
    }

    /** Sets when people of a facility are told. */
    @PutMapping(SETTINGS)
    ResponseEntity<NotificationSettings> editNotificationSettings(
            @PathVariable UUID id,
            @RequestBody NotificationSettingsDraft draft,
            @RequestHeader(name = "If-Match", required = false) @Nullable String ifMatch) {
        return withEtag(settings.edit(id, draft, Etags.expected(ifMatch)));
    }

    private static ResponseEntity<Channel> withEtag(Channel channel) {
        return ResponseEntity.ok().eTag(Etags.of(channel.version())).body(channel);
    }

    private static ResponseEntity<NotificationSettings> withEtag(NotificationSettings shown) {
        return ResponseEntity.ok().eTag(Etags.of(shown.version())).body(shown);
    }
}
