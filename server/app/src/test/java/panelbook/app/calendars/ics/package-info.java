/** Calendars as text, checked against RFC 5545 and an independent reader. */
package panelbook.app.calendars.ics;
