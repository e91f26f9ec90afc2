package panelbook.app.runs;

/**
 * The path of a preset for people, facility/room/display/preset, as SQL; a dash stands for no room. The joins bring the
 * aliases {@code p}, {@code d}, {@code f}, {@code st} and {@code ro} for preset, display, facility, stay and room, each after
 * the prefix given.
 */
public final class PresetPath {

    private PresetPath() {}

    /** The path as an expression over the aliases of {@link #joins}. */
    public static String expression(String prefix) {
        return "%1$sf.name || '/' || coalesce(%1$sro.name, '-') || '/' || %1$sd.name || '/' || %1$sp.name"
                .formatted(prefix);
    }

    /** Joins of the preset whose id is {@code presetId}, a column, with all that its path needs. */
    public static String joins(String prefix, String presetId) {
        return """
                join preset %1$sp on %1$sp.id = %2$s
                """.formatted(prefix, presetId) + around(prefix);
    }

    /** Joins of all that the path needs beside the preset, which the query holds already. */
    static String around(String prefix) {
        return """
                join display %1$sd on %1$sd.id = %1$sp.display_id
                join facility %1$sf on %1$sf.id = %1$sd.facility_id
                left join display_stay %1$sst on %1$sst.display_id = %1$sd.id and upper_inf(%1$sst.during)
                left join room %1$sro on %1$sro.id = %1$sst.room_id
                """.formatted(prefix);
    }
}
