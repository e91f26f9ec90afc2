package panelbook.cli.command;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.UUID;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import panelbook.cli.service.Paths;
import panelbook.cli.service.SavedSheet;
import panelbook.wire.AgreedOffset;
import panelbook.wire.Alert;
import panelbook.wire.AsLeft;
import panelbook.wire.Decision;
import panelbook.wire.Deviation;
import panelbook.wire.Diagnosis;
import panelbook.wire.Display;
import panelbook.wire.Finding;
import panelbook.wire.Match;
import panelbook.wire.MatchStory;
import panelbook.wire.Metric;
import panelbook.wire.OperatorDifference;
import panelbook.wire.Quirk;
import panelbook.wire.Reason;
import panelbook.wire.RoomSheet;
import panelbook.wire.Run;
import panelbook.wire.SheetCorrection;
import panelbook.wire.SheetDisplay;
import panelbook.wire.SheetMeter;
import panelbook.wire.SheetPreset;
import panelbook.wire.SheetTarget;
import panelbook.wire.TrimOrigin;

/**
 * A room sheet in words: one line per thing to know, the same ones for a terminal and for a pipe. Ages and certificates are
 * told as of the moment of reading, so that an old copy does not speak of its own day as of today.
 */
final class SheetText {

    /**
     * One thing to know.
     *
     * @param section what it is part of
     * @param subject what it is about; empty when about the section as a whole
     * @param label what is said
     */
    record Line(String section, String subject, String label, String text) {}

    private static final DateTimeFormatter MINUTE = DateTimeFormatter.ofPattern("yyyy-MM-dd HH:mm", Locale.ROOT);

    /** In any unit of the sheet; meters tell u′v′ to 1e-4 and black to 1e-5 cd/m² at best. Common practice, no published source. */
    private static final double LEAST_FIGURE = 1e-6;

    private final RoomSheet sheet;
    private final Instant now;
    private final ZoneId zone;
    private final List<Line> lines = new ArrayList<>();
    private String section = "";
    private String subject = "";

    private SheetText(RoomSheet sheet, Instant now) {
        this.sheet = sheet;
        this.now = now;
        this.zone = ZoneId.of(sheet.room().timeZone());
    }

    /** A sheet fresh from the service. */
    static List<Line> of(RoomSheet sheet) {
        return new SheetText(sheet, sheet.at()).all(null);
    }

    /** A saved copy, read at {@code now}. */
    static List<Line> of(SavedSheet copy, Instant now) {
        var later = now.isBefore(copy.sheet().at()) ? copy.sheet().at() : now;
        return new SheetText(copy.sheet(), later).all(copy);
    }

    /** How old a saved copy is, in words. */
    static String age(SavedSheet copy, Instant now) {
        return "a copy " + span(Duration.between(copy.sheet().at(), now)) + " old, from " + copy.service()
                + "; what happened since is not on it";
    }

    private List<Line> all(@Nullable SavedSheet copy) {
        section = "ROOM SHEET";
        if (copy != null) {
            say("saved", age(copy, now));
        }
        room();
        section = "ALERTS";
        alerts();
        sheet.targets().forEach(this::target);
        section = "DISPLAYS";
        displays();
        section = "TRIMS IN FORCE";
        trims();
        section = "MATCHES UNDER WAY";
        sheet.matchesUnderWay().forEach(this::underWay);
        about("");
        section = "METERS";
        meters();
        section = "CAUTIONS";
        sheet.cautions().forEach(caution -> say("caution", caution));
        return lines;
    }

    private void room() {
        say("room", Paths.of(sheet.room()));
        say("as of", moment(sheet.at()) + " " + zone);
        say("readiness", sheet.readiness().state().toString());
        // the others stand under ALERTS
        sheet.readiness().reasons().stream()
                .filter(reason -> reason.alertId() == null)
                .forEach(reason -> say("reason", reason.weight() + ": " + where(reason) + reason.text()));
    }

