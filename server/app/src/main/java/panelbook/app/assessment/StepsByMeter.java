package panelbook.app.assessment;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import panelbook.app.alerts.CauseReport;
import panelbook.app.alerts.CauseReport.SubjectKind;
import panelbook.app.assessment.StepCauses.Shown;
import panelbook.app.database.Rows;
import panelbook.app.runs.PresetFactsBook;
import panelbook.colorimetry.control.Move.Likeness;
import panelbook.wire.AlertCause;

/**
 * Steps that lie at a meter: every display that it measured on both sides stepped alike, or displays read otherwise since it
 * took over from another meter.
 */
@Component
class StepsByMeter {

    /** Displays looked at beside those that stepped, the latest measured first: a bound on what one upload costs. */
    private static final int LOOKED_AT = 60;

    private static final String STEPPED = """
            select sf.preset_id from standing_finding sf
            join preset p on p.id = sf.preset_id and p.retired_at is null
            where sf.slot in ('step-luminance', 'step-white') and sf.decision <> 'within'
              and exists (select 1 from counted_run r where r.preset_id = sf.preset_id and r.instrument_id = :instrument)
            group by sf.preset_id order by sf.preset_id limit :most
            """;

    private static final String MEASURED = """
            select r.preset_id from counted_run r
            join preset p on p.id = r.preset_id and p.retired_at is null
            join display d on d.id = p.display_id and d.retired_at is null
            where r.instrument_id = :instrument and r.taken_at > :from
              and exists (select 1 from counted_run b
                          where b.preset_id = r.preset_id and b.instrument_id = :instrument and b.taken_at < :to)
            group by r.preset_id order by max(r.taken_at) desc, r.preset_id limit :most
            """;

    private final JdbcClient jdbc;
    private final Steps steps;
    private final PresetFactsBook presets;
    private final FindingBook findings;

    StepsByMeter(JdbcClient jdbc, Steps steps, PresetFactsBook presets, FindingBook findings) {
        this.jdbc = jdbc;
        this.steps = steps;
        this.presets = presets;
        this.findings = findings;
    }

    /** What is known of steps at an instrument; empty when there is no such instrument. */
    Optional<CauseReport> report(UUID instrument) {
        var stepped = jdbc.sql(STEPPED)
                .param("instrument", instrument)
                .param("most", LOOKED_AT)
                .query(UUID.class)
                .list();
        var shown = StepCauses.shown(findings.standing(stepped), steps.seriesOf(presets.findAll(stepped), null));
        var anchors = shown.stream().filter(one -> !one.judged().clear()).toList();
        var common = anchors.stream()
                .filter(one -> !one.step().atChangeOfMeter() && one.step().byOneMeter())
                .filter(one -> one.step().meter().id().equals(instrument))
                .sorted(Comparator.comparing((Shown one) -> one.step().to()).reversed())
                .flatMap(one -> common(instrument, one.step()).stream())
                .findFirst()
                .orElse(null);
        var name = jdbc.sql("select name from instrument where id = :id")
                .param("id", instrument)
                .query(String.class)
                .optional();
        return name.map(meter -> common == null
                ? takingOver(instrument, meter, anchors)
                : ofAll(instrument, meter, common, StepCauses.showing(shown, common.steppers())));
    }

    private CauseReport ofAll(UUID instrument, String name, StepCompany common, List<Shown> held) {
        var beyond = held.stream().filter(one -> one.judged().beyond()).toList();
        var displays = StepCompany.displays(common.steppers()).size();
        return report(
                instrument,
                name,
                beyond,
                held,
                "Every display that " + name + " measured on both sides stepped alike, " + displays
                        + (displays == 1 ? " display: " : " displays: ")
                        + common.step().what() + ", ageing apart, "
                        + common.step().when()
                        + ". That points at the meter, not at the displays: have it checked, and measure one of them with"
                        + " another meter.",
                common.steppers(),
                StepCauses.overlap(common.steppers()));
    }

