package panelbook.wire;

import java.time.Instant;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * Why something that was entered by mistake counts no longer. It stays in the book.
 *
 * @param at when it was withdrawn
 * @param by holder of the token
 * @param replacedBy what was entered in its stead, null when nothing was
 */
public record Withdrawal(
        String reason, Instant at, String by, @Nullable UUID replacedBy) {}
