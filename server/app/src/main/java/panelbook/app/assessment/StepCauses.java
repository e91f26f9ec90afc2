package panelbook.app.assessment;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import panelbook.app.alerts.Alerts;
import panelbook.app.alerts.CauseReport;
import panelbook.app.alerts.CauseReport.SubjectKind;
import panelbook.app.database.Rows;
import panelbook.app.matching.Agreement;
import panelbook.app.runs.PresetFacts;
import panelbook.app.runs.PresetFactsBook;
import panelbook.wire.AffectedFollower;
import panelbook.wire.AlertCause;
import panelbook.wire.Finding;
import panelbook.wire.Rule;

/** Puts steps to their causes: at the preset, at its room, at the instrument. */
@Component
class StepCauses {

    // what there is to say: alerts that may have to close, and findings that are not within
    private static final String CONCERNED = """
            select subject_kind as kind, subject_id as id from alert
            where cause = 'stepped' and closed_at is null
              and (subject_id = any (:presets) or subject_id = any (:rooms)
                   or (subject_kind = 'instrument'
                       and exists (select 1 from jsonb_array_elements(detail -> 'followers') f
                                   where (f ->> 'presetId')::uuid = any (:presets)))
                   or subject_id in (select p.id from display_stay s join preset p on p.display_id = s.display_id
                                     where s.room_id = any (:rooms) and upper_inf(s.during)))
            union all
            select 'finding', sf.preset_id from standing_finding sf
            where sf.slot in ('step-luminance', 'step-white') and sf.decision <> 'within'
              and (sf.preset_id = any (:presets)
                   or sf.preset_id in (select p.id from display_stay s
                                       join preset p on p.display_id = s.display_id and p.retired_at is null
                                       where s.room_id = any (:rooms) and upper_inf(s.during)))
            """;

    private final JdbcClient jdbc;
    private final Steps steps;
    private final StepsByMeter byMeter;
    private final PresetFactsBook presets;
    private final FindingBook findings;
    private final Rulebook rules;
    private final Alerts alerts;

    StepCauses(
            JdbcClient jdbc,
            Steps steps,
            StepsByMeter byMeter,
            PresetFactsBook presets,
            FindingBook findings,
            Rulebook rules,
            Alerts alerts) {
        this.jdbc = jdbc;
        this.steps = steps;
        this.byMeter = byMeter;
        this.presets = presets;
        this.findings = findings;
        this.rules = rules;
        this.alerts = alerts;
    }

    /**
     * A step with the finding that shows it.
     *
     * @param step as the series shows it now
     */
    record Shown(Judged judged, FoundStep step) {}

    private record Open(Set<UUID> instruments, Set<UUID> subjects, boolean anyFinding) {}

    /**
     * The causes that steps come to at presets, in the rooms that they stand in and at the instruments that measured them,
     * each as it stands; none where nothing stepped and no alert is open.
     *
     * @param concerned presets, by id
     * @param agreements in which one of them is the hero
     * @param lookAnyway whether to look although nothing stands: a run came in late, between others
     */
    List<CauseReport> of(Map<UUID, PresetFacts> concerned, List<Agreement> agreements, boolean lookAnyway) {
        var rooms = concerned.values().stream()
                .map(PresetFacts::roomId)
                .filter(Objects::nonNull)
                .collect(Collectors.toCollection(LinkedHashSet::new));
        var open = open(concerned.keySet(), rooms);
        if (!lookAnyway && open.subjects().isEmpty() && open.instruments().isEmpty() && !open.anyFinding()) {
            return List.of();
        }
        // what other rooms show is read below: whoever reads it is the only one until the end of the transaction
        alerts.lock();
        var all = new HashMap<>(concerned);
        rooms.forEach(room -> all.putAll(presets.findAll(steps.inRoom(room))));
        var series = steps.seriesOf(all, null);
        var shown = lookAgain(all, series);
        var reports = new ArrayList<CauseReport>();
        var instruments = new LinkedHashSet<>(open.instruments());
        shown.stream()
                .filter(one -> one.step().byOneMeter() || one.step().atChangeOfMeter())
                .filter(one -> !one.judged().clear())
                .forEach(one -> instruments.add(one.step().meter().id()));
        instruments.stream()
                .sorted()
                .forEach(instrument -> byMeter.report(instrument).ifPresent(reports::add));
        rooms.forEach(room -> reports.add(room(room, series, shown)));
        all.values().stream()
                .filter(preset -> !preset.retired())
                .filter(preset -> open.subjects().contains(preset.presetId()) || isShown(preset, shown))
                .sorted(Comparator.comparing(PresetFacts::path))
                .forEach(preset -> reports.add(preset(preset, shown, agreements)));
        return reports;
    }

