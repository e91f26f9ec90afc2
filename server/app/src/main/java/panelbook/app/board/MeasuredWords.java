package panelbook.app.board;

import java.math.BigDecimal;
import java.math.MathContext;
import java.time.ZoneOffset;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.UUID;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import panelbook.app.papers.PaperWords;
import panelbook.wire.AgreedOffset;
import panelbook.wire.AsLeft;
import panelbook.wire.Decision;
import panelbook.wire.Deviation;
import panelbook.wire.Finding;
import panelbook.wire.Metric;
import panelbook.wire.OperatorDifference;
import panelbook.wire.ReadingRef;
import panelbook.wire.Trim;

/** How pages say what was measured, judged and trimmed; templates know it as {@code measured}. */
public final class MeasuredWords {

    /** In any unit shown; meters tell u′v′ to 1e-4 and black to 1e-5 cd/m² at best. Common practice, no published source. */
    private static final double LEAST_FIGURE = 1e-6;

    private static final PaperWords PAPER = new PaperWords(ZoneOffset.UTC);
    private static final int K = 2;

    private static final MathContext DIGITS = new MathContext(4);

    /** To four significant digits, without a long tail of noughts; a dash for none. */
    public String figure(@Nullable Double value) {
        if (value == null || !Double.isFinite(value)) {
            return "–";
        }
        if (Math.abs(value) < LEAST_FIGURE) {
            return "0";
        }
        var rounded = new BigDecimal(value).round(DIGITS).stripTrailingZeros();
        return rounded.toPlainString().replace('-', '−');
    }

    /** With that many decimals and its sign; nought has none. */
    public String signed(@Nullable Double value, int decimals) {
        if (value == null) {
            return "–";
        }
        var unsigned = fixed(Math.abs(value), decimals);
        var nought = unsigned.chars().allMatch(digit -> digit == '0' || digit == '.');
        return nought ? unsigned : (value < 0 ? "−" : "+") + unsigned;
    }

    /** The name of a figure in words. */
    public String name(Metric metric) {
        return metric.words();
    }

    /** White of an as-left run: luminance, chromaticity and what that is on the Planckian locus; a dash for none. */
    public String white(AsLeft left) {
        if (left.whiteLuminance() == null) {
            return "–";
        }
        var text = figure(left.whiteLuminance()) + " cd/m²";
        if (left.whiteU() != null && left.whiteV() != null) {
            text += ", u′ " + fixed(left.whiteU(), 4) + " v′ " + fixed(left.whiteV(), 4);
        }
        if (left.whiteCct() != null && left.whiteDuv() != null) {
            text += ", " + fixed(left.whiteCct(), 0) + " K, Duv " + signed(left.whiteDuv(), 4);
        }
        return text;
    }

    /** Black of an as-left run, and its contrast; a dash for none. */
    public String black(AsLeft left) {
        if (left.blackLuminance() == null) {
            return "–";
        }
        var text = figure(left.blackLuminance()) + " cd/m²";
        if (left.whiteLuminance() == null) {
            return text;
        }
        return text
                + (left.contrast() == null
                        ? ", contrast not measurable: black lies at the meter’s floor"
                        : ", contrast " + fixed(left.contrast(), 0) + ":1");
    }

    /** Mean, 95th percentile and largest of colour differences; a dash for none. */
    public String deviation(@Nullable Deviation deviation) {
        return deviation == null
                ? "–"
                : "mean " + fixed(deviation.mean(), 2) + ", 95 % within " + fixed(deviation.percentile95(), 2)
                        + ", largest " + fixed(deviation.maximum(), 2);
    }

    /** A finding's limit, e.g. at most 3 %. */
    public String limit(Finding finding) {
        return (finding.metric().lowerLimit() ? "at least " : "at most ") + figure(finding.limit()) + " "
                + finding.unit();
    }

    /** A finding's value with its expanded uncertainty, k = 2, as the papers say it. */
    public String value(Finding finding) {
        return PAPER.figure(
                finding.value(), finding.uncertainty() == null ? null : K * finding.uncertainty(), finding.unit());
    }

    /** The runs whose readings a finding compares with those of the run that brought it. */
    public List<UUID> otherRuns(Finding finding) {
        return finding.readings().stream()
                .map(ReadingRef::runId)
                .filter(run -> !run.equals(finding.runId()))
                .distinct()
                .toList();
    }

    /** Where a finding's limit comes from. */
    public String basis(Finding finding) {
        return finding.toleranceSet() + ", version " + finding.toleranceSetVersion() + "; "
                + finding.basis().toString().replace('-', ' ')
                + (finding.document() == null ? "" : ", " + finding.document())
                + (finding.clause() == null ? "" : ", " + finding.clause());
    }

    /** The figures that are within their limits, in a line. */
    public String within(List<Finding> findings) {
        var within = findings.stream()
                .filter(finding -> finding.decision() == Decision.WITHIN)
                .map(finding -> finding.metric().words() + " " + value(finding))
                .collect(Collectors.joining("; "));
        return within.isEmpty() ? "none" : within;
    }

    /** The gravest first. */
    public List<Finding> gravestFirst(List<Finding> findings) {
        return findings.stream()
                .sorted(Comparator.comparing(Finding::decision)
                        .reversed()
                        .thenComparing(Finding::preset)
                        .thenComparing(Finding::metric))
                .toList();
    }

    /** Trims in clicks, e.g. gain.red +2, bias.blue −1. */
    public String trims(List<Trim> trims) {
        return trims.isEmpty()
                ? "none"
                : trims.stream().map(MeasuredWords::trim).collect(Collectors.joining(", "));
    }

    private static String trim(Trim trim) {
        var level = trim.level().equals("all") ? "" : " at " + trim.level();
        return trim.control() + level + " "
                + String.format(Locale.ROOT, "%+d", trim.clicks()).replace('-', '−');
    }

    /** The measured difference that an operator signed off, in a line. */
    public String offset(@Nullable AgreedOffset offset) {
        return offset == null
                ? "unmeasured: signed without closing runs, so no drift is judged against it"
                : "Δu′ " + signed(offset.du(), 4) + ", Δv′ " + signed(offset.dv(), 4) + " (± "
                        + fixed(K * offset.chromaticityUncertainty(), 4) + " each), luminance "
                        + signed(offset.luminancePercent(), 1) + " % (± "
                        + fixed(K * offset.luminanceUncertaintyPercent(), 1) + "), follower less hero; k = 2";
    }

    /** How two operators' agreements on a pair differ. */
    public String apart(OperatorDifference apart) {
        var offsets = apart.duv() == null
                ? "unmeasured"
                : "Δu′v′ " + fixed(apart.duv(), 4) + " (Δu′ " + signed(apart.du(), 4) + ", Δv′ " + signed(apart.dv(), 4)
                        + "), luminance " + signed(apart.luminancePercent(), 1) + " %";
        return apart.other() + " less " + apart.operator() + ": " + offsets + "; clicks: " + trims(apart.clicks());
    }

    private static String fixed(double value, int decimals) {
        return String.format(Locale.ROOT, "%." + decimals + "f", value).replace('-', '−');
    }
}