    private CauseReport takingOver(UUID instrument, String name, List<Shown> anchors) {
        var held = anchors.stream()
                .filter(one ->
                        one.step().atChangeOfMeter() && one.step().meter().id().equals(instrument))
                .toList();
        var beyond = held.stream().filter(one -> one.judged().beyond()).toList();
        return report(
                instrument,
                name,
                beyond,
                held,
                beyond.isEmpty()
                        ? ""
                        : beyond.get(0).step().series().preset().path() + ": "
                                + beyond.get(0).step().tale(),
                beyond.stream().map(Shown::step).toList(),
                beyond.stream()
                        .map(one -> one.step().before().instrument().id())
                        .distinct()
                        .sorted()
                        .map(other -> "taken over from " + other)
                        .collect(Collectors.joining(", ")));
    }

    private static CauseReport report(
            UUID instrument,
            String name,
            List<Shown> beyond,
            List<Shown> held,
            String headline,
            List<FoundStep> touched,
            String evidence) {
        return new CauseReport(
                AlertCause.STEPPED,
                SubjectKind.INSTRUMENT,
                instrument,
                name,
                null,
                null,
                beyond.isEmpty() ? "No step that displays share points at " + name + " any longer." : headline,
                beyond.isEmpty() ? List.of() : StepCauses.touched(touched),
                evidence,
                StepCauses.byPlace(beyond),
                StepCauses.lingering(held));
    }

    /** The step as this meter alone saw it, with what it saw on other displays; null when it does not point at the meter. */
    private Optional<StepCompany> common(UUID instrument, FoundStep step) {
        var measured = new HashSet<>(jdbc.sql(MEASURED)
                .param("instrument", instrument)
                .param("from", Rows.at(step.from()))
                .param("to", Rows.at(step.to()))
                .param("most", LOOKED_AT)
                .query(UUID.class)
                .list());
        var stepped = step.series().preset().presetId();
        measured.add(stepped);
        var series = steps.seriesOf(presets.findAll(measured), null);
        var own = only(series, stepped, instrument).flatMap(one -> one.at(step)).orElse(null);
        if (own == null || !own.size().isReal()) {
            return Optional.empty();
        }
        var seen = series.values().stream()
                .map(one -> one.only(instrument::equals))
                .filter(one -> one.size() > 0)
                .toList();
        var company = StepCompany.of(own, seen);
        return pointsAt(instrument, company, series) ? Optional.of(company) : Optional.empty();
    }

    private static Optional<StepSeries> only(Map<UUID, StepSeries> series, UUID preset, UUID instrument) {
        return Optional.ofNullable(series.get(preset))
                .map(one -> one.only(instrument::equals))
                .filter(one -> one.size() > 0);
    }

    private static boolean pointsAt(UUID instrument, StepCompany company, Map<UUID, StepSeries> series) {
        var others = byOthers(instrument, company, series);
        if (!company.apart().isEmpty() || others.contains(Likeness.ALIKE)) {
            return false;
        }
        return company.allAlike() && rooms(company).size() >= 2 || others.contains(Likeness.APART);
    }

    /** How what other meters saw on the displays that stepped compares with it. */
    private static Set<Likeness> byOthers(UUID instrument, StepCompany company, Map<UUID, StepSeries> series) {
        var seen = new ArrayList<Likeness>();
        for (var step : company.steppers()) {
            var others = java.util.Objects.requireNonNull(
                            series.get(step.series().preset().presetId()))
                    .only(other -> !other.equals(instrument));
            if (others.size() > 0) {
                others.at(step).ifPresent(there -> seen.add(step.size().like(there.size())));
            }
        }
        return Set.copyOf(seen);
    }

    private static Set<@Nullable UUID> rooms(StepCompany company) {
        return company.steppers().stream()
                .map(step -> step.series().preset().roomId())
                .collect(Collectors.toSet());
    }
}
