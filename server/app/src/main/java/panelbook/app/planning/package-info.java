/**
 * Looks ahead: when presets will have drifted out of tolerance, and what is due when and why. It judges no run, opens no
 * alert and keeps nothing; all of it is worked out on reading, so that corrections and withdrawals count at once.
 */
@NullMarked
package panelbook.app.planning;

import org.jspecify.annotations.NullMarked;
