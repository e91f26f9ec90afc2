/**
 * Reads bookings from iCalendar text and writes visits as such (RFC 5545). Pure: no database, no clock, no Spring. Text is read by
 * a reader of our own, since a person who sends a bad file needs its line, and time zones that a calendar defines must hold for
 * that calendar only; a library works out recurrences and writes.
 */
@NullMarked
package panelbook.app.calendars.ics;

import org.jspecify.annotations.NullMarked;
