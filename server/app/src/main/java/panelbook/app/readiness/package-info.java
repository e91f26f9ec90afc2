/**
 * Readiness of rooms, now and over time: may a room be booked, and why not. It reads what the other parts have found and judges nothing
 * that is measured.
 */
@NullMarked
package panelbook.app.readiness;

import org.jspecify.annotations.NullMarked;
