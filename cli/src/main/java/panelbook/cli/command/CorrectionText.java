package panelbook.cli.command;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import panelbook.wire.CorrectionPreview;
import panelbook.wire.Decision;
import panelbook.wire.FindingChange;
import panelbook.wire.PatchMoves;
import panelbook.wire.ReReadPreset;
import panelbook.wire.WhiteMove;

/** What a correction would change, in words: one line per thing to know. */
final class CorrectionText {

    /** One thing to know. */
    record Line(String what, String subject, String text) {

        String together() {
            return what + (subject.isEmpty() ? "" : "  " + subject) + "  " + text;
        }
    }

    private CorrectionText() {}

    static List<Line> of(CorrectionPreview preview) {
        var lines = new ArrayList<Line>();
        lines.add(new Line("correction", preview.correction().name(), inPlace(preview)));
        lines.add(new Line("field run", "", moves(preview.changes()) + "; " + white(preview.white())));
        lines.add(new Line("off the reference", "now", moves(preview.errorBefore())));
        lines.add(new Line("off the reference", "then", moves(preview.errorAfter())));
        preview.presets().forEach(preset -> lines.addAll(of(preset)));
        if (preview.presets().isEmpty()) {
            lines.add(new Line("presets", "", "none whose latest run or baseline it reads differently"));
        }
        return lines;
    }

    private static String inPlace(CorrectionPreview preview) {
        if (!Objects.equals(preview.inForceThen(), preview.correction().name())) {
            return preview.inForceThen() + " goes before it and stays in force on this display";
        }
        return preview.inForceNow() == null ? "until now as taken" : "in place of " + preview.inForceNow();
    }

    private static List<Line> of(ReReadPreset preset) {
        var lines = new ArrayList<Line>();
        if (preset.latest() != null) {
            lines.add(new Line("latest run", preset.preset(), white(preset.latest())));
        }
        if (preset.baseline() != null) {
            lines.add(new Line("baseline", preset.preset(), white(preset.baseline())));
        }
        preset.findings().forEach(change -> lines.add(new Line("finding", preset.preset(), finding(change))));
        if (preset.findings().isEmpty()) {
            lines.add(new Line("finding", preset.preset(), "no decision changes"));
        }
        return lines;
    }

    private static String finding(FindingChange change) {
        return change.metric() + ": " + side(change.before(), change.valueBefore(), change.unit()) + " becomes "
                + side(change.after(), change.valueAfter(), change.unit());
    }

    private static String side(@Nullable Decision decision, @Nullable Double value, String unit) {
        return decision == null || value == null
                ? "nothing"
                : decision + " (" + Words.number(Verdicts.rounded(value)) + " " + unit + ")";
    }

    private static String moves(PatchMoves moves) {
        if (moves.meanDeltaEItp() == null || moves.largestDeltaEItp() == null) {
            return "no patches in common";
        }
        return String.format(
                        Locale.ROOT,
                        "ΔE ITP mean %.2f, largest %.2f at %s",
                        moves.meanDeltaEItp(),
                        moves.largestDeltaEItp(),
                        moves.at())
                + (moves.largestDuv() == null
                        ? ""
                        : String.format(Locale.ROOT, ", largest Δu′v′ %.4f", moves.largestDuv()));
    }

    private static String white(WhiteMove move) {
        return String.format(
                Locale.ROOT,
                "white from %.1f to %.1f cd/m² (%+.1f %%), Δu′v′ %.4f",
                move.luminanceBefore(),
                move.luminanceAfter(),
                move.luminancePercent(),
                move.duv());
    }
}
