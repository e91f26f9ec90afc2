package panelbook.app.sheet;

import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.TreeMap;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;
import panelbook.app.assessment.FindingBook;
import panelbook.app.runs.MeasuredRuns;
import panelbook.app.runs.PresetFacts;
import panelbook.colorimetry.UV1976;
import panelbook.colorimetry.XYZ;
import panelbook.colorimetry.signal.Reading;
import panelbook.colorimetry.verification.Statistic;
import panelbook.colorimetry.verification.Verification;
import panelbook.wire.AsLeft;
import panelbook.wire.Deviation;
import panelbook.wire.Display;
import panelbook.wire.Finding;
import panelbook.wire.Metric;
import panelbook.wire.Rule;
import panelbook.wire.Run;

/** What the run of a baseline measured, and how long ago. */
@Component
class AsLeftFigures {

    private final MeasuredRuns runs;
    private final FindingBook findings;

    AsLeftFigures(MeasuredRuns runs, FindingBook findings) {
        this.runs = runs;
        this.findings = findings;
    }

    AsLeft of(Run run, PresetFacts preset, Display display, Instant now) {
        var read = runs.whole(preset, run.id());
        var measured = read.readings();
        var verification = Verification.of(preset.target(), measured, Verification.DEFAULT_FLOOR);
        var white = measured.white().map(Reading::xyz);
        var chromaticity = white.flatMap(XYZ::uv1976);
        var temperature = verification.whiteCct();
        return new AsLeft(
                run,
                Math.max(0, Duration.between(run.takenAt(), now).toDays()),
                hoursSince(run.panelHours(), display.panelHours()),
                white.map(XYZ::luminance).orElse(null),
                chromaticity.map(UV1976::u).orElse(null),
                chromaticity.map(UV1976::v).orElse(null),
                temperature.map(cct -> boxed(cct.kelvin())).orElse(null),
                temperature.map(cct -> boxed(cct.duv())).orElse(null),
                measured.black().map(black -> black.xyz().luminance()).orElse(null),
                boxed(read.measured().contrast()),
                deviation(verification.deltaEItp()),
                deviation(verification.deltaE2000()),
                read.correctionName().orElse(null),
                verified(run, preset.presetId()));
    }

    /** A counter that went back says nothing. */
    private static @Nullable Double hoursSince(@Nullable Double then, @Nullable Double now) {
        return then == null || now == null || now < then ? null : now - then;
    }

    private static @Nullable Deviation deviation(Optional<Statistic> statistic) {
        return statistic
                .map(s -> new Deviation(
                        s.mean(), s.percentile95(), s.maximum(), s.worst().toString(), s.patches()))
                .orElse(null);
    }

    /** The verdict of each figure of the run against its target, as judged last. */
    private List<Finding> verified(Run run, UUID presetId) {
        var latest = new TreeMap<Metric, Finding>();
        findings.ofRun(run.id()).stream()
                .filter(finding -> finding.rule() == Rule.VERIFICATION
                        && finding.presetId().equals(presetId))
                .forEach(finding -> latest.put(finding.metric(), finding));
        return List.copyOf(latest.values());
    }

    private static @Nullable Double boxed(OptionalDouble value) {
        return value.isPresent() ? value.getAsDouble() : null;
    }
}
