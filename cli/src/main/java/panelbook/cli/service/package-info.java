/**
 * The service as seen from the client: log-in, requests, names to ids, the stream of alert events, and what is
 * remembered from earlier calls for when the service is away.
 */
@NullMarked
package panelbook.cli.service;

import org.jspecify.annotations.NullMarked;
