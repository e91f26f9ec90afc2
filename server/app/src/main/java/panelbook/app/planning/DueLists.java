package panelbook.app.planning;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.UUID;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Isolation;
import org.springframework.transaction.annotation.Transactional;
import panelbook.app.instruments.InstrumentFacts;
import panelbook.app.instruments.InstrumentFactsBook;
import panelbook.app.matching.Agreement;
import panelbook.app.matching.Matches;
import panelbook.app.rest.Checks;
import panelbook.app.rest.Days;
import panelbook.app.rest.Refusal;
import panelbook.app.runs.RunBook;
import panelbook.wire.DueInstrument;
import panelbook.wire.DueList;
import panelbook.wire.DuePreset;
import panelbook.wire.DueReason;
import panelbook.wire.DueRule;
import panelbook.wire.Sureness;

/** Says what is due and when. */
@Component
public class DueLists {

    private static final Duration LATELY = Duration.ofDays(365);

    /** The last time zone on Earth is so far behind UTC: its today may still be yesterday. */
    private static final Duration BEHIND = Duration.ofHours(12);

    private final PlanningBook book;
    private final Outlooks outlooks;
    private final Matches matches;
    private final InstrumentFactsBook instruments;
    private final RunBook runs;
    private final Clock clock;

    DueLists(
            PlanningBook book,
            Outlooks outlooks,
            Matches matches,
            InstrumentFactsBook instruments,
            RunBook runs,
            Clock clock) {
        this.book = book;
        this.outlooks = outlooks;
        this.matches = matches;
        this.instruments = instruments;
        this.runs = runs;
        this.clock = clock;
    }

    /**
     * What is due of the presets in use, all of it from one state of the book.
     *
     * @param facilityId only there; null for everywhere
     * @param roomId only there; null for everywhere
     * @param until last day that is looked at, in the time zone of each room; null for no end
     * @throws Refusal when there is no such facility or room, both are named, or the day has passed
     */
    @Transactional(readOnly = true, isolation = Isolation.REPEATABLE_READ)
    public DueList of(@Nullable UUID facilityId, @Nullable UUID roomId, @Nullable LocalDate until) {
        var now = clock.instant();
        check(facilityId, roomId, until, Days.of(now.minus(BEHIND)));
        var lines = book.inUse(facilityId, roomId);
        var meters = meters(lines, now);
        var presets = dues(lines, meters, now).stream()
                .filter(due -> within(due, until))
                .map(Due::preset)
                .sorted(Comparator.comparing(DuePreset::dueAt, Comparator.nullsLast(Comparator.naturalOrder()))
                        .thenComparing(DuePreset::preset))
                .toList();
        return new DueList(now, until, presets, instruments(meters, Days.of(now), until));
    }

    /** What makes each of the presets due, in their order. */
    List<Due> of(List<PresetLine> lines, Instant now) {
        return dues(lines, meters(lines, now), now);
    }

    private List<Due> dues(List<PresetLine> lines, Meters meters, Instant now) {
        var inQuestion = matches.inForceOf(ids(lines)).stream()
                .filter(agreement -> agreement.inQuestion() != null)
                .collect(Collectors.groupingBy(Agreement::followerPresetId));
        var troubles = book.troubles(ids(lines));
        return outlooks.sinceLeft(lines).stream()
                .map(prospect -> {
                    var preset = prospect.line().presetId();
                    var rules = rules(prospect, inQuestion.getOrDefault(preset, List.of()), meters.facts(), now);
                    troubles.getOrDefault(preset, List.of())
                            .forEach(trouble -> rules.add(new DueRule(
                                    DueReason.OUT_OF_TOLERANCE, trouble.since(), Sureness.FACT, trouble.headline())));
                    return new Due(prospect.line(), preset(prospect, rules, now));
                })
                .toList();
    }

    private static List<UUID> ids(List<PresetLine> lines) {
        return lines.stream().map(PresetLine::presetId).toList();
    }

