package panelbook.app.fleet;

import java.util.UUID;
import panelbook.wire.DisplayDraft;
import panelbook.wire.DisplayEntry;
import panelbook.wire.InstrumentDraft;
import panelbook.wire.InstrumentEntry;
import panelbook.wire.TargetDraft;
import panelbook.wire.TargetEntry;
import panelbook.wire.ToleranceSetDraft;
import panelbook.wire.ToleranceSetEntry;

/** Entries of a book as the drafts that say the same. */
final class BookDrafts {

    private BookDrafts() {}

    static ToleranceSetDraft of(UUID id, ToleranceSetEntry entry) {
        return ToleranceSets.sorted(new ToleranceSetDraft(
                id,
                entry.name(),
                entry.description(),
                entry.warmUpMinutes(),
                entry.recalibrationDays(),
                entry.recalibrationPanelHours(),
                entry.hysteresis(),
                entry.conformanceProbability(),
                entry.tolerances()));
    }

    static TargetDraft of(UUID id, TargetEntry entry, UUID toleranceSetId) {
        return new TargetDraft(
                id,
                entry.name(),
                entry.primaries(),
                entry.eotf(),
                entry.gamma(),
                entry.signalRange(),
                entry.bitDepth(),
                entry.peakLuminance(),
                entry.blackLuminance(),
                toleranceSetId);
    }

    static InstrumentDraft of(UUID id, InstrumentEntry entry) {
        return new InstrumentDraft(
                id,
                entry.name(),
                entry.kind(),
                entry.serialNumber(),
                entry.luminanceUncertaintyPercent(),
                entry.luminanceRepeatabilityPercent(),
                entry.chromaticityUncertainty(),
                entry.chromaticityRepeatability(),
                entry.luminanceFloor());
    }

    static DisplayDraft of(UUID id, UUID facilityId, DisplayEntry entry) {
        return new DisplayDraft(
                id,
                facilityId,
                null,
                entry.name(),
                entry.model(),
                entry.panelTechnology(),
                entry.serialNumber(),
                entry.notes());
    }
}