    private static String where(Reason reason) {
        if (reason.display() == null) {
            return "";
        }
        return reason.display() + (reason.preset() == null ? "" : "/" + reason.preset()) + ": ";
    }

    private void alerts() {
        if (sheet.alerts().isEmpty()) {
            say("none", "No alert is open.");
        }
        for (var alert : HeldBack.belowTheirHolders(sheet.alerts())) {
            about(here(alert.subject()));
            say(
                    alert.heldBy() == null ? alert.state().toString() : "held back",
                    alert.cause() + ": " + alert.headline());
            followers(alert);
            explainedBy(alert);
            say("since", moment(alert.openedAt()) + "; alert " + alert.id());
        }
        about("");
    }

    private void explainedBy(Alert alert) {
        sheet.alerts().stream()
                .filter(other -> other.id().equals(alert.heldBy()))
                .forEach(holder -> say("explained", "by " + holder.cause() + " on " + here(holder.subject())));
    }

    private void followers(Alert alert) {
        alert.followers().forEach(follower -> say("follower", here(follower.preset()) + ": " + follower.text()));
    }

    private void target(SheetTarget part) {
        section = "TARGET " + part.target().name();
        say("aim", part.aim());
        say(
                "judged by",
                part.target().toleranceSet() + "; warm up " + part.warmUpMinutes() + " minutes before measuring");
        if (part.presets().size() > 1
                && part.presets().stream().noneMatch(one -> one.preset().hero())) {
            say("hero", "none is named for this target");
        }
        part.presets().forEach(preset -> preset(part, preset));
        about("");
    }

    private void preset(SheetTarget part, SheetPreset shown) {
        var preset = shown.preset();
        about(preset.display() + "/" + preset.name());
        var hasHero = part.presets().stream().anyMatch(one -> one.preset().hero());
        var display = display(preset.displayId());
        say(
                "role",
                (preset.hero() ? "hero" : hasHero ? "follower" : "no hero to follow")
                        + (display == null ? "" : "; " + display.model() + ", " + display.panelTechnology()));
        if (shown.asLeft() == null) {
            say("as left", "never calibrated to this target");
        } else {
            asLeft(shown.asLeft(), display);
        }
        signalPath(shown.diagnosis());
        drift(shown);
    }

    private void asLeft(AsLeft left, @Nullable Display display) {
        var run = left.run();
        say(
                "as left",
                day(run.takenAt()) + ", " + days(run.takenAt()) + ago(left, display) + ", by " + run.operator()
                        + " with " + run.instrument() + (Boolean.FALSE.equals(run.warmedUp()) ? ", taken cold" : ""));
        optional("remarks", run.remarks());
        optional("corrected", left.correction());
        optional("white", white(left));
        optional("black", black(left));
        deviation("ΔE ITP", left.deltaEItp());
        deviation("ΔE 2000", left.deltaE2000());
        judged("judged", measurable(left), "no figure of it was judged");
    }

    private String ago(AsLeft left, @Nullable Display display) {
        if (left.panelHours() != null) {
            return " and " + Words.fixed(left.panelHours(), 0) + " panel hours ago"
                    + (now.equals(sheet.at()) ? "" : " (hours as of this copy)");
        }
        var then = left.run().panelHours();
        var counter = display == null ? null : display.panelHours();
        return " ago, panel hours since unknown"
                + (then == null || counter == null
                        ? ""
                        : " (the counter went from " + Words.fixed(then, 0) + " back to " + Words.fixed(counter, 0)
                                + ")");
    }

    private static @Nullable String white(AsLeft left) {
        if (left.whiteLuminance() == null) {
            return null;
        }
        var text = new StringBuilder(figure(left.whiteLuminance()) + " cd/m²");
        if (left.whiteU() != null && left.whiteV() != null) {
            text.append(", u′ ")
                    .append(Words.fixed(left.whiteU(), 4))
                    .append(" v′ ")
                    .append(Words.fixed(left.whiteV(), 4));
        }
        if (left.whiteCct() != null && left.whiteDuv() != null) {
            text.append(", ")
                    .append(Words.fixed(left.whiteCct(), 0))
                    .append(" K, Duv ")
                    .append(signed(left.whiteDuv(), 4));
        }
        return text.toString();
    }

