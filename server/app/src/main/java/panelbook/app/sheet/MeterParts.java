package panelbook.app.sheet;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
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
import panelbook.app.instruments.Instruments;
import panelbook.app.runs.RunBook;
import panelbook.wire.Certificate;
import panelbook.wire.Preset;
import panelbook.wire.SheetMeter;

/** The meters on a sheet. */
@Component
class MeterParts {

    private static final Duration LATELY = Duration.ofDays(365);

    private final Instruments instruments;
    private final RunBook runs;

    MeterParts(Instruments instruments, RunBook runs) {
        this.instruments = instruments;
        this.runs = runs;
    }

    /** Those in hand first, then those used lately on the presets or for their baselines, by name. */
    List<SheetMeter> of(List<Preset> presets, Set<UUID> inHand, Instant now) {
        var used = used(presets, now);
        var ids = new HashSet<>(inHand);
        ids.addAll(used.keySet());
        var day = now.atOffset(ZoneOffset.UTC).toLocalDate();
        return ids.stream()
                .map(id -> meter(id, inHand.contains(id), used.get(id), day))
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

    private SheetMeter meter(UUID id, boolean inHand, @Nullable Instant lastUsedAt, LocalDate day) {
        var certificate = instruments.certificates(id).stream()
                .filter(one -> !one.issuedOn().isAfter(day))
                .max(Comparator.comparing(Certificate::expiresOn))
                .orElse(null);
        return new SheetMeter(
                instruments.get(id),
                inHand,
                lastUsedAt,
                certificate,
                certificate != null && !certificate.expiresOn().isBefore(day));
    }
}
