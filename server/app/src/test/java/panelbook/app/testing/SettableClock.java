package panelbook.app.testing;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.time.temporal.ChronoUnit;
import java.util.concurrent.atomic.AtomicReference;

/** A clock that stands still until a test sets it. All tests share it, so it only ever goes forward. */
public final class SettableClock extends Clock {

    private final AtomicReference<Instant> now;

    /** Stands at {@code start}. */
    public SettableClock(Instant start) {
        this.now = new AtomicReference<>(start);
    }

    /** Goes forward and says what time it is then, in the microseconds that the service's own clock ticks in. */
    public Instant advance(Duration by) {
        if (by.isNegative()) {
            throw new IllegalArgumentException("The shared clock only goes forward, not by " + by);
        }
        return now.updateAndGet(instant -> instant.plus(by).truncatedTo(ChronoUnit.MICROS));
    }

    @Override
    public Instant instant() {
        return now.get();
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