    private static @Nullable String black(AsLeft left) {
        return left.blackLuminance() == null
                ? null
                : figure(left.blackLuminance()) + " cd/m²"
                        + (left.whiteLuminance() == null
                                ? ""
                                : left.contrast() == null
                                        ? ", contrast not measurable: black lies at the meter's floor"
                                        : ", contrast " + Words.fixed(left.contrast(), 0) + ":1");
    }

    /** A contrast that is not measurable is told with black; what was judged of it stands only when it is not within. */
    private static List<Finding> measurable(AsLeft left) {
        return left.contrast() != null
                ? left.findings()
                : left.findings().stream()
                        .filter(finding -> finding.metric() != Metric.CONTRAST || finding.decision() != Decision.WITHIN)
                        .toList();
    }

    private void deviation(String label, @Nullable Deviation deviation) {
        if (deviation != null) {
            say(
                    label,
                    "mean " + Words.fixed(deviation.mean(), 2) + ", 95 % within "
                            + Words.fixed(deviation.percentile95(), 2)
                            + ", largest " + Words.fixed(deviation.maximum(), 2) + " at " + deviation.worst() + "; "
                            + deviation.patches() + " patches");
        }
    }

    private void drift(SheetPreset shown) {
        var latest = shown.latest();
        if (latest == null) {
            say("drift", "no run shows how it stands");
            return;
        }
        say(
                "measured",
                latest.purpose() + " of " + day(latest.takenAt()) + ", " + days(latest.takenAt()) + " ago"
                        + (isBaseline(shown, latest) ? ": the run it was left with, none since" : ""));
        judged("drift", shown.drift(), "no drift was judged");
        var byMatch = shown.setAside().stream()
                .collect(Collectors.groupingBy(
                        finding -> Objects.toString(finding.matchId(), ""), LinkedHashMap::new, Collectors.toList()));
        byMatch.values()
                .forEach(findings -> say(
                        "set aside",
                        "against what was signed off for "
                                + operator(findings.get(0).matchId()) + ": "
                                + findings.stream().map(SheetText::brief).collect(Collectors.joining(", "))));
    }

    private void signalPath(@Nullable Diagnosis diagnosis) {
        if (diagnosis != null && diagnosis.suspect()) {
            say("signal path", "ramp of " + day(diagnosis.takenAt()) + ": " + diagnosis.summary());
        }
    }

    private static boolean isBaseline(SheetPreset shown, Run latest) {
        return shown.asLeft() != null && shown.asLeft().run().id().equals(latest.id());
    }

    /** Each figure that is not within in full, then those within in one line. */
    private void judged(String label, List<Finding> findings, String none) {
        if (findings.isEmpty()) {
            say(label, none);
            return;
        }
        findings.stream()
                .filter(finding -> finding.decision() != Decision.WITHIN)
                .forEach(finding ->
                        say(label, finding.decision() + ": " + finding.metric() + " " + Verdicts.figures(finding)));
        var within = findings.stream()
                .filter(finding -> finding.decision() == Decision.WITHIN)
                .toList();
        if (!within.isEmpty()) {
            say(label, "within: " + within.stream().map(this::briefWithOperator).collect(Collectors.joining(", ")));
        }
    }

    private String briefWithOperator(Finding finding) {
        return brief(finding) + (finding.matchId() == null ? "" : " for " + operator(finding.matchId()));
    }

    private static String brief(Finding finding) {
        return finding.metric() + " " + figure(finding.value()) + " " + finding.unit();
    }

