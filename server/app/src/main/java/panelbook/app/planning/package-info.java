/**
 * Looks ahead: when presets will have drifted out of tolerance, what is due when and why, and which visits see to it. It judges
 * no run and opens no alert. Forecasts and due lists are worked out on reading, so that corrections and withdrawals count at
 * once; of plans only the visits are kept, and what was answered.
 */
@NullMarked
package panelbook.app.planning;

import org.jspecify.annotations.NullMarked;
