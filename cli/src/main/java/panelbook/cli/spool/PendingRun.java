package panelbook.cli.spool;

import java.time.Instant;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import panelbook.wire.Purpose;
import panelbook.wire.ReadingEntry;
import panelbook.wire.RunUpload;
import panelbook.wire.files.RunFile;
import panelbook.wire.files.RunIds;
import panelbook.wire.files.RunMetadata;

/**
 * A run with everything that its file and the person said, ready to be sent once its names are ids.
 *
 * @param preset as the person or the file named it
 * @param presetId null while the name is not resolved
 * @param instrument as the person or the file named it
 * @param instrumentId null while the name is not resolved
 * @param panelHours counter, h
 * @param ambientLux illuminance at the screen, lx
 */
public record PendingRun(
        String preset,
        @Nullable UUID presetId,
        String instrument,
        @Nullable UUID instrumentId,
        Purpose purpose,
        String operator,
        Instant takenAt,
        @Nullable Double panelHours,
        @Nullable Integer minutesSincePowerOn,
        @Nullable Double ambientLux,
        @Nullable String fileName,
        @Nullable String remarks,
        @Nullable String baselineReason,
        List<ReadingEntry> readings) {

    /** The same run with its names resolved. */
    public PendingRun resolved(UUID preset, UUID instrument) {
        return new PendingRun(
                this.preset,
                preset,
                this.instrument,
                instrument,
                purpose,
                operator,
                takenAt,
                panelHours,
                minutesSincePowerOn,
                ambientLux,
                fileName,
                remarks,
                baselineReason,
                readings);
    }

    /**
     * What is sent. Its id is made from the ids of preset and instrument and from what was measured, so that the same run
     * from a renamed file, or named by another spelling of the path, is the same run.
     *
     * @param preset id of the preset
     * @param instrument id of the instrument
     */
    public RunUpload upload(UUID preset, UUID instrument) {
        return new RunUpload(
                id(preset, instrument),
                preset,
                instrument,
                purpose,
                operator,
                takenAt,
                panelHours,
                minutesSincePowerOn,
                ambientLux,
                fileName,
                remarks,
                baselineReason,
                readings);
    }

    private UUID id(UUID preset, UUID instrument) {
        var run = RunFile.builder(new RunMetadata(
                preset.toString(),
                instrument.toString(),
                purpose,
                operator,
                takenAt,
                panelHours,
                minutesSincePowerOn,
                ambientLux));
        readings.forEach(r -> run.add(r.red(), r.green(), r.blue(), r.x(), r.y(), r.z()));
        return RunIds.of(run.build());
    }
}