    private void check(@Nullable UUID facilityId, @Nullable UUID roomId, @Nullable LocalDate until, LocalDate today) {
        new Checks()
                .that(facilityId == null || roomId == null, "room", "Name a room or a facility, not both.")
                .that(
                        facilityId == null || book.isFacility(facilityId),
                        "facility",
                        "There is no facility " + facilityId + ".")
                .that(roomId == null || book.isRoom(roomId), "room", "There is no room " + roomId + ".")
                .that(until == null || !until.isBefore(today), "until", "Must not lie before today, " + today + ".")
                .refuse();
    }

    private static boolean within(Due due, @Nullable LocalDate until) {
        var dueAt = due.preset().dueAt();
        return until == null || dueAt != null && !dayOf(dueAt, due.line()).isAfter(until);
    }

    private static LocalDate dayOf(Instant at, PresetLine line) {
        return LocalDate.ofInstant(at, line.zone());
    }

    private static DuePreset preset(Prospect prospect, List<DueRule> rules, Instant now) {
        var sorted = rules.stream().sorted(Comparator.comparing(DueRule::at)).toList();
        var first = sorted.isEmpty() ? null : sorted.get(0).at();
        return new DuePreset(
                prospect.line().presetId(),
                prospect.line().path(),
                prospect.line().zone().getId(),
                prospect.line().hero(),
                first,
                first != null && !first.isAfter(now),
                sorted);
    }

    private static List<DueRule> rules(
            Prospect prospect, List<Agreement> inQuestion, Map<UUID, InstrumentFacts> meters, Instant now) {
        var rules = new ArrayList<DueRule>();
        var line = prospect.line();
        if (line.baselineAt() == null) {
            rules.add(new DueRule(
                    DueReason.NEVER_CALIBRATED,
                    now,
                    Sureness.FACT,
                    "There is no baseline: calibrate it and upload an as-left run."));
        } else {
            byDays(line, line.baselineAt(), rules);
            byHours(prospect, line.baselineAt(), rules);
            byCertificate(line, line.baselineAt(), meters, rules);
        }
        prospect.outlooks().forEach(outlook -> byForecast(prospect, outlook, rules));
        inQuestion.forEach(agreement -> rules.add(byMatch(agreement, now)));
        return rules;
    }

    private static DueRule byMatch(Agreement agreement, Instant now) {
        var look = "Look at the pair again and sign off anew.";
        if (agreement.heroRebased() && !agreement.runWithdrawn()) {
            return new DueRule(
                    DueReason.HERO_RECALIBRATED,
                    now,
                    Sureness.FACT,
                    "The hero was recalibrated since the match for " + agreement.operator()
                            + (agreement.followerRebased() ? ", and the follower too. " : ". ") + look);
        }
        return new DueRule(
                DueReason.MATCH_IN_QUESTION,
                now,
                Sureness.FACT,
                "The match for " + agreement.operator() + " is in question: " + agreement.inQuestion() + ". " + look);
    }

    private static void byDays(PresetLine line, Instant baselineAt, List<DueRule> rules) {
        if (line.recalibrationDays() != null) {
            var days = line.recalibrationDays();
            rules.add(new DueRule(
                    DueReason.RECALIBRATION_DAYS,
                    baselineAt.plus(Duration.ofDays(days)),
                    Sureness.CALENDAR,
                    "It was calibrated on " + dayOf(baselineAt, line) + "; " + line.toleranceSet() + " allows " + days
                            + " days."));
        }
    }

    private static void byHours(Prospect prospect, Instant baselineAt, List<DueRule> rules) {
        var limit = prospect.line().recalibrationPanelHours();
        if (limit == null || prospect.counter().values().isEmpty()) {
            return;
        }
        var values = prospect.counter().values();
        var last = values.get(values.size() - 1).at();
        var ran = prospect.counter().hoursSince(baselineAt);
        var at = prospect.after(last, limit - ran);
        if (at != null) {
            rules.add(new DueRule(
                    DueReason.RECALIBRATION_PANEL_HOURS,
                    at,
                    ran >= limit ? Sureness.FACT : Sureness.OWN_USE,
                    "It had run " + Say.fixed(ran, 0) + " h since it was calibrated by "
                            + dayOf(last, prospect.line()) + "; "
                            + prospect.line().toleranceSet() + " allows " + limit + " h" + use(prospect) + "."));
        }
    }