    private Open open(Set<UUID> presetIds, Set<UUID> rooms) {
        var instruments = new LinkedHashSet<UUID>();
        var open = new LinkedHashSet<UUID>();
        var finding = new boolean[1];
        jdbc.sql(CONCERNED)
                .param("presets", presetIds.toArray(new UUID[0]))
                .param("rooms", rooms.toArray(new UUID[0]))
                .query(row -> {
                    switch (row.getString("kind")) {
                        case "instrument" -> instruments.add(Rows.id(row, "id"));
                        case "finding" -> finding[0] = true;
                        default -> open.add(Rows.id(row, "id"));
                    }
                });
        return new Open(instruments, open, finding[0]);
    }

    private static boolean isShown(PresetFacts preset, List<Shown> shown) {
        return shown.stream().anyMatch(one -> one.judged().finding().presetId().equals(preset.presetId()));
    }

    /**
     * What others in the room did where one stepped is known only once they are measured: the findings of a room's steps are
     * made to say what is known now.
     */
    private List<Shown> lookAgain(Map<UUID, PresetFacts> facts, Map<UUID, StepSeries> series) {
        var standing = findings.standing(facts.keySet()).stream()
                .filter(judged -> judged.finding().rule() == Rule.STEP)
                .collect(Collectors.toMap(Judged::place, judged -> judged, (a, b) -> a, LinkedHashMap::new));
        var anew = new ArrayList<Judged>();
        var places = new HashSet<String>();
        for (var one : series.values()) {
            if (one.preset().retired()) {
                continue;
            }
            for (var judged : rules.judge(
                    steps.figures(one, () -> inRoomOf(one, series)),
                    one.preset(),
                    one.last().id())) {
                places.add(judged.place());
                if (!saysTheSame(standing.get(judged.place()), judged)) {
                    anew.add(judged);
                }
            }
        }
        findings.keep(anew, null);
        findings.stand(anew);
        anew.forEach(judged -> standing.put(judged.place(), judged));
        var gone = standing.keySet().stream()
                .filter(place -> !places.contains(place))
                .toList();
        gone.forEach(standing::remove);
        if (!gone.isEmpty()) {
            findings.stepDown(
                    facts.keySet(),
                    finding ->
                            finding.rule() == Rule.STEP && gone.contains(finding.presetId() + " " + finding.metric()));
        }
        return shown(List.copyOf(standing.values()), series);
    }

    private static boolean saysTheSame(@Nullable Judged before, Judged now) {
        return before != null
                && before.finding().explanation().equals(now.finding().explanation())
                && before.finding().decision() == now.finding().decision()
                && Math.abs(before.finding().value() - now.finding().value()) < 1e-9;
    }

    private static List<StepSeries> inRoomOf(StepSeries one, Map<UUID, StepSeries> series) {
        var room = one.preset().roomId();
        return room == null
                ? List.of()
                : series.values().stream()
                        .filter(other -> room.equals(other.preset().roomId()))
                        .toList();
    }

    /** Standing findings of steps with their steps, the gravest first. */
    static List<Shown> shown(List<Judged> standing, Map<UUID, StepSeries> series) {
        var shown = new ArrayList<Shown>();
        standing.stream()
                .filter(judged -> judged.finding().rule() == Rule.STEP)
                .sorted(Comparator.comparingDouble(Judged::gravity).reversed())
                .forEach(judged -> {
                    var step = Steps.told(
                            series,
                            judged.finding().presetId(),
                            judged.finding().metric());
                    if (step != null) {
                        shown.add(new Shown(judged, step));
                    }
                });
        return shown;
    }

    private CauseReport preset(PresetFacts preset, List<Shown> shown, List<Agreement> agreements) {
        var own = shown.stream()
                .filter(one -> one.judged().finding().presetId().equals(preset.presetId()))
                .filter(one -> !one.step().atChangeOfMeter())
                .toList();
        var beyond = own.stream().filter(one -> one.judged().beyond()).toList();
        var followers =
                beyond.isEmpty() ? List.<AffectedFollower>of() : followers(preset, beyond.get(0), shown, agreements);
        return new CauseReport(
                AlertCause.STEPPED,
                SubjectKind.PRESET,
                preset.presetId(),
                preset.path(),
                preset.facilityId(),
                preset.roomId(),
                beyond.isEmpty()
                        ? "It stands as it was left, ageing apart: no step is beyond its limit."
                        : headline(beyond.get(0), followers),
                followers,
                evidence(beyond),
                byPlace(beyond),
                lingering(own));
    }

    private static String headline(Shown gravest, List<AffectedFollower> followers) {
        var finding = gravest.judged().finding();
        var opening = followers.isEmpty() ? "It stepped. " : "The hero stepped. ";
        var names = followers.isEmpty()
                ? ""
                : " Followers matched to it: "
                        + followers.stream().map(AffectedFollower::preset).collect(Collectors.joining(", ")) + ".";
        return opening + finding.explanation() + " Limit " + Say.short3(finding.limit()) + " " + finding.unit() + "."
                + names;
    }