    private String operator(@Nullable UUID matchId) {
        return sheet.trims().stream()
                .filter(match -> match.id().equals(matchId))
                .map(Match::operator)
                .findFirst()
                .orElse("an earlier match");
    }

    private void displays() {
        if (sheet.displays().isEmpty()) {
            say("none", "No display stands here.");
        }
        sheet.displays().forEach(this::display);
        about("");
    }

    private void display(SheetDisplay shown) {
        var display = shown.display();
        about(display.name());
        say(
                "model",
                display.model() + ", " + display.panelTechnology()
                        + (display.serialNumber() == null ? "" : ", serial number " + display.serialNumber()));
        say("panel hours", display.panelHours() == null ? "unknown" : Words.fixed(display.panelHours(), 0) + " h");
        shown.panelHoursQuestions()
                .forEach(question -> say(
                        "panel hours?", question.text() + " (panelbook display hours answer " + question.id() + ")"));
        optional("notes", display.notes());
        shown.quirks().forEach(quirk -> say("quirk", quirk(quirk)));
        if (shown.quirks().isEmpty()) {
            say("quirk", "none open");
        }
    }

    private String quirk(Quirk quirk) {
        return quirk.note() + " (seen " + day(quirk.seenAt()) + " by " + quirk.recordedBy() + "; quirk " + quirk.id()
                + ")";
    }

    private void trims() {
        if (sheet.trims().isEmpty()) {
            say("none", "No match is in force here.");
        }
        sheet.trims().forEach(this::match);
        about("");
        sheet.differences().forEach(apart -> say("operators", apart(apart)));
    }

    private void match(Match match) {
        about(here(match.follower()) + " for " + match.operator());
        say("hero", here(match.hero()));
        say("trims", Views.trims(match.trims()));
        say("offset", offset(match.agreedOffset()));
        if (match.agreedOffset() != null) {
            optional("corrected", corrected(match.agreedOffset().corrections()));
        }
        say(
                "signed",
                moment(match.signedAt()) + ", " + days(match.signedAt()) + " ago; recorded by " + match.recordedBy());
        sheet.origins().stream()
                .filter(origin -> origin.matchId().equals(match.id()))
                .forEach(origin -> say("came about", cameAbout(origin)));
        optional("material", match.material());
        optional("remarks", match.remarks());
        if (match.inQuestion() != null) {
            say("in question", match.inQuestion());
        }
    }

    private String cameAbout(TrimOrigin origin) {
        return "by " + origin.steps() + " steps, " + origin.undone() + " of them taken back; " + origin.readings()
                + " readings; verdicts: " + origin.better() + " better, " + origin.worse() + " worse, "
                + origin.same() + " same"
                + (origin.overrides() == 0 ? "" : "; guards overridden: " + origin.overrides())
                + "; match " + origin.storyId();
    }

    private void underWay(MatchStory story) {
        about(here(story.follower()) + " for " + story.operator());
        say(
                "opened",
                moment(story.openedAt()) + ", " + days(story.openedAt()) + " ago by " + story.recordedBy() + ", "
                        + story.steps().size() + " steps; match " + story.id());
        say("trims", Views.trims(story.settings()));
    }

    private static @Nullable String corrected(List<String> corrections) {
        return corrections.isEmpty() ? null : String.join("; ", corrections);
    }

    private static String offset(@Nullable AgreedOffset offset) {
        return offset == null
                ? "unmeasured: signed without closing runs, so no drift is judged against it"
                : "Δu′ " + signed(offset.du(), 4) + ", Δv′ " + signed(offset.dv(), 4) + ", Δu′v′ "
                        + Words.fixed(offset.duv(), 4) + " (± " + Words.fixed(offset.chromaticityUncertainty(), 4)
                        + " in each), luminance "
                        + signed(offset.luminancePercent(), 1) + " % (± "
                        + Words.fixed(offset.luminanceUncertaintyPercent(), 1)
                        + "), follower less hero";
    }

