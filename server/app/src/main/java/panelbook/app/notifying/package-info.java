/**
 * Tells people of alerts: channels, what is owed to whom and what was sent, quiet periods, reminders and escalation. What
 * an alert is, and when it opens and closes, is decided by {@code alerts}; this part hears of it in the same transaction
 * and never holds an upload up by sending.
 *
 * <p>An event of an alert owes a <em>notification</em> to each channel that it concerns, at most one
 * ({@link panelbook.app.notifying.Outbox}). After a time of gathering the notifications of a channel are packed into
 * <em>messages</em> ({@link panelbook.app.notifying.Packing}), whose text and id then stay as they are. One instance of
 * the service at a time sends the messages of a channel, in order, until each arrived or was given up
 * ({@link panelbook.app.notifying.Dispatcher}). For example: a hero moves, three channels are told of it; the receiver of
 * one answers 500, so its message waits and what comes meanwhile waits behind it, while the other two are told at once.
 */
@NullMarked
package panelbook.app.notifying;

import org.jspecify.annotations.NullMarked;
