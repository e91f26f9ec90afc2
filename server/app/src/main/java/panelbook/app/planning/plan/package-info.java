/**
 * Lays visits into calibrators' days and rooms' free hours. Pure: no database, no clock, no Spring; times are whole minutes
 * from the start of the problem. What a visit is worth is worked out by whoever asks.
 */
@NullMarked
package panelbook.app.planning.plan;

import org.jspecify.annotations.NullMarked;
