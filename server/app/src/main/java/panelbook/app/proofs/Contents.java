package panelbook.app.proofs;

import java.time.LocalDate;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.UUID;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;
import panelbook.app.database.AsOf;
import panelbook.app.fleet.RoomContents;
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
import panelbook.wire.Rule;
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

    Contents(AsOf asOf, RoomSheets sheets, RoomContents contents) {
        this.asOf = asOf;
        this.sheets = sheets;
        this.contents = contents;
    }

    /**
     * The content of a proof.
     *
     * @throws Refusal when the room was not in use at that moment, or the book does not reach back so far
     */
    ProofContent of(Question asked) {
        var readiness = List.<ReadinessSpan>of();
        try {
            return asOf.at(
                    asked.asOf(), () -> content(asked, sheets.of(asked.roomId(), java.util.Set.of()), readiness));
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

    private ProofContent content(Question asked, RoomSheet sheet, List<ReadinessSpan> readiness) {
        var meters = sheet.meters().stream()
                .collect(Collectors.toMap(m -> m.instrument().id(), SheetMeter::instrument));
        var residuals = residuals(sheet);
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
                sheet.targets().stream().map(target -> target(target, meters)).toList(),
                sheet.displays().stream().map(Contents::display).toList(),
                sheet.meters().stream()
                        .map(meter -> instrument(meter, asked.day()))
                        .toList(),
                sheet.trims().stream()
                        .map(match -> match(match, residuals.getOrDefault(match.id(), List.of())))
                        .toList(),
                sheet.alerts().stream().map(Contents::alert).toList());
    }

    private ProofTarget target(SheetTarget sheet, Map<UUID, Instrument> meters) {
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
                sheet.presets().stream().map(preset -> preset(preset, meters)).toList());
    }

    private static double coverageFactor(ToleranceSet set) {
        return Conformance.guardBand(1, set.conformanceProbability());
    }

    private static ProofPreset preset(SheetPreset sheet, Map<UUID, Instrument> meters) {
        var preset = sheet.preset();
        return new ProofPreset(
                preset.id(),
                preset.display(),
                preset.name(),
                preset.hero(),
                sheet.asLeft() == null ? null : asLeft(sheet.asLeft(), meters),
                figures(sheet.drift()),
                figures(sheet.setAside()));
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
                figures(left.findings()));
    }

    /** As the findings reckon: the meter's share of the reading and its floor, which are independent. */
    private static @Nullable Double luminanceUncertainty(Instrument meter, @Nullable Double luminance) {
        return luminance == null
                ? null
                : Math.hypot(meter.luminanceUncertaintyPercent() / 100 * luminance, K * meter.luminanceFloor());
    }

    private static List<ProofFigure> figures(List<Finding> findings) {
        return findings.stream().map(Contents::figure).toList();
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

    /** Standing residuals by the match whose agreed offset they are judged by. */
    private static Map<UUID, List<Finding>> residuals(RoomSheet sheet) {
        var byMatch = new HashMap<UUID, List<Finding>>();
        sheet.targets().stream()
                .flatMap(target -> target.presets().stream())
                .flatMap(preset -> Stream.concat(preset.drift().stream(), preset.setAside().stream()))
                .filter(finding -> finding.rule() == Rule.HERO_DRIFT && finding.matchId() != null)
                .forEach(finding -> byMatch.computeIfAbsent(finding.matchId(), id -> new java.util.ArrayList<>())
                        .add(finding));
        return byMatch;
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

    private static ProofMatch match(Match match, List<Finding> residual) {
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
                figures(residual),
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
