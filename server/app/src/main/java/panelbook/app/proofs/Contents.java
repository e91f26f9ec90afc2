package panelbook.app.proofs;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.UUID;
import java.util.function.Function;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;
import panelbook.app.database.AsOf;
import panelbook.app.fleet.RoomContents;
import panelbook.app.readiness.ReadinessHistories;
import panelbook.app.rest.Refusal;
import panelbook.app.sheet.RoomSheets;
import panelbook.colorimetry.uncertainty.Conformance;
import panelbook.wire.Alert;
import panelbook.wire.AsLeft;
import panelbook.wire.Finding;
import panelbook.wire.Instrument;
import panelbook.wire.Match;
import panelbook.wire.ProofAlert;
import panelbook.wire.ProofAsLeft;
import panelbook.wire.ProofContent;
import panelbook.wire.ProofDisplay;
import panelbook.wire.ProofFigure;
import panelbook.wire.ProofInstrument;
import panelbook.wire.ProofMatch;
import panelbook.wire.ProofPreset;
import panelbook.wire.ProofTarget;
import panelbook.wire.Quirk;
import panelbook.wire.ReadinessSpan;
import panelbook.wire.RoomSheet;
import panelbook.wire.SheetDisplay;
import panelbook.wire.SheetMeter;
import panelbook.wire.SheetPreset;
import panelbook.wire.SheetTarget;
import panelbook.wire.ToleranceSet;

/** Works out what a proof says, from the book as it stood at the moment that its figures are of. */
@Component
class Contents {

    /** Of the form of what is said: another one makes other digests of the same book. */
    static final int VERSION = 1;

    /** Coverage factor of expanded uncertainties, JCGM 100:2008, 6.2. */
    private static final double K = 2;

    private final AsOf asOf;
    private final RoomSheets sheets;
    private final RoomContents contents;
    private final ReadinessHistories histories;

    Contents(AsOf asOf, RoomSheets sheets, RoomContents contents, ReadinessHistories histories) {
        this.histories = histories;
        this.asOf = asOf;
        this.sheets = sheets;
        this.contents = contents;
    }

    /** The time zone that the room had at a moment; {@code otherwise} where the book cannot tell. */
    ZoneId zone(UUID roomId, Instant moment, ZoneId otherwise) {
        try {
            return asOf.at(moment, () -> ZoneId.of(contents.room(roomId).timeZone()));
        } catch (Refusal unknown) {
            return otherwise;
        }
    }

    /**
     * The content of a proof.
     *
     * @throws Refusal when the room was not in use at that moment, or the book does not reach back so far
     */
    ProofContent of(Question asked) {
        try {
            var readiness = readiness(asked);
            return asOf.at(asked.asOf(), () -> content(asked, sheets.of(asked.roomId(), Set.of()), readiness));
        } catch (Refusal refused) {
            if (refused.kind() == Refusal.Kind.NOT_FOUND) {
                throw Refusal.invalid(
                        "/day",
                        "The room was not in use at the end of " + asked.day()
                                + ": not in the book yet, or retired. Ask for a day on which it was.");
            }
            throw Refusal.invalid("/day", refused.getMessage() == null ? "" : refused.getMessage());
        }
    }

    /** On the day on which the book began to keep its history, from that moment on. */
    private List<ReadinessSpan> readiness(Question asked) {
        var from = asOf.beginning()
                .filter(beginning -> beginning.isAfter(asked.from()))
                .orElse(asked.from());
        return from.isBefore(asked.end())
                ? histories.of(asked.roomId(), from, asked.end()).spans()
                : List.of();
    }

    private ProofContent content(Question asked, RoomSheet sheet, List<ReadinessSpan> readiness) {
        var meters = sheet.meters().stream()
                .collect(Collectors.toMap(m -> m.instrument().id(), SheetMeter::instrument));
        var matches = sheet.trims().stream().map(Match::id).collect(Collectors.toSet());
        return new ProofContent(
                VERSION,
                asked.roomId(),
                sheet.room().facility(),
                sheet.room().name(),
                asked.zone().getId(),
                asked.day(),
                asked.from(),
                asked.asOf(),
                asked.wholeDay(),
                sheet.readiness().state(),
                sheet.readiness().reasons(),
                readiness,
                sheet.targets().stream()
                        .map(target -> target(target, meters, matches))
                        .toList(),
                sheet.displays().stream().map(Contents::display).toList(),
                sheet.meters().stream()
                        .map(meter -> instrument(meter, asked.day()))
                        .toList(),
                sheet.trims().stream().map(match -> match(match, sheet)).toList(),
                sheet.alerts().stream().map(Contents::alert).toList());
    }

    private ProofTarget target(SheetTarget sheet, Map<UUID, Instrument> meters, Set<UUID> matches) {
        var target = sheet.target();
        var set = contents.toleranceSet(target.toleranceSetId());
        return new ProofTarget(
                target.id(),
                target.name(),
                sheet.aim(),
                set.name(),
                set.version(),
                set.conformanceProbability(),
                coverageFactor(set),
                sheet.warmUpMinutes(),
                sheet.presets().stream()
                        .map(preset -> preset(preset, meters, matches))
                        .toList());
    }

