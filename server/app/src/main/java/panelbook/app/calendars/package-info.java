/**
 * Calendars of others read, and calendars for others written: the bookings of rooms as iCalendar says them, and feeds of the
 * visits that are planned. It decides nothing about either; {@link panelbook.app.calendars.Bookings} tells planners when rooms
 * are taken.
 */
@NullMarked
package panelbook.app.calendars;

import org.jspecify.annotations.NullMarked;
