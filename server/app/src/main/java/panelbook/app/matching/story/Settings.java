package panelbook.app.matching.story;

import java.util.Collection;
import java.util.Collections;
import java.util.List;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Collectors;
import panelbook.colorimetry.trim.Control;
import panelbook.wire.Trim;
import panelbook.wire.TrimChange;

/** How the controls of a display stand, in clicks from their calibrated settings. Immutable. */
public final class Settings {

    /** As the calibrator left them. */
    public static final Settings CALIBRATED = new Settings(new TreeMap<>());

    /** Those off their calibrated settings. */
    private final SortedMap<Control, Integer> clicks;

    private Settings(SortedMap<Control, Integer> clicks) {
        this.clicks = Collections.unmodifiableSortedMap(clicks);
    }

    /** Of trims; a control not listed stands at its calibrated setting. */
    public static Settings of(Collection<Trim> trims) {
        var settings = CALIBRATED;
        for (var trim : trims) {
            settings = settings.turned(Controls.of(trim), trim.clicks());
        }
        return settings;
    }

    /** Where a control stands, 0 at its calibrated setting. */
    public int of(Control control) {
        return clicks.getOrDefault(control, 0);
    }

    /** The settings after a control was turned by some clicks. */
    public Settings turned(Control control, int by) {
        var turned = new TreeMap<>(clicks);
        var to = Math.addExact(of(control), by);
        if (to == 0) {
            turned.remove(control);
        } else {
            turned.put(control, to);
        }
        return new Settings(turned);
    }

    /** The controls off their calibrated settings. */
    public Set<Control> controls() {
        return clicks.keySet();
    }

    /** By how many clicks each control stands elsewhere than in {@code earlier}. */
    public SortedMap<Control, Integer> since(Settings earlier) {
        var moved = new TreeMap<Control, Integer>();
        for (var control : together(earlier)) {
            if (of(control) != earlier.of(control)) {
                moved.put(control, of(control) - earlier.of(control));
            }
        }
        return moved;
    }

    /** What to set to get to other settings: every control that is off its calibrated setting in either. */
    public List<TrimChange> to(Settings other) {
        return together(other).stream()
                .map(control -> new TrimChange(control.name(), Controls.level(control), of(control), other.of(control)))
                .toList();
    }

    private Set<Control> together(Settings other) {
        var together = new TreeSet<>(clicks.keySet());
        together.addAll(other.clicks.keySet());
        return together;
    }

    /** As the contract lists them; those at their calibrated settings are left out. */
    public List<Trim> trims() {
        return clicks.entrySet().stream()
                .map(entry -> new Trim(entry.getKey().name(), Controls.level(entry.getKey()), entry.getValue()))
                .toList();
    }

    @Override
    public boolean equals(Object other) {
        return other instanceof Settings settings && clicks.equals(settings.clicks);
    }

    @Override
    public int hashCode() {
        return clicks.hashCode();
    }

    /** In words. */
    @Override
    public String toString() {
        return clicks.isEmpty()
                ? "as calibrated"
                : clicks.entrySet().stream()
                        .map(entry -> entry.getKey() + " " + String.format("%+d", entry.getValue()))
                        .collect(Collectors.joining(", "));
    }
}
