package panelbook.app.assessment;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeSet;
import java.util.UUID;
import java.util.stream.Collectors;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import panelbook.app.alerts.Alerts;
import panelbook.app.database.Rows;
import panelbook.app.matching.Agreement;
import panelbook.app.matching.Matches;
import panelbook.app.runs.PresetFactsBook;
import panelbook.app.runs.RunBook;
import panelbook.app.runs.StoredRun;
import panelbook.wire.AffectedFollower;
import panelbook.wire.AlertNotice;
import panelbook.wire.Purpose;
import panelbook.wire.Rule;

/** Reports the causes that standing findings come to. */
@Component
class CauseReporter {

    private final JdbcClient jdbc;
    private final PresetFactsBook presets;
    private final RunBook runs;
    private final Matches matches;
    private final FindingBook findings;
    private final Alerts alerts;

    CauseReporter(
            JdbcClient jdbc,
            PresetFactsBook presets,
            RunBook runs,
            Matches matches,
            FindingBook findings,
            Alerts alerts) {
        this.jdbc = jdbc;
        this.presets = presets;
        this.runs = runs;
        this.matches = matches;
        this.findings = findings;
        this.alerts = alerts;
    }

    /** Reports the causes at the preset, at the other halves of its pairs, and at the instrument. */
    List<AlertNotice> report(Subject subject, List<Judged> own, List<Agreement> agreements, String by) {
        var concerned = new LinkedHashSet<UUID>();
        concerned.add(subject.preset().presetId());
        agreements.forEach(agreement -> {
            concerned.add(agreement.heroPresetId());
            concerned.add(agreement.followerPresetId());
        });
        var notices = new ArrayList<>(reportAt(concerned, by));
        notices.addAll(reportMeter(subject, own, by));
        return notices;
    }

    /** Reports the causes at presets. */
    List<AlertNotice> reportAt(Set<UUID> concerned, String by) {
        var withFollowers = new LinkedHashSet<>(concerned);
        var agreements = matches.inForceOf(concerned);
        agreements.forEach(agreement -> withFollowers.add(agreement.followerPresetId()));
        var standing = findings.standing(withFollowers);
        var facts = presets.findAll(concerned);
        var states = states(concerned);
        var notices = new ArrayList<AlertNotice>();
        for (var presetId : concerned) {
            Causes.at(
                            Objects.requireNonNull(facts.get(presetId)),
                            standing,
                            states.getOrDefault(presetId, Causes.State.UNMEASURED),
                            inQuestionBy(presetId, agreements))
                    .forEach(report -> alerts.report(report, by).ifPresent(notices::add));
        }
        return notices;
    }

    /** Reports the certificate of the meter, if this was its last use: an earlier one says nothing of how it is used now. */
    List<AlertNotice> reportMeter(Subject subject, List<Judged> own, String by) {
        var run = subject.run().run();
        if (!runs.isLastOfItsInstrument(run)) {
            return List.of();
        }
        return own.stream()
                .filter(judged -> judged.finding().rule() == Rule.CERTIFICATE)
                .map(judged -> Causes.certificate(subject.run().instrument(), TimeFigures.day(run), judged))
                .flatMap(report -> alerts.report(report, by).stream())
                .toList();
    }

    /** The followers whose matches a hero's new baseline, or the loss of its run, puts in question. */
    private List<AffectedFollower> inQuestionBy(UUID hero, List<Agreement> agreements) {
        var inQuestion = agreements.stream()
                .filter(agreement -> agreement.heroPresetId().equals(hero) && agreement.heroInQuestion())
                .collect(Collectors.groupingBy(
                        Agreement::followerPresetId,
                        Collectors.mapping(Agreement::operator, Collectors.toCollection(TreeSet::new))));
        if (inQuestion.isEmpty()) {
            return List.of();
        }
        var facts = presets.findAll(inQuestion.keySet());
        return inQuestion.entrySet().stream()
                .map(entry -> new AffectedFollower(
                        entry.getKey(),
                        Objects.requireNonNull(facts.get(entry.getKey())).path(),
                        "in question for " + String.join(", ", entry.getValue())))
                .sorted(Comparator.comparing(AffectedFollower::preset))
                .toList();
    }

    private Map<UUID, Causes.State> states(Collection<UUID> presetIds) {
        var states = new HashMap<UUID, Causes.State>();
        jdbc.sql("""
                        select p.id, r.purpose, r.id as run, b.run_id = r.id as is_baseline,
                               (select f.id from baseline f where f.run_id = b.run_id
                                order by f.declared_at limit 1) as baseline,
                               coalesce(b.run_id = r.id and b.reason is not null, false) as accepted
                        from unnest(:presets) as p (id)
                        join run r on r.id = any (:latest) and r.preset_id = p.id
                        left join counted_baseline b on b.preset_id = p.id and upper_inf(b.during)
                        """)
                .param("presets", presetIds.toArray(new UUID[0]))
                .param(
                        "latest",
                        runs.latestOf(presetIds).stream().map(StoredRun::id).toArray(UUID[]::new))
                .query(row -> {
                    var asLeft = Purpose.AS_LEFT.toString().equals(row.getString("purpose"));
                    var baseline = Rows.idOrNull(row, "baseline");
                    states.put(
                            Rows.id(row, "id"),
                            new Causes.State(
                                    baseline == null || asLeft,
                                    row.getBoolean("accepted"),
                                    asLeft && !row.getBoolean("is_baseline"),
                                    Rows.id(row, "run").toString(),
                                    baseline == null ? "" : baseline.toString()));
                });
        return states;
    }
}
