/**
 * What stands where and what it is calibrated to: facilities, rooms, displays and their stays, presets, heroes, targets,
 * tolerance sets, panel hours, quirks, and the whole of a facility as one document. What was measured is kept elsewhere. Others
 * listen to its events.
 */
@NullMarked
package panelbook.app.fleet;

import org.jspecify.annotations.NullMarked;
