package panelbook.wire;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What a correction would change. Nothing was changed yet.
 *
 * @param correction as it would be made
 * @param inForceNow name of the correction that the field run is read with now; null when it is read as it was taken
 * @param inForceThen name of the one it would be read with; another than this one when a better fitting one outranks it
 * @param changes how far the patches of the field run move
 * @param white of the field run, now and then
 * @param errorBefore how far the field run is from the reference run as it is read now
 * @param errorAfter how far it would be; only patches at levels that both runs hold
 * @param presets those judged anew whose figures rest on readings that it reads differently
 */
public record CorrectionPreview(
        Correction correction,
        @Nullable String inForceNow,
        @Nullable String inForceThen,
        PatchMoves changes,
        WhiteMove white,
        PatchMoves errorBefore,
        PatchMoves errorAfter,
        List<ReReadPreset> presets) {}
