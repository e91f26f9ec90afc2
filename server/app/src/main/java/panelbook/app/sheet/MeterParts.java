package panelbook.app.sheet;

import java.time.Duration;
import java.time.Instant;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;
import panelbook.app.instruments.InstrumentFacts;
import panelbook.app.instruments.InstrumentFactsBook;
import panelbook.app.instruments.Instruments;
import panelbook.app.rest.Days;
import panelbook.app.runs.RunBook;
import panelbook.wire.Certificate;
import panelbook.wire.Display;
import panelbook.wire.Preset;
import panelbook.wire.SheetCorrection;
import panelbook.wire.SheetMeter;

/** The meters on a sheet. */
@Component
class MeterParts {

    private static final Duration LATELY = Duration.ofDays(365);

    private final Instruments instruments;
    private final InstrumentFactsBook facts;
    private final RunBook runs;

    MeterParts(Instruments instruments, InstrumentFactsBook facts, RunBook runs) {
        this.facts = facts;
        this.instruments = instruments;
        this.runs = runs;
    }

    /** Those in hand first, then those used lately on the presets or for their baselines, by name. */
    List<SheetMeter> of(List<Preset> presets, List<Display> displays, Set<UUID> inHand, Instant now) {
        var used = used(presets, now);
        var ids = new HashSet<>(inHand);
        ids.addAll(used.keySet());
        var meters = facts.findAll(ids);
        return ids.stream()
                .map(id ->
                        meter(id, inHand.contains(id), used.get(id), corrections(meters.get(id), displays, now), now))
                .sorted(Comparator.comparing((SheetMeter meter) -> !meter.inHand())
                        .thenComparing(meter -> meter.instrument().name()))
                .toList();
    }

    private Map<UUID, Instant> used(List<Preset> presets, Instant now) {
        var ids = presets.stream().map(Preset::id).toList();
        var used = new HashMap<>(runs.instrumentsUsedOn(ids, now.minus(LATELY)));
        var baselines = presets.stream()
                .map(Preset::baselineRunId)
                .filter(Objects::nonNull)
                .toList();
        runs.findAll(baselines)
                .forEach(run -> used.merge(
                        run.instrumentId(), run.takenAt(), (one, other) -> one.isAfter(other) ? one : other));
        return used;
    }

    /** What a run taken now would be corrected with. */
    private static List<SheetCorrection> corrections(
            @Nullable InstrumentFacts meter, List<Display> displays, Instant now) {
        if (meter == null) {
            return List.of();
        }
        return displays.stream()
                .map(display -> new SheetCorrection(
                        display.name(),
                        meter.correctionFor(now, display.id(), display.model())
                                .map(correction -> correction.name(meter.name()))
                                .orElse(null)))
                .toList();
    }

    private SheetMeter meter(
            UUID id, boolean inHand, @Nullable Instant lastUsedAt, List<SheetCorrection> corrections, Instant now) {
        var day = Days.of(now);
        var certificate = instruments.certificates(id).stream()
                .filter(one -> !one.issuedOn().isAfter(day))
                .max(Comparator.comparing(Certificate::expiresOn))
                .orElse(null);
        return new SheetMeter(
                instruments.get(id),
                inHand,
                lastUsedAt,
                certificate,
                certificate != null && !certificate.expiresOn().isBefore(day),
                corrections);
    }
}
