package panelbook.wire.files;

import java.time.Instant;
import org.jspecify.annotations.Nullable;

/**
 * What a run file says about its run. Everything may be absent (null): the caller fills in from elsewhere what the file
 * leaves open, and the service decides what a run must have.
 *
 * @param preset name or path of the preset, as the file writes it
 * @param instrument name of the instrument, as the file writes it
 * @param purpose why the run was taken
 * @param operator who took it
 * @param takenAt when it was taken
 * @param panelHours the display's own count of hours, h, 0 to 1,000,000
 * @param minutesSincePowerOn time since the display was switched on, min, 0 to 10,000,000
 * @param ambientLux illuminance at the screen from the room's light, lx, 0 to 200,000
 */
public record RunMetadata(
        @Nullable String preset,
        @Nullable String instrument,
        @Nullable RunPurpose purpose,
        @Nullable String operator,
        @Nullable Instant takenAt,
        @Nullable Double panelHours,
        @Nullable Double minutesSincePowerOn,
        @Nullable Double ambientLux) {

    /** Longest text, in characters. */
    static final int MAX_TEXT = 300;

    static final double MAX_PANEL_HOURS = 1e6;
    static final double MAX_MINUTES = 1e7;
    static final double MAX_LUX = 2e5;

    public RunMetadata {
        preset = text("preset", preset);
        instrument = text("instrument", instrument);
        operator = text("operator", operator);
        panelHours = number("panelHours", panelHours, MAX_PANEL_HOURS);
        minutesSincePowerOn = number("minutesSincePowerOn", minutesSincePowerOn, MAX_MINUTES);
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

    /** What is wrong with a text, or null: blank, longer than 300 characters, or holding a control character. */
    static @Nullable String flaw(String text) {
        if (text.isBlank()) {
            return "is empty";
        }
        if (text.length() > MAX_TEXT) {
            return "is longer than " + MAX_TEXT + " characters";
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

    private static @Nullable String text(String name, @Nullable String value) {
        if (value == null) {
            return null;
        }
        String flaw = flaw(value);
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
