package panelbook.wire.files;

import java.time.DateTimeException;
import java.time.Instant;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import panelbook.wire.Purpose;

/** Takes the metadata of a file, one line at a time, and says what is wrong with them. */
final class MetadataCollector {

    private final RunFileFormat format;
    private final Problems problems;
    private final long[] lines = new long[MetadataKey.values().length];
    private @Nullable String preset;
    private @Nullable String instrument;
    private @Nullable Purpose purpose;
    private @Nullable String operator;
    private @Nullable Instant takenAt;
    private @Nullable Double panelHours;
    private @Nullable Integer minutesSincePowerOn;
    private @Nullable Double ambientLux;
    private int readings = -1;

    MetadataCollector(RunFileFormat format, Problems problems) {
        this.format = format;
        this.problems = problems;
    }

    /** Takes one value. */
    void put(MetadataKey key, String value, long line) {
        String name = key.name(format);
        if (lines[key.ordinal()] != 0) {
            problems.add(
                    RunFileReason.METADATA_REPEATED,
                    line,
                    name,
                    value,
                    "stands in line " + lines[key.ordinal()] + " already. Keep one of the two");
            return;
        }
        lines[key.ordinal()] = line;
        String flaw = RunMetadata.flaw(value, key == MetadataKey.PRESET ? RunMetadata.MAX_PATH : RunMetadata.MAX_NAME);
        if (flaw != null) {
            malformed(key, value, flaw + ". Leave the line out when the value is not known");
            return;
        }
        set(key, value);
    }

    /** What was taken. */
    RunMetadata metadata() {
        return new RunMetadata(
                preset, instrument, purpose, operator, takenAt, panelHours, minutesSincePowerOn, ambientLux);
    }

    /** Number of readings that the file says it has, or −1. */
    int readings() {
        return readings;
    }

    /** Line of a key, or 0 when it was not there. */
    long line(MetadataKey key) {
        return lines[key.ordinal()];
    }

    private void set(MetadataKey key, String value) {
        switch (key) {
            case PRESET -> preset = value;
            case INSTRUMENT -> instrument = value;
            case OPERATOR -> operator = value;
            case PURPOSE -> purpose = purpose(value);
            case TAKEN_AT -> takenAt = time(value);
            case PANEL_HOURS -> panelHours = number(key, value, RunMetadata.MAX_PANEL_HOURS, "hours");
            case MINUTES_SINCE_POWER_ON -> minutesSincePowerOn = minutes(value);
            case AMBIENT_LUX -> ambientLux = number(key, value, RunMetadata.MAX_LUX, "lux");
            case READINGS -> readings = count(value);
            case LUMINANCE_UNIT -> unit(value);
        }
    }

    private @Nullable Purpose purpose(String value) {
        String plain = Names.plain(value);
        List<String> known = new ArrayList<>();
        for (Purpose each : Purpose.values()) {
            if (each.toString().equals(plain)) {
                return each;
            }
            known.add(each.toString());
        }
        malformed(
                MetadataKey.PURPOSE,
                value,
                "'" + Problems.excerpt(value) + "' is no purpose. Write one of " + String.join(", ", known) + "."
                        + Names.suggestion(value, known));
        return null;
    }

    private @Nullable Double number(MetadataKey key, String value, double max, String unit) {
        if (!Numbers.isDecimal(value)) {
            String comma = Numbers.hasDecimalComma(value) ? ", with a point in place of the comma" : "";
            malformed(
                    key,
                    value,
                    "'" + Problems.excerpt(value) + "' is not a number of " + unit + ". Write the bare number, such as"
                            + " 12.5" + comma);
            return null;
        }
        double number = Double.parseDouble(value);
        if (number < 0 || number > max) {
            malformed(
                    key,
                    value,
                    Problems.excerpt(value) + " " + unit + " lies outside 0 to " + (long) max
                            + ". Correct it, or leave the line out when the value is not known");
            return null;
        }
        return number;
    }

    private @Nullable Integer minutes(String value) {
        Double minutes = number(MetadataKey.MINUTES_SINCE_POWER_ON, value, RunMetadata.MAX_MINUTES, "minutes");
        if (minutes == null || minutes == Math.rint(minutes)) {
            return minutes == null ? null : minutes.intValue();
        }
        malformed(
                MetadataKey.MINUTES_SINCE_POWER_ON,
                value,
                Problems.excerpt(value) + " is not a whole number of minutes. Write " + minutes.intValue()
                        + ", the minutes that were full");
        return null;
    }

    private @Nullable Instant time(String value) {
        String text = value.length() > 10 && value.charAt(10) == ' '
                ? value.substring(0, 10) + "T" + value.substring(11)
                : value;
        try {
            Instant time = Times.parse(text);
            if (RunMetadata.isPlausible(time)) {
                return time;
            }
            malformed(
                    MetadataKey.TAKEN_AT,
                    value,
                    "'" + Problems.excerpt(value) + "' lies outside the years 1990 to 2199. Correct the date");
        } catch (DateTimeException e) {
            malformed(MetadataKey.TAKEN_AT, value, badTime(value, text));
        }
        return null;
    }

    private static String badTime(String value, String text) {
        try {
            LocalDateTime.parse(text);
            return "'" + Problems.excerpt(value) + "' has no time zone. Add the offset from UTC, such as " + text
                    + "+01:00, or Z for UTC";
        } catch (DateTimeException e) {
            return "'" + Problems.excerpt(value) + "' is not a time. Write it by ISO 8601 with the offset from UTC,"
                    + " such as 2026-11-25T09:30:00+01:00";
        }
    }

    private int count(String value) {
        int count = Numbers.wholeOrMinusOne(value);
        if (count < 0) {
            malformed(
                    MetadataKey.READINGS,
                    value,
                    "'" + Problems.excerpt(value) + "' is not a number of readings. Write a whole number, or leave the"
                            + " line out");
        }
        return count;
    }

    private void unit(String value) {
        String plain = value.strip();
        if (!plain.equals("cd/m2") && !plain.equals("cd/m²")) {
            problems.add(
                    RunFileReason.UNIT_WRONG,
                    line(MetadataKey.LUMINANCE_UNIT),
                    MetadataKey.LUMINANCE_UNIT.isoName(),
                    value,
                    "XYZ in '" + Problems.excerpt(value) + "' are not read: " + TristimulusUnits.advice(plain)
                            + "; then write " + MetadataKey.LUMINANCE_UNIT.isoName() + " \"cd/m2\"");
        }
    }

    private void malformed(MetadataKey key, String value, String message) {
        problems.add(RunFileReason.METADATA_MALFORMED, line(key), key.name(format), value, message);
    }
}
