package panelbook.app.matching;

import panelbook.colorimetry.drift.AgreedOffset;
import panelbook.wire.OffsetSource;

/**
 * What a suggestion aims at: the hero and an offset.
 *
 * @param words where it comes from, with the figures
 */
record Aim(OffsetSource source, AgreedOffset offset, String words) {}
