package panelbook.wire.files;

import java.time.Instant;
import org.jspecify.annotations.Nullable;
import panelbook.wire.Purpose;

/**
 * What a run file says about its run. Everything may be absent (null): the caller fills in from elsewhere what the file
 * leaves open, and the service decides what a run must have.
 *
 * @param preset name or path of the preset, as the file writes it, 1 to 1000 characters
 * @param instrument name of the instrument, as the file writes it, 1 to 200 characters
 * @param purpose why the run was taken
 * @param operator who took it, 1 to 200 characters
 * @param takenAt when it was taken, in the years 1990 to 2199
 * @param panelHours the display's own count of hours, h, 0 to 1,000,000
 * @param minutesSincePowerOn time since the display was switched on, whole min, 0 to 10,000,000
 * @param ambientLux illuminance at the screen from the room's light, lx, 0 to 200,000
 */
public record RunMetadata(
        @Nullable String preset,
        @Nullable String instrument,
        @Nullable Purpose purpose,
        @Nullable String operator,
        @Nullable Instant takenAt,
        @Nullable Double panelHours,
        @Nullable Integer minutesSincePowerOn,
        @Nullable Double ambientLux) {

    /** Longest path of a preset, in characters: four names and the strokes between them. */
    static final int MAX_PATH = 1000;

    /** Longest name of an instrument or a person, in characters. */
    static final int MAX_NAME = 200;

    private static final long FROM_SECOND = 631_152_000L; // 1990-01-01T00:00:00Z
    private static final long TO_SECOND = 7_258_118_400L; // 2200-01-01T00:00:00Z

    static final double MAX_PANEL_HOURS = 1e6;
    static final int MAX_MINUTES = 10_000_000;
    static final double MAX_LUX = 2e5;

    public RunMetadata {
        preset = text("preset", preset, MAX_PATH);
        instrument = text("instrument", instrument, MAX_NAME);
        operator = text("operator", operator, MAX_NAME);
        if (takenAt != null && !isPlausible(takenAt)) {
            throw new IllegalArgumentException("takenAt is " + takenAt + ": it must lie within 1990 and 2199");
        }
        panelHours = number("panelHours", panelHours, MAX_PANEL_HOURS);
        if (minutesSincePowerOn != null && (minutesSincePowerOn < 0 || minutesSincePowerOn > MAX_MINUTES)) {
            throw new IllegalArgumentException(
                    "minutesSincePowerOn is " + minutesSincePowerOn + ": it must lie within 0 and " + MAX_MINUTES);
        }
        ambientLux = number("ambientLux", ambientLux, MAX_LUX);
    }

    /** A file that says nothing. */
    public static RunMetadata empty() {
        return new RunMetadata(null, null, null, null, null, null, null, null);
    }

    /** This, with what is absent here taken from {@code other}. */
    public RunMetadata orElse(RunMetadata other) {
        return new RunMetadata(
                first(preset, other.preset),
                first(instrument, other.instrument),
                first(purpose, other.purpose),
                first(operator, other.operator),
                first(takenAt, other.takenAt),
                first(panelHours, other.panelHours),
                first(minutesSincePowerOn, other.minutesSincePowerOn),
                first(ambientLux, other.ambientLux));
    }

    /** Whether a time can be that of a run: a date outside of these years was mistyped. */
    static boolean isPlausible(Instant time) {
        return time.getEpochSecond() >= FROM_SECOND && time.getEpochSecond() < TO_SECOND;
    }

    /** What is wrong with a text, or null: blank, too long, or holding a control character. */
    static @Nullable String flaw(String text, int longest) {
        if (text.isBlank()) {
            return "is empty";
        }
        if (text.length() > longest) {
            return "is longer than " + longest + " characters";
        }
        for (int i = 0; i < text.length(); i++) {
            char c = text.charAt(i);
            if (Character.isISOControl(c) || c == '\uFEFF' || c == '\u2028' || c == '\u2029') {
                return "holds a control character";
            }
            if (Character.isSurrogate(c) && !paired(text, i)) {
                return "holds half a character";
            }
        }
        return null;
    }

    private static boolean paired(String text, int i) {
        return Character.isHighSurrogate(text.charAt(i))
                ? i + 1 < text.length() && Character.isLowSurrogate(text.charAt(i + 1))
                : i > 0 && Character.isHighSurrogate(text.charAt(i - 1));
    }

    private static @Nullable String text(String name, @Nullable String value, int longest) {
        if (value == null) {
            return null;
        }
        String flaw = flaw(value, longest);
        if (flaw != null) {
            throw new IllegalArgumentException(name + " " + flaw);
        }
        return value.strip();
    }

    private static @Nullable Double number(String name, @Nullable Double value, double max) {
        if (value == null) {
            return null;
        }
        if (!(value >= 0 && value <= max)) {
            throw new IllegalArgumentException(name + " is " + value + ": it must lie within 0 and " + max);
        }
        return value + 0.0; // no negative zero
    }

    private static <T> @Nullable T first(@Nullable T here, @Nullable T there) {
        return here != null ? here : there;
    }
}
