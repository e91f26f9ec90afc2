/**
 * What a plan rests on beside the due list: who makes visits and when, holidays, how far facilities lie apart, how long work
 * takes, and how much a room weighs. It lays no visit.
 */
@NullMarked
package panelbook.app.planning.crew;

import org.jspecify.annotations.NullMarked;
