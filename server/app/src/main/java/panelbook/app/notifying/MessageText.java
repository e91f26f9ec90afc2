package panelbook.app.notifying;

import org.jspecify.annotations.Nullable;

/**
 * What a message says.
 *
 * @param heading one line
 * @param inReplyTo message of the same thread of mails
 */
record MessageText(String heading, String body, @Nullable String inReplyTo) {}
