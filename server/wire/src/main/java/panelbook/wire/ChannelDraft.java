package panelbook.wire;

import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * A channel to add or edit.
 *
 * @param name unique
 * @param kind stays as it was added
 * @param facilityId alerts of this facility only; all when null. An alert that belongs to no facility goes to every channel
 * @param causes alerts on these causes only; all when empty
 * @param escalationsOnly to be told only of alerts that nobody acknowledged in time
 * @param addresses of mail, 1 to 50; none for a webhook
 * @param url http or https, where a webhook is sent to; null for mail
 */
public record ChannelDraft(
        UUID id,
        String name,
        ChannelKind kind,
        @Nullable UUID facilityId,
        List<AlertCause> causes,
        boolean escalationsOnly,
        List<String> addresses,
        @Nullable String url) {}