    private String apart(OperatorDifference apart) {
        return here(apart.follower()) + ", " + apart.other() + " less " + apart.operator() + ": " + measured(apart)
                + "; clicks: " + Views.trims(apart.clicks());
    }

    private static String measured(OperatorDifference apart) {
        var duv = apart.duv();
        var du = apart.du();
        var dv = apart.dv();
        var luminance = apart.luminancePercent();
        return duv == null || du == null || dv == null || luminance == null
                ? "unmeasured"
                : "Δu′v′ " + Words.fixed(duv, 4) + " (Δu′ " + signed(du, 4) + ", Δv′ " + signed(dv, 4) + "), luminance "
                        + signed(luminance, 1) + " %";
    }

    private void meters() {
        if (sheet.meters().isEmpty()) {
            say("none", "No meter was used here lately. --instrument NAME shows the one in hand.");
        }
        for (var meter : sheet.meters()) {
            about(meter.instrument().name());
            say(
                    "meter",
                    meter.instrument().kind()
                            + (meter.inHand() ? "; in hand" : "")
                            + (meter.instrument().retiredAt() == null ? "" : "; retired"));
            say("certificate", certificate(meter));
            corrections(meter);
            say("used here", meter.lastUsedAt() == null ? "not lately" : "last on " + day(meter.lastUsedAt()));
        }
        about("");
    }

    private void corrections(SheetMeter meter) {
        var byName = meter.corrections().stream()
                .collect(Collectors.groupingBy(
                        one -> Objects.toString(one.correction(), ""), LinkedHashMap::new, Collectors.toList()));
        byName.forEach((name, on) -> {
            var displays = on.stream().map(SheetCorrection::display).collect(Collectors.joining(", "));
            say("correction", name.isEmpty() ? "none on file for " + displays : name + ": for " + displays);
        });
    }

    // the day is that of UTC, as where runs are judged
    private String certificate(SheetMeter meter) {
        var certificate = meter.certificate();
        if (certificate == null) {
            return "not valid: none is on file for today";
        }
        var today = LocalDate.ofInstant(now, ZoneOffset.UTC);
        return certificate.expiresOn().isBefore(today)
                ? "not valid: " + certificate.number() + " expired on " + certificate.expiresOn()
                : "valid: " + certificate.number() + " holds until " + certificate.expiresOn();
    }

    private @Nullable Display display(UUID id) {
        return sheet.displays().stream()
                .map(SheetDisplay::display)
                .filter(display -> display.id().equals(id))
                .findFirst()
                .orElse(null);
    }

    /** A path without facility and room when they are those of the sheet. */
    private String here(String path) {
        var start = Paths.of(sheet.room()) + "/";
        return path.startsWith(start) ? path.substring(start.length()) : path;
    }

    private void about(String what) {
        subject = what;
    }

    private void optional(String label, @Nullable String text) {
        if (text != null && !text.isBlank()) {
            say(label, text);
        }
    }

    private void say(String label, String text) {
        lines.add(new Line(section, subject, label, text));
    }

    private String day(Instant at) {
        return LocalDate.ofInstant(at, zone).toString();
    }

    private String moment(Instant at) {
        return MINUTE.format(at.atZone(zone));
    }

    private String days(Instant since) {
        var days = Math.max(0, Duration.between(since, now).toDays());
        return days == 1 ? "1 day" : days + " days";
    }

    private static String span(Duration age) {
        var minutes = Math.max(0, age.toMinutes());
        if (minutes < 60) {
            return minutes + " min";
        }
        return minutes < 48 * 60 ? minutes / 60 + " h" : age.toDays() + " days";
    }

    private static String signed(double value, int decimals) {
        return String.format(Locale.ROOT, "%+." + decimals + "f", value);
    }

    /** To four significant digits; what is less than any meter tells is nothing. */
    private static String figure(double value) {
        return Math.abs(value) < LEAST_FIGURE ? "0" : Words.number(Verdicts.rounded(value));
    }
}
