package panelbook.cli.command;

import static panelbook.cli.terminal.Column.of;

import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import panelbook.cli.terminal.Column;
import panelbook.cli.terminal.ExitCode;
import panelbook.cli.terminal.Printer;
import panelbook.wire.AlertNotice;
import panelbook.wire.Decision;
import panelbook.wire.Diagnosis;
import panelbook.wire.Finding;
import panelbook.wire.RunVerdict;

/** How the answer to an upload is printed: what decided first, then findings that are not within, then alerts. */
final class Verdicts {

    /** One line of a verdict: the run itself, a finding or an alert. */
    record Row(String source, String what, @Nullable Object state, String subject, String text) {}

    private static final List<Column<Row>> COLUMNS = List.of(
            of("FILE", Row::source),
            of("WHAT", Row::what),
            of("STATE", Row::state),
            of("SUBJECT", Row::subject),
            of("TEXT", Row::text));

    private Verdicts() {}

    /**
     * What became of one file or run.
     *
     * @param outcome stored, spooled or failed
     * @param message why it was spooled or failed
     */
    record Outcome(
            String file,
            String outcome,
            @Nullable String message,
            @Nullable RunVerdict verdict) {}

    /** Prints what became of a file; the exit code comes back. */
    static int print(Printer printer, Outcome outcome) {
        if (printer.isJson()) {
            printer.streamed(Outcome.class, outcome, List.of());
        } else {
            rows(outcome).forEach(row -> printer.streamed(Row.class, row, COLUMNS));
        }
        var verdict = outcome.verdict();
        return verdict == null ? ExitCode.DONE : code(verdict);
    }

    /** Prints a verdict; the exit code comes back. */
    static int print(Printer printer, String source, RunVerdict verdict) {
        return print(printer, new Outcome(source, "stored", null, verdict));
    }

    /** 3 when something is beyond. */
    static int code(RunVerdict verdict) {
        return verdict.decision() == Decision.BEYOND ? ExitCode.BEYOND : ExitCode.DONE;
    }

    private static List<Row> rows(Outcome outcome) {
        var verdict = outcome.verdict();
        if (verdict != null) {
            return rows(outcome.file(), verdict);
        }
        return List.of(new Row(outcome.file(), "upload", outcome.outcome(), "", Action.or(outcome.message(), "")));
    }

    private static List<Row> rows(String source, RunVerdict verdict) {
        var rows = new java.util.ArrayList<Row>();
        rows.add(new Row(source, verdict.purpose().toString(), verdict.decision(), verdict.preset(), summary(verdict)));
        verdict.findings().stream()
                .filter(f -> f.decision() != Decision.WITHIN)
                .forEach(f -> rows.add(finding(source, f)));
        suspect(source, verdict).ifPresent(rows::add);
        verdict.alerts().forEach(a -> rows.add(alert(source, a)));
        return rows;
    }

    private static Optional<Row> suspect(String source, RunVerdict verdict) {
        return Optional.ofNullable(verdict.diagnosis())
                .filter(Diagnosis::suspect)
                .map(found -> new Row(source, "signal-path", "suspect", verdict.preset(), found.summary()));
    }

    private static String summary(RunVerdict verdict) {
        var cold = Boolean.FALSE.equals(verdict.warmedUp()) ? ", taken before warm-up" : "";
        var note = verdict.baselineNote().isEmpty() ? "" : "; " + verdict.baselineNote();
        return verdict.readingCount() + " readings" + cold + note + "; run " + verdict.runId();
    }

    private static Row finding(String source, Finding finding) {
        return new Row(source, finding.metric().toString(), finding.decision(), finding.preset(), figures(finding));
    }

    /** Value, limit and where it comes from, and the explanation. */
    static String figures(Finding finding) {
        return Words.number(rounded(finding.value())) + " " + finding.unit() + " against "
                + (finding.metric().lowerLimit() ? "at least " : "at most ") + Words.number(finding.limit()) + " ("
                + Views.source(finding.basis(), finding.document(), finding.clause()) + "): " + finding.explanation()
                + (finding.corrections().isEmpty()
                        ? ""
                        : " Corrected: " + String.join("; ", finding.corrections()) + ".");
    }

    /** To four significant digits. */
    static double rounded(double value) {
        return Double.isFinite(value)
                ? new java.math.BigDecimal(value)
                        .round(new java.math.MathContext(4))
                        .doubleValue()
                : value;
    }

    private static Row alert(String source, AlertNotice alert) {
        return new Row(
                source,
                "alert",
                alert.event(),
                alert.cause().toString(),
                alert.subject() + ": " + alert.headline() + "; alert " + alert.alertId());
    }
}
