package panelbook.app.matching;

import java.time.Instant;

/**
 * What the latest grey ramp of a preset says of its signal path.
 *
 * @param suspect whether trims should wait until a person has looked
 * @param words what it looks like, and what to check first
 */
record PathFinding(Instant takenAt, boolean suspect, String words) {}
