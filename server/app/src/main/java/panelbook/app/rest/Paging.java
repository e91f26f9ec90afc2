package panelbook.app.rest;

import java.nio.charset.StandardCharsets;
import java.util.Base64;
import java.util.List;
import java.util.UUID;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import panelbook.wire.Page;

/**
 * Which page of a list is asked for. A list is walked by the sort key of the row last seen, so that rows added meanwhile
 * neither shift nor double the others. A controller takes it as a parameter and the query parameters {@code limit} and
 * {@code after} fill it.
 *
 * @param limit most rows of the page, 1 to 500
 * @param after sort key of the last row of the page before; null for the first page
 */
public record Paging(int limit, @Nullable List<String> after) {

    /** Rows of a page when the request does not say. */
    public static final int DEFAULT_LIMIT = 50;

    /** Most rows of a page. */
    public static final int MAX_LIMIT = 500;

    private static final String SEPARATOR = "\u0000";

    /** From the query parameters; refuses a limit out of range and a cursor that is none. */
    static Paging of(@Nullable String limit, @Nullable String cursor) {
        return new Paging(limit == null ? DEFAULT_LIMIT : limit(limit), cursor == null ? null : decode(cursor));
    }

    /** The first page of a list that is read whole, page by page. */
    public static Paging whole() {
        return new Paging(MAX_LIMIT, null);
    }

    /** The page after a cursor that a page gave as its next. */
    public Paging then(String cursor) {
        return new Paging(limit, decode(cursor));
    }

    /** Whether this is the first page. */
    public boolean first() {
        return after == null;
    }

    /** Rows to ask the database for: one more than the page holds tells whether there is another page. */
    public int fetch() {
        return limit + 1;
    }

    /** Part {@code index} of the cursor's key, or null on the first page; refuses the cursor of another list. */
    public @Nullable String key(int index) {
        if (after == null) {
            return null;
        }
        if (index >= after.size()) {
            throw foreignCursor();
        }
        return after.get(index);
    }

    /** As {@link #key}, a UUID. */
    public @Nullable UUID keyId(int index) {
        return parsed(index, UUID::fromString);
    }

    /** As {@link #key}, read by {@code parser}, which throws a runtime exception for what it cannot read. */
    public <T> @Nullable T parsed(int index, Function<String, T> parser) {
        var key = key(index);
        if (key == null) {
            return null;
        }
        try {
            return parser.apply(key);
        } catch (RuntimeException notOurs) {
            throw foreignCursor();
        }
    }

    /** The page from the {@link #fetch} rows asked for; {@code key} gives the parts of a row's sort key. */
    public <T> Page<T> page(List<T> rows, Function<T, List<String>> key) {
        if (rows.size() <= limit) {
            return new Page<>(List.copyOf(rows), null);
        }
        var shown = List.copyOf(rows.subList(0, limit));
        return new Page<>(shown, encode(key.apply(shown.get(limit - 1))));
    }

    private static int limit(String text) {
        try {
            var value = Integer.parseInt(text);
            if (value >= 1 && value <= MAX_LIMIT) {
                return value;
            }
        } catch (NumberFormatException notANumber) {
            // the refusal below says what is wanted
        }
        throw Refusal.invalid("limit", "Must be a number from 1 to " + MAX_LIMIT + ", but is \"" + text + "\".");
    }

    private static String encode(List<String> key) {
        var bytes = String.join(SEPARATOR, key).getBytes(StandardCharsets.UTF_8);
        return Base64.getUrlEncoder().withoutPadding().encodeToString(bytes);
    }

    private static List<String> decode(String cursor) {
        try {
            var text = new String(Base64.getUrlDecoder().decode(cursor), StandardCharsets.UTF_8);
            return List.of(text.split(SEPARATOR, -1));
        } catch (IllegalArgumentException notBase64) {
            throw foreignCursor();
        }
    }

    private static Refusal foreignCursor() {
        return Refusal.invalid("after", "This cursor is not of this list: take \"next\" of the page before, as it is.");
    }
}
