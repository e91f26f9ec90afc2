package panelbook.app.corrections;

import java.util.UUID;
import org.springframework.stereotype.Component;
import panelbook.app.rest.Refusal;
import panelbook.app.runs.MeasuredRuns;
import panelbook.app.runs.PresetFacts;
import panelbook.app.runs.PresetFactsBook;
import panelbook.app.runs.ReadingBook;
import panelbook.app.runs.RunBook;
import panelbook.app.runs.StoredRun;
import panelbook.colorimetry.correction.CorrectionRefused;
import panelbook.colorimetry.correction.Fault;
import panelbook.colorimetry.correction.FourColourMatrix;
import panelbook.colorimetry.correction.PairedReadings;
import panelbook.colorimetry.signal.Readings;
import panelbook.wire.CorrectionDraft;
import panelbook.wire.FieldProblem;

/** Finds the two runs that a correction is to be made from. */
@Component
class RunPairs {

    private static final String REFERENCE = "/referenceRunId";
    private static final String FIELD = "/fieldRunId";

    private final RunBook runs;
    private final PresetFactsBook presets;
    private final MeasuredRuns measured;
    private final ReadingBook readings;

    RunPairs(RunBook runs, PresetFactsBook presets, MeasuredRuns measured, ReadingBook readings) {
        this.runs = runs;
        this.presets = presets;
        this.measured = measured;
        this.readings = readings;
    }

    /**
     * Two runs of one preset.
     *
     * @param reference as it is read now
     * @param field as it was taken
     */
    record RunPair(PresetFacts preset, Readings reference, StoredRun fieldRun, Readings field) {

        /**
         * The correction that they give.
         *
         * @throws Refusal with every fault of the pairs
         */
        FourColourMatrix correction(boolean keepsLuminance) {
            try {
                var pairs = PairedReadings.of(reference, field);
                var made = FourColourMatrix.of(pairs);
                return keepsLuminance ? made.keepingLuminanceOf(pairs.field().white()) : made;
            } catch (CorrectionRefused refused) {
                throw Refusal.invalid(refused.faults().stream()
                        .map(fault -> new FieldProblem(pointer(fault), fault.message() + "."))
                        .toList());
            }
        }

        private static String pointer(Fault fault) {
            return fault.message().startsWith("reference ") ? REFERENCE : FIELD;
        }
    }

    /**
     * The runs that a draft names.
     *
     * @throws Refusal when they are not two runs of one preset, the field one by the instrument and the reference one by
     *     another, or the correction is to be for another display or model than that they were taken on
     */
    RunPair of(UUID instrumentId, CorrectionDraft draft) {
        var reference = run(REFERENCE, draft.referenceRunId());
        var field = run(FIELD, draft.fieldRunId());
        if (!field.instrumentId().equals(instrumentId)) {
            throw Refusal.invalid(
                    FIELD, "was not taken with this instrument: name a run of the meter to be corrected.");
        }
        if (reference.instrumentId().equals(instrumentId)) {
            throw Refusal.invalid(
                    REFERENCE,
                    "was taken with the meter to be corrected itself: name a run of the reference instrument.");
        }
        var preset = presets.find(field.presetId()).orElseThrow();
        if (!reference.presetId().equals(field.presetId())) {
            throw Refusal.invalid(
                    REFERENCE,
                    "was taken on another preset than the field run, which is of " + preset.path()
                            + ": measure the same patches of one preset with both instruments.");
        }
        mustBeOf(preset, draft);
        if (draft.validFrom() != null && draft.validFrom().isAfter(field.takenAt())) {
            throw Refusal.invalid(
                    "/validFrom",
                    "lies after the field run, which was taken at " + field.takenAt()
                            + ": the correction would not hold for the run that it is made from.");
        }
        return new RunPair(
                preset,
                measured.of(preset, reference).readings(),
                field,
                Readings.of(preset.target().codes(), readings.of(field.id())));
    }

    private StoredRun run(String pointer, UUID id) {
        return runs.counted(id).orElseThrow(() -> Refusal.invalid(pointer, "there is no run " + id + " that counts"));
    }

    private static void mustBeOf(PresetFacts preset, CorrectionDraft draft) {
        if (draft.displayId() != null && !draft.displayId().equals(preset.displayId())) {
            throw Refusal.invalid(
                    "/displayId",
                    "is not the display that the runs were taken on, which is that of " + preset.path()
                            + ": a correction is right for the light that it was made on.");
        }
        if (draft.model() != null && !draft.model().equals(preset.model())) {
            throw Refusal.invalid(
                    "/model",
                    "the runs were taken on a " + preset.model() + ", not on a " + draft.model()
                            + ": a correction is right for the light that it was made on.");
        }
    }
}
