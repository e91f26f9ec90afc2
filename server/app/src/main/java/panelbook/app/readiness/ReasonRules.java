package panelbook.app.readiness;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.Optional;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import panelbook.wire.AlertCause;
import panelbook.wire.Decision;
import panelbook.wire.ReadinessState;
import panelbook.wire.Reason;
import panelbook.wire.Rule;

/**
 * Which facts keep a room from being booked and which are remarks. House policy, no published source: a picture that
 * moved, that is off its target or that was never calibrated keeps the room closed; all else is said and left to people. A step is a
 * remark: where it leads out of tolerance the picture moved as well, and that closes the room.
 */
final class ReasonRules {

    private ReasonRules() {}

    /** All reasons of a room, worst first; empty when it is ready. */
    static List<Reason> of(List<PresetLine> lines, Instant now) {
        var reasons = new ArrayList<Reason>();
        if (lines.stream().allMatch(line -> line.preset() == null)) {
            reasons.add(reason(
                    lines.get(0), ReadinessState.NOT_READY, "empty", "No display with a preset stands here.", null));
            return reasons;
        }
        reasons.addAll(ofAlerts(lines));
        for (var line : lines) {
            if (line.preset() != null) {
                add(reasons, line, lines, now);
            }
        }
        reasons.sort(Comparator.comparing(Reason::weight).reversed());
        return reasons;
    }

    private static void add(List<Reason> reasons, PresetLine line, List<PresetLine> lines, Instant now) {
        if (!line.hasBaseline()) {
            reasons.add(reason(
                    line,
                    ReadinessState.NOT_READY,
                    "no-baseline",
                    "It has never been calibrated to " + line.target() + ".",
                    null));
        }
        overdue(reasons, line, now);
        standing(reasons, line, heroOf(line, lines));
        match(reasons, line, lines);
        if (Boolean.FALSE.equals(line.warmedUp())) {
            reasons.add(reason(
                    line,
                    ReadinessState.READY_WITH_REMARKS,
                    "cold-run",
                    "The last run was taken before the display had warmed up.",
                    line.runAt()));
        }
    }

    private static @Nullable PresetLine heroOf(PresetLine line, List<PresetLine> lines) {
        return lines.stream()
                .filter(other -> other.hero() && Objects.equals(other.target(), line.target()))
                .findFirst()
                .orElse(null);
    }

    /** One for each alert that speaks, however many it explains: as grave as the gravest of them. */
    private static List<Reason> ofAlerts(List<PresetLine> lines) {
        var bySpeaker = new LinkedHashMap<PresetLine.Speaker, List<Told>>();
        for (var line : lines) {
            for (var alert : line.alerts()) {
                bySpeaker
                        .computeIfAbsent(alert.speaker(), speaker -> new ArrayList<>())
                        .add(new Told(line, alert));
            }
        }
        return bySpeaker.entrySet().stream()
                .map(entry -> ofSpeaker(entry.getKey(), entry.getValue()))
                .toList();
    }

    private record Told(PresetLine line, PresetLine.OpenAlert alert) {}

    private static Reason ofSpeaker(PresetLine.Speaker speaker, List<Told> told) {
        var closes = told.stream()
                .anyMatch(one ->
                        one.alert().cause() == AlertCause.MOVED || one.alert().cause() == AlertCause.OFF_TARGET);
        // the display that it lies at; none when it lies at the feed or the meter
        var at = told.stream()
                .filter(one -> !one.alert().held() && !one.alert().onRoom())
                .findFirst();
        return new Reason(
                closes ? ReadinessState.NOT_READY : ReadinessState.READY_WITH_REMARKS,
                speaker.cause().toString(),
                speaker.headline() + (speaker.acknowledged() ? " Somebody has it in hand." : ""),
                at.map(one -> one.line().display()).orElse(null),
                at.map(one -> one.line().preset()).orElse(null),
                speaker.id(),
                speaker.since());
    }

    /** By the calendar and the counter as they stand, whether or not an alert has been opened yet. */
    private static void overdue(List<Reason> reasons, PresetLine line, Instant now) {
        if (line.baselineAt() == null || has(line, AlertCause.RECALIBRATION_DUE)) {
            return;
        }
        var days = Duration.between(line.baselineAt(), now).toDays();
        if (line.recalibrationDays() != null && days > line.recalibrationDays()) {
            reasons.add(due(line, "Calibrated " + days + " days ago, " + line.recalibrationDays() + " are allowed."));
        } else if (line.recalibrationPanelHours() != null
                && line.panelHours() != null
                && line.baselineHours() != null
                && line.panelHours() - line.baselineHours() > line.recalibrationPanelHours()) {
            reasons.add(due(
                    line,
                    String.format(
                            Locale.ROOT,
                            "Calibrated %.0f panel hours ago, %d are allowed.",
                            line.panelHours() - line.baselineHours(),
                            line.recalibrationPanelHours())));
        }
    }

