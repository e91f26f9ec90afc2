package panelbook.app.planning;

import panelbook.wire.DuePreset;

/** A preset and what makes it due. */
record Due(PresetLine line, DuePreset preset) {}