    private static double coverageFactor(ToleranceSet set) {
        return Conformance.guardBand(1, set.conformanceProbability());
    }

    private static ProofPreset preset(SheetPreset sheet, Map<UUID, Instrument> meters, Set<UUID> matches) {
        var preset = sheet.preset();
        return new ProofPreset(
                preset.id(),
                preset.display(),
                preset.name(),
                preset.hero(),
                sheet.asLeft() == null ? null : asLeft(sheet.asLeft(), meters),
                figures(sheet.drift(), finding -> !matches.contains(finding.matchId())),
                figures(sheet.setAside(), finding -> !matches.contains(finding.matchId())));
    }

    private static ProofAsLeft asLeft(AsLeft left, Map<UUID, Instrument> meters) {
        var run = left.run();
        var meter = Objects.requireNonNull(meters.get(run.instrumentId()), "the meter of a baseline is on the sheet");
        return new ProofAsLeft(
                run.id(),
                run.takenAt(),
                left.days(),
                run.operator(),
                run.instrument(),
                run.panelHours(),
                run.warmedUp(),
                left.correction(),
                left.whiteLuminance(),
                luminanceUncertainty(meter, left.whiteLuminance()),
                left.whiteU(),
                left.whiteV(),
                left.whiteU() == null ? null : meter.chromaticityUncertainty(),
                left.whiteCct(),
                left.whiteDuv(),
                left.blackLuminance(),
                luminanceUncertainty(meter, left.blackLuminance()),
                left.contrast(),
                figures(left.findings(), finding -> true));
    }

    /** As the findings reckon: the meter's share of the reading and its floor, which are independent. */
    private static @Nullable Double luminanceUncertainty(Instrument meter, @Nullable Double luminance) {
        return luminance == null
                ? null
                : Math.hypot(meter.luminanceUncertaintyPercent() / 100 * luminance, K * meter.luminanceFloor());
    }

    private static List<ProofFigure> figures(List<Finding> findings, Predicate<Finding> wanted) {
        return findings.stream().filter(wanted).map(Contents::figure).toList();
    }

    private static ProofFigure figure(Finding finding) {
        return new ProofFigure(
                finding.id(),
                finding.rule(),
                finding.metric(),
                finding.value(),
                finding.unit(),
                finding.uncertainty() == null ? null : K * finding.uncertainty(),
                finding.limit(),
                finding.metric().lowerLimit(),
                finding.conformance(),
                finding.decision(),
                finding.explanation(),
                finding.matchId(),
                finding.corrections(),
                finding.basis(),
                finding.document(),
                finding.clause(),
                finding.assessedAt());
    }

    /** Findings of a match are told with it. */
    private static List<ProofFigure> ofMatch(
            UUID matchId, RoomSheet sheet, Function<SheetPreset, List<Finding>> ofPreset) {
        return sheet.targets().stream()
                .flatMap(target -> target.presets().stream())
                .flatMap(preset ->
                        figures(ofPreset.apply(preset), finding -> matchId.equals(finding.matchId())).stream())
                .toList();
    }

    private static ProofDisplay display(SheetDisplay sheet) {
        var display = sheet.display();
        return new ProofDisplay(
                display.id(),
                display.name(),
                display.model(),
                display.panelTechnology(),
                display.serialNumber(),
                display.panelHours(),
                sheet.quirks().stream().map(Quirk::note).toList());
    }

    private static ProofInstrument instrument(SheetMeter sheet, LocalDate day) {
        var meter = sheet.instrument();
        var certificate = sheet.certificate();
        return new ProofInstrument(
                meter.id(),
                meter.name(),
                meter.kind(),
                meter.serialNumber(),
                certificate == null ? null : certificate.number(),
                certificate == null ? null : certificate.issuedOn(),
                certificate == null ? null : certificate.expiresOn(),
                certificate != null && !day.isBefore(certificate.issuedOn()) && !day.isAfter(certificate.expiresOn()),
                meter.luminanceUncertaintyPercent(),
                meter.chromaticityUncertainty(),
                meter.luminanceFloor(),
                sheet.corrections());
    }

    private static ProofMatch match(Match match, RoomSheet sheet) {
        var offset = match.agreedOffset();
        return new ProofMatch(
                match.id(),
                match.follower(),
                match.hero(),
                match.operator(),
                match.signedAt(),
                match.recordedBy(),
                offset == null ? null : offset.du(),
                offset == null ? null : offset.dv(),
                offset == null ? null : K * offset.chromaticityUncertainty(),
                offset == null ? null : offset.luminancePercent(),
                offset == null ? null : K * offset.luminanceUncertaintyPercent(),
                offset == null ? null : offset.corrections(),
                match.trims(),
                match.material(),
                ofMatch(match.id(), sheet, SheetPreset::drift),
                ofMatch(match.id(), sheet, SheetPreset::setAside),
                match.inQuestion());
    }

    private static ProofAlert alert(Alert alert) {
        return new ProofAlert(
                alert.id(),
                alert.cause(),
                alert.state(),
                alert.headline(),
                alert.subject(),
                alert.openedAt(),
                alert.heldBy());
    }
}