    private static String use(Prospect prospect) {
        return prospect.use()
                .map(daily -> ", and it runs " + Say.fixed(daily.hoursPerDay(), 1) + " h a day")
                .orElse("");
    }

    private static void byCertificate(
            PresetLine line, Instant baselineAt, Map<UUID, InstrumentFacts> meters, List<DueRule> rules) {
        var meter = line.baselineInstrumentId() == null ? null : meters.get(line.baselineInstrumentId());
        if (meter == null) {
            return;
        }
        var until = meter.certifiedUntil(Days.of(baselineAt));
        if (until.isEmpty() || until.get().isBefore(Days.of(baselineAt))) {
            rules.add(new DueRule(
                    DueReason.CERTIFICATE,
                    baselineAt,
                    Sureness.FACT,
                    "Its baseline was measured with " + meter.name() + ", which had no valid certificate on "
                            + dayOf(baselineAt, line) + "."));
        }
    }

    private static void byForecast(Prospect prospect, Outlook outlook, List<DueRule> rules) {
        var from = outlook.from();
        if (from == null) {
            return;
        }
        var explanation = ForecastViews.explanation(prospect, outlook);
        switch (outlook.answer()) {
            case BEYOND_ALREADY -> rules.add(new DueRule(reason(outlook), from.lastAt(), Sureness.FACT, explanation));
            case CROSSES -> {
                add(prospect, outlook, from, outlook.earliestHours(), Sureness.EARLIEST_AT_90, explanation, rules);
                add(prospect, outlook, from, outlook.expectedHours(), Sureness.EXPECTED, explanation, rules);
            }
            default -> {
                // says nothing of a date
            }
        }
    }

    private static void add(
            Prospect prospect,
            Outlook outlook,
            Outlook.From from,
            @Nullable Double hours,
            Sureness sureness,
            String explanation,
            List<DueRule> rules) {
        var at = hours == null ? null : prospect.at(from, hours);
        if (at != null) {
            rules.add(new DueRule(reason(outlook), at, sureness, explanation));
        }
    }

    private static DueReason reason(Outlook outlook) {
        return outlook.luminance() ? DueReason.LUMINANCE_FORECAST : DueReason.WHITE_FORECAST;
    }

    /**
     * Meters.
     *
     * @param facts of all that are asked about, by id
     * @param lately ids of those that were used within a year
     */
    private record Meters(Map<UUID, InstrumentFacts> facts, Collection<UUID> lately) {}

    private Meters meters(List<PresetLine> lines, Instant now) {
        var lately = runs.instrumentsUsedOn(ids(lines), now.minus(LATELY)).keySet();
        var ids = new HashSet<>(lately);
        lines.stream()
                .map(PresetLine::baselineInstrumentId)
                .filter(Objects::nonNull)
                .forEach(ids::add);
        return new Meters(instruments.findAll(ids), lately);
    }

    private static List<DueInstrument> instruments(Meters meters, LocalDate today, @Nullable LocalDate until) {
        return meters.lately().stream()
                .map(id -> Objects.requireNonNull(meters.facts().get(id), "instrument of a run"))
                .map(meter -> instrument(meter, today))
                .filter(meter -> until == null
                        || meter.certifiedUntil() == null
                        || meter.certifiedUntil().isBefore(until))
                .sorted(Comparator.comparing(
                                DueInstrument::certifiedUntil, Comparator.nullsFirst(Comparator.naturalOrder()))
                        .thenComparing(DueInstrument::instrument))
                .toList();
    }

    private static DueInstrument instrument(InstrumentFacts meter, LocalDate today) {
        var until = meter.certifiedUntil(today).orElse(null);
        return new DueInstrument(meter.id(), meter.name(), until, until == null || until.isBefore(today));
    }
}
