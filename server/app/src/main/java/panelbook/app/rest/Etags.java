package panelbook.app.rest;

import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/** The version of a thing as its ETag. */
public final class Etags {

    private static final Pattern STRONG = Pattern.compile("\"(\\d{1,18})\"");

    private Etags() {}

    /** The ETag of a version, e.g. {@code "3"} in quotes. */
    public static String of(long version) {
        return "\"" + version + "\"";
    }

    /** The version that an edit rests on, from {@code If-Match}; refuses an edit that does not say. */
    public static long expected(@Nullable String ifMatch) {
        if (ifMatch == null) {
            throw Refusal.of(
                    Refusal.Kind.MATCH_REQUIRED,
                    "Send If-Match with the ETag of what you read, so that nobody's edit is overwritten unseen.");
        }
        var matcher = STRONG.matcher(ifMatch.strip());
        if (!matcher.matches()) {
            throw Refusal.of(
                    Refusal.Kind.STALE, "If-Match must hold one ETag as it was given, e.g. \"3\" with its quotes.");
        }
        return Long.parseLong(matcher.group(1));
    }

    /** Refuses an edit that rests on another version than the present one. */
    public static void match(long expected, long present) {
        if (expected != present) {
            throw stale();
        }
    }

    /** The refusal of an edit that was overtaken by another. */
    public static Refusal stale() {
        return Refusal.of(
                Refusal.Kind.STALE, "Somebody edited it since you read it: read it again and make your edit on that.");
    }
}
