package panelbook.app.calendars.ics;

import java.time.Instant;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.time.ZonedDateTime;
import java.util.List;

/** Where the clock of a time hangs. */
sealed interface Zone {

    /** The clock of UTC. */
    Zone UTC = new Named(ZoneOffset.UTC);

    /**
     * The instant at which a clock shows a time; where it shows it twice, the first; where it skips it, as if it had not been put
     * forward yet (RFC 5545, 3.3.5).
     */
    Instant instant(LocalDateTime time);

    /** What the clock shows. */
    LocalDateTime time(Instant instant);

    /** A zone of the IANA database. */
    record Named(ZoneId id) implements Zone {

        @Override
        public Instant instant(LocalDateTime time) {
            return ZonedDateTime.of(time, id).toInstant();
        }

        @Override
        public LocalDateTime time(Instant instant) {
            return LocalDateTime.ofInstant(instant, id);
        }
    }

    /**
     * A zone that the calendar itself describes.
     *
     * @param changes one or more, in order
     */
    record Described(List<Change> changes) implements Zone {

        public Described {
            changes = List.copyOf(changes);
        }

        /** A clock put forward or back, which shows {@code at} by its offset {@code before}. */
        record Change(LocalDateTime at, ZoneOffset before, ZoneOffset after) {

            Instant instant() {
                return at.toInstant(before);
            }

            LocalDateTime afterGap() {
                return at.plusSeconds(Math.max(0, after.getTotalSeconds() - before.getTotalSeconds()));
            }
        }

        @Override
        public Instant instant(LocalDateTime time) {
            var offset = changes.get(0).before();
            for (var change : changes) {
                if (time.isBefore(change.at())) {
                    break;
                }
                offset = time.isBefore(change.afterGap()) ? change.before() : change.after();
            }
            return time.toInstant(offset);
        }

        @Override
        public LocalDateTime time(Instant instant) {
            var offset = changes.get(0).before();
            for (var change : changes) {
                if (instant.isBefore(change.instant())) {
                    break;
                }
                offset = change.after();
            }
            return LocalDateTime.ofInstant(instant, offset);
        }
    }
}