    /** Those matched to a hero; one that stepped as well has an alert of its own, which the hero's does not explain. */
    private List<AffectedFollower> followers(
            PresetFacts hero, Shown gravest, List<Shown> shown, List<Agreement> agreements) {
        var paths = presets.findAll(
                agreements.stream().map(Agreement::followerPresetId).toList());
        var stepped = shown.stream()
                .filter(one -> one.judged().beyond())
                .map(one -> one.judged().finding().presetId())
                .collect(Collectors.toSet());
        var followers = new LinkedHashMap<UUID, AffectedFollower>();
        agreements.stream()
                .filter(agreement -> agreement.heroPresetId().equals(hero.presetId()))
                .filter(agreement -> !stepped.contains(agreement.followerPresetId()))
                .forEach(agreement -> followers.putIfAbsent(
                        agreement.followerPresetId(),
                        new AffectedFollower(
                                agreement.followerPresetId(),
                                Objects.requireNonNull(paths.get(agreement.followerPresetId()))
                                        .path(),
                                "It was matched to this hero, which stepped: "
                                        + gravest.step().what() + ".")));
        return List.copyOf(followers.values());
    }

    private CauseReport room(UUID room, Map<UUID, StepSeries> series, List<Shown> shown) {
        var common = shown.stream()
                .filter(one -> room.equals(one.step().series().preset().roomId()))
                .filter(one -> !one.judged().clear() && !one.step().atChangeOfMeter())
                .map(one -> StepCompany.of(one.step(), inRoomOf(one.step().series(), series)))
                .filter(StepCompany::allAlike)
                .max(Comparator.comparing(company -> company.step().to()))
                .orElse(null);
        var place = place(room);
        var held = common == null ? List.<Shown>of() : showing(shown, common.steppers());
        var beyond = held.stream().filter(one -> one.judged().beyond()).toList();
        return new CauseReport(
                AlertCause.STEPPED,
                SubjectKind.ROOM,
                room,
                place.path(),
                place.facilityId(),
                room,
                common == null || beyond.isEmpty()
                        ? "The displays of the room share no step any longer."
                        : "All " + StepCompany.displays(common.steppers()).size()
                                + " displays that tell stepped alike: "
                                + common.step().what() + ", ageing apart, "
                                + common.step().when()
                                + ". That points at the feed or the meter, not at the displays: check what they share"
                                + " before anybody turns a control.",
                common == null ? List.of() : touched(common.steppers()),
                common == null ? "" : overlap(common.steppers()),
                byPlace(beyond),
                lingering(held));
    }

    private record Place(String path, @Nullable UUID facilityId) {}

    private Place place(UUID room) {
        return jdbc.sql("""
                        select f.name || '/' || r.name as path, f.id from room r join facility f on f.id = r.facility_id
                        where r.id = :room
                        """)
                .param("room", room)
                .query((row, n) -> new Place(row.getString("path"), Rows.id(row, "id")))
                .single();
    }

    /** The findings that show certain steps. */
    static List<Shown> showing(List<Shown> shown, List<FoundStep> of) {
        var slots = of.stream()
                .map(step -> step.series().preset().presetId() + " " + step.metric())
                .collect(Collectors.toSet());
        return shown.stream()
                .filter(one -> slots.contains(one.judged().place()))
                .toList();
    }

    /** The presets that stepped, as an alert lists them. */
    static List<AffectedFollower> touched(List<FoundStep> steppers) {
        return steppers.stream()
                .map(step -> new AffectedFollower(
                        step.series().preset().presetId(),
                        step.series().preset().path(),
                        step.tale()))
                .toList();
    }

    /** The time that all of the steps may lie in; it stays the same once all were measured after. */
    static String overlap(List<FoundStep> steppers) {
        return steppers.stream()
                        .map(FoundStep::from)
                        .max(Comparator.naturalOrder())
                        .orElseThrow()
                + ".."
                + steppers.stream()
                        .map(FoundStep::to)
                        .min(Comparator.naturalOrder())
                        .orElseThrow();
    }

    private static String evidence(List<Shown> beyond) {
        return beyond.stream()
                .map(one -> one.step().evidence())
                .distinct()
                .sorted()
                .collect(Collectors.joining(" "));
    }

    static Map<String, Finding> byPlace(List<Shown> beyond) {
        var places = new LinkedHashMap<String, Finding>();
        beyond.forEach(one -> places.put(one.judged().place(), one.judged().finding()));
        return places;
    }

    static Set<String> lingering(List<Shown> shown) {
        return shown.stream()
                .filter(one -> !one.judged().clear())
                .map(one -> one.judged().place())
                .collect(Collectors.toSet());
    }
}
