package panelbook.app.assessment;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import panelbook.app.instruments.InstrumentFacts;
import panelbook.app.matching.Agreement;
import panelbook.app.rest.Days;
import panelbook.app.runs.StoredRun;
import panelbook.wire.Metric;

/** The figures that come from the calendar, the counter and the papers rather than from light. */
final class TimeFigures {

    private TimeFigures() {}

    /**
     * Age of the baseline.
     *
     * @param baselineRun its run
     * @param now the moment to judge at
     * @param baselineHours counter at the baseline, h, as it was corrected; null when unknown
     * @param panelHours counter now, h; null when unknown
     */
    static List<Figure> recalibration(
            StoredRun baselineRun, Instant now, @Nullable Double baselineHours, @Nullable Double panelHours) {
        var figures = new ArrayList<Figure>();
        var days = Math.max(0, Duration.between(baselineRun.takenAt(), now).toDays());
        figures.add(Figure.of(
                Metric.RECALIBRATION_DAYS,
                days,
                null,
                "It was calibrated " + days + " days ago, on " + Say.day(baselineRun.takenAt()) + ".",
                List.of()));
        if (panelHours != null && baselineHours != null) {
            // a counter that was reset since says nothing here
            var hours = Math.max(0, panelHours - baselineHours);
            figures.add(Figure.of(
                    Metric.RECALIBRATION_PANEL_HOURS,
                    hours,
                    null,
                    "It has run " + Say.fixed(hours, 0) + " h since it was calibrated.",
                    List.of()));
        }
        return figures;
    }

    /** Days by which the certificate had expired on the day of the run, UTC; unknown when none
     * of then is on file. */
    static Figure certificate(InstrumentFacts instrument, StoredRun run) {
        var day = day(run);
        var last = instrument.certifiedUntil(day);
        if (last.isEmpty()) {
            return Figure.unknown(
                    Metric.CERTIFICATE_DAYS,
                    "There is no certificate of " + instrument.name() + " on file that had been issued by " + day
                            + ", when it was used.");
        }
        var until = last.get();
        var expired = Math.max(0, ChronoUnit.DAYS.between(until, day));
        return Figure.of(
                Metric.CERTIFICATE_DAYS,
                expired,
                null,
                expired == 0
                        ? "The certificate of " + instrument.name() + " holds until " + until + "."
                        : "The certificate of " + instrument.name() + " expired on " + until + "; it was used on " + day
                                + ".",
                List.of());
    }

    /** The day that a run was taken, UTC. */
    static LocalDate day(StoredRun run) {
        return Days.of(run.takenAt());
    }

    /** Matches that the preset's new baseline, or the loss of its run, puts in question: as the hero's, else as the follower's. */
    static Figure matchesInQuestion(StoredRun run, List<Agreement> agreements) {
        var inQuestion = agreements.stream()
                .filter(agreement -> agreement.heroPresetId().equals(run.presetId())
                        ? agreement.heroInQuestion()
                        : agreement.followerInQuestion() && !agreement.heroInQuestion())
                .toList();
        var operators =
                inQuestion.stream().map(Agreement::operator).distinct().sorted().collect(Collectors.joining(", "));
        var what = inQuestion.stream().noneMatch(Agreement::runWithdrawn)
                ? "an earlier baseline"
                : inQuestion.stream().allMatch(Agreement::runWithdrawn)
                        ? "a run that was withdrawn"
                        : "an earlier baseline or a run that was withdrawn";
        return Figure.of(
                Metric.MATCHES_IN_QUESTION,
                inQuestion.size(),
                null,
                inQuestion.isEmpty()
                        ? "No match is put in question by a new baseline of this preset."
                        : inQuestion.size() + (inQuestion.size() == 1 ? " match rests" : " matches rest")
                                + " on " + what + ", for " + operators
                                + ": look at the pair again and sign off anew.",
                List.of());
    }
}
