package panelbook.app.notifying;

import java.time.Duration;
import org.jspecify.annotations.Nullable;
import org.springframework.boot.context.properties.ConfigurationProperties;
import org.springframework.boot.context.properties.bind.DefaultValue;

/**
 * What the house sets for all its facilities, as properties {@code panelbook.notify.*}.
 *
 * @param escalateAfter an alert that nobody acknowledged for so long is escalated; 0 for never
 * @param remindEvery people are told again of an alert that nobody acknowledged; 0 for never
 * @param summaryOver more events at once make one summary
 * @param gather how long events are gathered before the first is told
 * @param lease how long an instance that stopped answering keeps a channel for itself. Too short: a slow receiver gets a
 *     message twice. Too long: after a crash people wait for so long
 * @param attemptTimeout longest time that a receiver may take for one attempt
 * @param firstRetry wait after the first failure, doubled after each
 * @param longestRetry longest wait
 * @param giveUpAfter a message that did not arrive for so long is given up
 * @param source CloudEvents {@code source}, and the domain of the ids of mails
 * @param mailFrom address that mails come from
 */
@ConfigurationProperties("panelbook.notify")
record NotifyingRules(
        @DefaultValue("4h") Duration escalateAfter,
        @DefaultValue("24h") Duration remindEvery,
        @DefaultValue("5") int summaryOver,
        @DefaultValue("30s") Duration gather,
        @DefaultValue("60s") Duration lease,
        @DefaultValue("10s") Duration attemptTimeout,
        @DefaultValue("10s") Duration firstRetry,
        @DefaultValue("1h") Duration longestRetry,
        @DefaultValue("3d") Duration giveUpAfter,
        @DefaultValue("panelbook") String source,
        @Nullable String mailFrom) {}
