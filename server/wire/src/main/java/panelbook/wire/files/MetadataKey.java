package panelbook.wire.files;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/** The metadata of run files, with their names in either format. */
enum MetadataKey {
    PRESET,
    INSTRUMENT,
    PURPOSE,
    OPERATOR,
    TAKEN_AT,
    PANEL_HOURS,
    MINUTES_SINCE_POWER_ON,
    AMBIENT_LUX,
    /** Number of readings; CSV only, ISO 28178 has NUMBER_OF_SETS. */
    READINGS,
    /** Unit of the tristimulus values; ISO 28178 only, CSV has it in the column's name. */
    LUMINANCE_UNIT;

    static final String ISO_PREFIX = "PANELBOOK_";

    /** The key of a {@code # key: value} line. */
    String csvName() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    /** The keyword of an ISO 28178 file. */
    String isoName() {
        return ISO_PREFIX + name();
    }

    /** Name in a format. */
    String name(RunFileFormat format) {
        return format == RunFileFormat.CSV ? csvName() : isoName();
    }

    /** The key of that name in a format, or null. */
    static @Nullable MetadataKey find(String name, RunFileFormat format) {
        String plain = Names.plain(name);
        for (MetadataKey key : values()) {
            if (key.in(format) && Names.plain(key.name(format)).equals(plain)) {
                return key;
            }
        }
        return null;
    }

    /** All names in a format. */
    static List<String> names(RunFileFormat format) {
        List<String> names = new ArrayList<>();
        for (MetadataKey key : values()) {
            if (key.in(format)) {
                names.add(key.name(format));
            }
        }
        return names;
    }

    private boolean in(RunFileFormat format) {
        return this != (format == RunFileFormat.CSV ? LUMINANCE_UNIT : READINGS);
    }
}
