/**
 * Alerts: one per cause and subject, opened, updated while the cause lasts, taken in hand, closed and opened again when the
 * cause comes back; which of them explains which; their history and the stream of it. What counts as a cause, and when it is
 * gone, is judged elsewhere and reported here.
 */
@NullMarked
package panelbook.app.alerts;

import org.jspecify.annotations.NullMarked;