    /** When a preset counts as overdue by the calendar alone; nothing when it has no turn or was never calibrated. */
    static Optional<Instant> overdueFrom(PresetLine line) {
        return line.baselineAt() == null || line.recalibrationDays() == null
                ? Optional.empty()
                : Optional.of(line.baselineAt().plus(Duration.ofDays(line.recalibrationDays() + 1L)));
    }

    private static Reason due(PresetLine line, String text) {
        return reason(line, ReadinessState.READY_WITH_REMARKS, AlertCause.RECALIBRATION_DUE.toString(), text, null);
    }

    private static void standing(List<Reason> reasons, PresetLine line, @Nullable PresetLine hero) {
        var undecided = line.findings().stream()
                .filter(finding -> finding.decision() == Decision.UNDECIDED && finding.rule() != Rule.CERTIFICATE)
                .toList();
        if (!undecided.isEmpty()) {
            reasons.add(reason(
                    line,
                    ReadinessState.READY_WITH_REMARKS,
                    "undecided",
                    "Too close to the limit for the meter to tell, measure again: "
                            + undecided.stream()
                                    .map(finding -> finding.metric().words())
                                    .collect(Collectors.joining(", "))
                            + ".",
                    undecided.get(0).since()));
        }
        for (var finding : line.findings()) {
            if (saysMore(finding) && !alerted(line, hero, finding.rule())) {
                reasons.add(reason(
                        line,
                        ReadinessState.READY_WITH_REMARKS,
                        finding.metric().toString(),
                        finding.explanation(),
                        finding.since()));
            }
        }
    }

    private static boolean saysMore(PresetLine.NotWithin finding) {
        return finding.decision() == Decision.BEYOND || finding.rule() == Rule.CERTIFICATE;
    }

    /** Whether an open alert of the preset, or of the hero that it follows, says already what findings of a rule say. */
    private static boolean alerted(PresetLine line, @Nullable PresetLine hero, Rule rule) {
        return switch (rule) {
            case VERIFICATION -> has(line, AlertCause.OFF_TARGET) || has(line, AlertCause.MOVED);
            case OWN_DRIFT -> has(line, AlertCause.MOVED);
            case STEP -> has(line, AlertCause.STEPPED);
            case HERO_DRIFT ->
                has(line, AlertCause.MOVED)
                        || has(line, AlertCause.MATCH_IN_QUESTION)
                        || (hero != null && (has(hero, AlertCause.MOVED) || has(hero, AlertCause.MATCH_IN_QUESTION)));
            case RECALIBRATION -> true;
            case CERTIFICATE -> false;
            case AGREEMENT -> has(line, AlertCause.MATCH_IN_QUESTION);
        };
    }

    private static boolean has(PresetLine line, AlertCause cause) {
        return line.alerts().stream().anyMatch(alert -> alert.cause() == cause && !alert.onRoom());
    }

    /** A display that has no other of its target beside it needs no hero. */
    private static void match(List<Reason> reasons, PresetLine line, List<PresetLine> lines) {
        var alone = lines.stream().noneMatch(other -> other != line && Objects.equals(other.target(), line.target()));
        if (line.hero() || alone) {
            return;
        }
        if (!line.hasHero()) {
            reasons.add(reason(
                    line,
                    ReadinessState.READY_WITH_REMARKS,
                    "no-hero",
                    "The room has no hero for " + line.target() + ".",
                    null));
        } else if (!line.matched()) {
            reasons.add(reason(
                    line,
                    ReadinessState.READY_WITH_REMARKS,
                    "not-matched",
                    "It was never matched to the hero of the room.",
                    null));
        } else if (line.unmeasuredFor() != null) {
            reasons.add(reason(
                    line,
                    ReadinessState.READY_WITH_REMARKS,
                    "unmeasured-match",
                    "It was signed without closing runs for " + line.unmeasuredFor()
                            + ", so drift from its hero cannot be told: measure both and sign off anew.",
                    null));
        }
    }

    private static Reason reason(
            PresetLine line, ReadinessState weight, String code, String text, @Nullable Instant since) {
        return new Reason(weight, code, text, line.display(), line.preset(), null, since);
    }
}
