package panelbook.cli.match;

import java.util.List;
import org.jspecify.annotations.Nullable;
import panelbook.wire.Observation;
import panelbook.wire.OperatorVerdict;
import panelbook.wire.StepKind;

/**
 * A step as typed, before it has a number.
 *
 * @param control of a trim or of what is kept
 * @param level of that control
 * @param clicks of a trim
 * @param absolute whether the clicks are where the control is to stand, rather than the change
 * @param returnTo number of a step; null for before the last trim
 * @param run what was said of a run: its file, then options as run upload takes them
 * @param note a note, or the reason to keep
 */
public record SaidStep(
        StepKind kind,
        @Nullable Observation observation,
        @Nullable String control,
        @Nullable String level,
        int clicks,
        boolean absolute,
        @Nullable OperatorVerdict verdict,
        @Nullable Integer returnTo,
        List<String> run,
        @Nullable String note) {

    static SaidStep saw(Observation observation, @Nullable String note) {
        return new SaidStep(StepKind.OBSERVATION, observation, null, null, 0, false, null, null, List.of(), note);
    }

    static SaidStep trim(String control, String level, int clicks, boolean absolute, @Nullable String note) {
        return new SaidStep(StepKind.TRIM, null, control, level, clicks, absolute, null, null, List.of(), note);
    }

    static SaidStep verdict(OperatorVerdict verdict, @Nullable String note) {
        return new SaidStep(StepKind.VERDICT, null, null, null, 0, false, verdict, null, List.of(), note);
    }

    static SaidStep reading(List<String> run, @Nullable String note) {
        return new SaidStep(StepKind.READING, null, null, null, 0, false, null, null, List.copyOf(run), note);
    }

    static SaidStep back(@Nullable Integer to, @Nullable String note) {
        return new SaidStep(StepKind.RETURN, null, null, null, 0, false, null, to, List.of(), note);
    }

    static SaidStep keep(String control, String level, String reason) {
        return new SaidStep(StepKind.OVERRIDE, null, control, level, 0, false, null, null, List.of(), reason);
    }

    static SaidStep note(String text) {
        return new SaidStep(StepKind.NOTE, null, null, null, 0, false, null, null, List.of(), text);
    }
}
