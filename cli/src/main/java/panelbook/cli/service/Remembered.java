package panelbook.cli.service;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import panelbook.cli.json.Json;
import panelbook.cli.json.Records;
import panelbook.wire.Advice;
import panelbook.wire.Instrument;
import panelbook.wire.Preset;
import panelbook.wire.Target;

/**
 * Presets, instruments, targets and advice seen in earlier calls to one service, so that a run can be checked and named, and
 * a match be made, while the service is away. A hint, not a record: when it cannot be read or written the client goes on without.
 */
public final class Remembered {

    private static final int MOST = 20_000;

    /** What the file holds. */
    record Content(List<Preset> presets, List<Instrument> instruments, List<Target> targets, List<Advice> advice) {}

    private final Path file;
    private final Map<UUID, Preset> presets = new LinkedHashMap<>();
    private final Map<UUID, Instrument> instruments = new LinkedHashMap<>();
    private final Map<UUID, Target> targets = new LinkedHashMap<>();
    private List<Advice> advice = List.of();
    private boolean changed;

    private Remembered(Path file) {
        this.file = file;
    }

    /** What is remembered of the service at {@code address}. */
    public static Remembered of(Folders folders, String address) {
        var remembered = new Remembered(folders.cache().resolve(Folders.fileName(address) + ".json"));
        remembered.load();
        return remembered;
    }

    private void load() {
        if (!Files.exists(file)) {
            return;
        }
        try (var in = Files.newInputStream(file)) {
            var content = Records.read(Content.class, Json.parse(in)).value();
            if (content != null) {
                content.presets().forEach(p -> presets.put(p.id(), p));
                content.instruments().forEach(i -> instruments.put(i.id(), i));
                content.targets().forEach(t -> targets.put(t.id(), t));
                advice = content.advice();
            }
        } catch (IOException e) {
            presets.clear(); // half a memory is worse than none
        }
    }

    /** Remembers a preset. */
    public void add(Preset preset) {
        changed |= !preset.equals(presets.put(preset.id(), preset));
    }

    /** Remembers an instrument. */
    public void add(Instrument instrument) {
        changed |= !instrument.equals(instruments.put(instrument.id(), instrument));
    }

    /** Remembers a target. */
    public void add(Target target) {
        changed |= !target.equals(targets.put(target.id(), target));
    }

    /** Remembers the table of advice, whole. */
    public void advice(List<Advice> table) {
        changed |= !table.equals(advice);
        advice = List.copyOf(table);
    }

    /** The table of advice as last fetched; empty when it never was. */
    public List<Advice> advice() {
        return advice;
    }

    /** Keeps what is new for later calls. */
    public void save() {
        if (!changed) {
            return;
        }
        var content = new Content(newest(presets), newest(instruments), newest(targets), advice);
        try {
            OwnFiles.write(file, out -> Json.write(content, out));
            changed = false;
        } catch (IOException e) {
            changed = true; // the next call may succeed; nothing depends on it
        }
    }

    private static <T> List<T> newest(Map<UUID, T> things) {
        var all = new ArrayList<>(things.values());
        return all.size() <= MOST ? all : all.subList(all.size() - MOST, all.size());
    }

    /** The preset that a path or id names; null when none or more than one is remembered. */
    public @Nullable Preset preset(String reference) {
        var fits = presets.values().stream()
                .filter(p -> p.id().toString().equals(reference) || Paths.endsWith(Paths.of(p), reference))
                .toList();
        return fits.size() == 1 ? fits.get(0) : null;
    }

    /** The instrument of a name or id; null when it is not remembered. */
    public @Nullable Instrument instrument(String reference) {
        return instruments.values().stream()
                .filter(i -> i.id().toString().equals(reference) || i.name().equals(reference))
                .findFirst()
                .orElse(null);
    }

    /** The target of an id; null when it is not remembered. */
    public @Nullable Target target(UUID id) {
        return targets.get(id);
    }
}
