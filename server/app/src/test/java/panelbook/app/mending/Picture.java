package panelbook.app.mending;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.TreeSet;
import java.util.UUID;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import panelbook.app.testing.Http;
import panelbook.app.testing.Studio;
import panelbook.wire.Alert;
import panelbook.wire.Baseline;
import panelbook.wire.Finding;
import panelbook.wire.Hero;
import panelbook.wire.Match;
import panelbook.wire.PanelHours;
import panelbook.wire.Preset;
import panelbook.wire.Quirk;
import panelbook.wire.RoomReadiness;
import panelbook.wire.RoomTrims;
import panelbook.wire.Run;

/**
 * All that a facility's book says now, without ids, without when and by whom it was put there, and without the facility's
 * name: two facilities in which the same was done have the same picture.
 */
record Picture(
        List<String> findings,
        List<String> baselines,
        List<String> runs,
        List<String> alerts,
        List<String> readiness,
        List<String> trims,
        List<String> panelHours,
        List<String> heroes,
        List<String> quirks) {

    static Picture of(Http service, Studio studio) {
        var presets = service.all("/presets?room=" + studio.room(), Preset.class);
        Function<String, String> plain = text -> text.replace(studio.name(), "HOUSE");
        return new Picture(
                all(presets, preset -> findings(service, preset, plain)),
                all(presets, preset -> baselines(service, preset)),
                all(presets, preset -> runs(service, preset, plain)),
                alerts(service, studio, plain),
                readiness(service, studio),
                trims(service, studio, plain),
                all(presets, preset -> hours(service, preset)),
                service.get("/rooms/" + studio.room() + "/heroes").asListOf(Hero.class).stream()
                        .map(hero -> hero.display() + "/" + hero.preset())
                        .sorted()
                        .toList(),
                all(presets, preset -> quirks(service, preset)));
    }

    /** Everything, line by line. */
    List<String> lines() {
        return Stream.of(findings, baselines, runs, alerts, readiness, trims, panelHours, heroes, quirks)
                .flatMap(List::stream)
                .sorted()
                .toList();
    }

    private static List<String> all(List<Preset> presets, Function<Preset, Collection<String>> of) {
        return presets.stream()
                .flatMap(preset -> of.apply(preset).stream().map(text -> preset.display() + ": " + text))
                .sorted()
                .toList();
    }

    private static List<String> findings(Http service, Preset preset, Function<String, String> plain) {
        return service.get("/presets/" + preset.id() + "/findings").asListOf(Finding.class).stream()
                .map(finding -> finding(finding, plain))
                .toList();
    }

    private static String finding(Finding f, Function<String, String> plain) {
        return "%s %.9f against %.4f ±%s %s, %d readings: %s"
                .formatted(
                        f.metric(),
                        f.value(),
                        f.limit(),
                        f.uncertainty() == null ? "?" : String.format(Locale.ROOT, "%.9f", f.uncertainty()),
                        f.decision(),
                        f.readings().size(),
                        plain.apply(f.explanation()));
    }

    private static List<String> baselines(Http service, Preset preset) {
        return service.get("/presets/" + preset.id() + "/baselines").asListOf(Baseline.class).stream()
                .filter(baseline -> baseline.withdrawn() == null)
                .map(baseline -> baseline.from() + " to " + baseline.to() + " of the run of "
                        + taken(service, baseline.runId()) + ", " + baseline.reason())
                .toList();
    }

    private static Instant taken(Http service, UUID run) {
        return service.get("/runs/" + run).as(Run.class).takenAt();
    }

    private static List<String> runs(Http service, Preset preset, Function<String, String> plain) {
        return service.all("/runs?preset=" + preset.id(), Run.class).stream()
                .filter(run -> run.withdrawn() == null)
                .map(run -> plain.apply(String.join(
                        " ",
                        run.preset(),
                        run.instrument(),
                        run.purpose().toString(),
                        run.operator(),
                        run.takenAt().toString(),
                        String.valueOf(run.panelHours()),
                        String.valueOf(run.minutesSincePowerOn()),
                        String.valueOf(run.warmedUp()),
                        String.valueOf(run.fileName()),
                        String.valueOf(run.remarks()),
                        String.valueOf(run.readingCount()),
                        run.baseline() ? "baseline" : "")))
                .toList();
    }

    private static List<String> alerts(Http service, Studio studio, Function<String, String> plain) {
        var shown = new ArrayList<String>();
        for (var alert : service.all("/alerts", Alert.class)) {
            var ofMeter = alert.facilityId() == null && alert.subject().startsWith(studio.name());
            if (ofMeter || studio.facility().equals(alert.facilityId())) {
                var whole = service.get("/alerts/" + alert.id()).as(Alert.class);
                shown.add(plain.apply(String.join(
                        " | ",
                        alert.cause().toString(),
                        alert.subject(),
                        String.valueOf(alert.room()),
                        alert.headline(),
                        new TreeSet<>(alert.followers().stream()
                                        .map(follower -> follower.preset() + " " + follower.text())
                                        .toList())
                                .toString(),
                        whole.findings().stream()
                                .map(finding -> finding(finding, plain))
                                .sorted()
                                .collect(Collectors.joining("; ")))));
            }
        }
        shown.sort(null);
        return shown;
    }

    private static List<String> readiness(Http service, Studio studio) {
        var readiness = service.get("/rooms/" + studio.room() + "/readiness").as(RoomReadiness.class);
        var shown = readiness.reasons().stream()
                .map(reason -> reason.weight() + " " + reason.code() + " " + reason.display() + "/" + reason.preset()
                        + ": " + reason.text().replace(studio.name(), "HOUSE"))
                .sorted()
                .collect(Collectors.toCollection(ArrayList::new));
        shown.add(0, readiness.state().toString());
        return shown;
    }

    private static List<String> trims(Http service, Studio studio, Function<String, String> plain) {
        var trims = service.get("/rooms/" + studio.room() + "/trims").as(RoomTrims.class);
        var shown = new ArrayList<String>();
        trims.inForce().forEach(match -> shown.add("in force: " + match(service, match, plain)));
        trims.history().stream()
                .filter(match -> match.withdrawn() == null)
                .forEach(match -> shown.add("replaced: " + match(service, match, plain)));
        shown.sort(null);
        return shown;
    }

    private static String match(Http service, Match match, Function<String, String> plain) {
        var offset = match.agreedOffset();
        return plain.apply(String.join(
                " | ",
                match.follower(),
                match.hero(),
                match.operator(),
                match.signedAt().toString(),
                offset == null ? "unmeasured" : "%.9f %.9f".formatted(offset.duv(), offset.luminancePercent()),
                match.trims().toString(),
                String.valueOf(match.material()),
                String.valueOf(match.inQuestion()),
                closing(service, match.followerRunId()),
                closing(service, match.heroRunId())));
    }

    private static String closing(Http service, UUID run) {
        return run == null ? "-" : taken(service, run).toString();
    }

    private static List<String> hours(Http service, Preset preset) {
        return service.all("/displays/" + preset.displayId() + "/panel-hours", PanelHours.class).stream()
                .map(hours -> hours.at() + " " + hours.hours() + " " + Objects.toString(hours.note()) + " "
                        + (hours.runId() == null ? "by hand" : "by a run"))
                .toList();
    }

    private static List<String> quirks(Http service, Preset preset) {
        return service.get("/displays/" + preset.displayId() + "/quirks?settled=true").asListOf(Quirk.class).stream()
                .map(quirk -> quirk.seenAt() + " " + quirk.note() + " "
                        + (quirk.settlement() == null
                                ? "open"
                                : quirk.settlement().word()))
                .toList();
    }
}
