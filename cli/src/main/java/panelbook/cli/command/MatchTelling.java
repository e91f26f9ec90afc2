package panelbook.cli.command;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.time.ZoneOffset;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Option;

/** A command that adds to a match, as it happens or later from notes. */
abstract class MatchTelling extends MatchAction {

    @Option(
            names = "--at",
            paramLabel = "TIME",
            description =
                    "When it happened, for what is typed in from notes; each step is stamped a minute after the one before "
                            + "(default: now).")
    @Nullable
    String when;

    private @Nullable Clock notes;

    @Override
    final Clock clock() {
        if (when == null) {
            return at().clock();
        }
        if (notes == null) {
            notes = new NotesClock(Words.time("--at", when));
        }
        return notes;
    }

    /** A minute later each time it is looked at. */
    private static final class NotesClock extends Clock {

        private static final Duration BETWEEN_STEPS = Duration.ofMinutes(1);

        private Instant next;

        NotesClock(Instant first) {
            next = first;
        }

        @Override
        public Instant instant() {
            var now = next;
            next = now.plus(BETWEEN_STEPS);
            return now;
        }

        @Override
        public ZoneId getZone() {
            return ZoneOffset.UTC;
        }

        @Override
        public Clock withZone(ZoneId zone) {
            return this;
        }
    }
}
