package panelbook.app.database;

import java.time.Clock;
import java.time.Instant;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;

/**
 * The one source of "now", in UTC. It is told by another clock, except to a thread that asks of another moment: whoever reads the book
 * as it stood then has to reckon with what the time was then.
 */
public final class BookClock extends Clock {

    private final Clock wall;
    private final ThreadLocal<@Nullable Instant> moment = new ThreadLocal<>();

    /** A clock that goes by {@code wall}. */
    public BookClock(Clock wall) {
        this.wall = wall;
    }

    /** Lets it be {@code then} to this thread while it does something. */
    public <T> T at(Instant then, Supplier<T> work) {
        var before = moment.get();
        moment.set(then);
        try {
            return work.get();
        } finally {
            if (before == null) {
                moment.remove();
            } else {
                moment.set(before);
            }
        }
    }

    @Override
    public Instant instant() {
        var then = moment.get();
        return then == null ? wall.instant() : then;
    }

    @Override
    public ZoneId getZone() {
        return ZoneOffset.UTC;
    }

    @Override
    public Clock withZone(ZoneId zone) {
        throw new UnsupportedOperationException("Panelbook's clock is UTC");
    }
}
