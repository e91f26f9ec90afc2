package panelbook.cli.match;

import java.time.Instant;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import panelbook.wire.GuardReport;
import panelbook.wire.StepDraft;
import panelbook.wire.StorySignOffDraft;

/**
 * A line of a journal: one thing that happened. Which parts it has depends on what it is.
 *
 * @param what kind of line
 * @param at when it was written
 * @param opened the opening
 * @param step a step, as typed here or as the service has it
 * @param ofHero for a reading: whether it is of the hero
 * @param id step that the line is about
 * @param text why, or a word on it
 * @param guards what the guards said as things stood then
 * @param signOff the sign-off, while the service does not have it
 */
public record Line(
        Kind what,
        Instant at,
        @Nullable Opened opened,
        @Nullable StepDraft step,
        @Nullable Boolean ofHero,
        @Nullable UUID id,
        @Nullable String text,
        @Nullable List<GuardReport> guards,
        @Nullable StorySignOffDraft signOff) {

    /** What a line says. */
    public enum Kind {
        /** A match was opened here. */
        OPENING("opening"),
        /** The service has the opening. */
        OPENED("opened"),
        /** The service refused the opening. */
        NOT_OPENED("not-opened"),
        /** A step was typed here. */
        STEP("step"),
        /** The service has a step that was typed here. */
        STORED("stored"),
        /** The service has a step that was typed elsewhere. */
        TAKEN_IN("taken-in"),
        /** The service refused a step. */
        REFUSED("refused"),
        /** A person has seen that a step was refused, and leaves it at that. */
        LEFT("left"),
        /** The operator accepted. */
        SIGN_OFF("sign-off"),
        /** It was given up. */
        GIVING_UP("giving-up"),
        /** The service refused the end, whichever it was; the match goes on. */
        NOT_ENDED("not-ended"),
        /** The service has closed it. */
        CLOSED("closed");

        private final String word;

        Kind(String word) {
            this.word = word;
        }

        /** The word in the journal. */
        @Override
        public String toString() {
            return word;
        }
    }

    static Line opening(Instant at, Opened opened) {
        return new Line(Kind.OPENING, at, opened, null, null, null, null, null, null);
    }

    static Line step(Instant at, StepDraft step, @Nullable Boolean ofHero) {
        return new Line(Kind.STEP, at, null, step, ofHero, null, null, null, null);
    }

    static Line takenIn(Instant at, StepDraft step, @Nullable Boolean ofHero, String recordedBy) {
        return new Line(Kind.TAKEN_IN, at, null, step, ofHero, null, recordedBy, null, null);
    }

    static Line stored(Instant at, UUID step, List<GuardReport> guards) {
        return new Line(Kind.STORED, at, null, null, null, step, null, guards, null);
    }

    static Line about(Kind what, Instant at, @Nullable UUID step, @Nullable String text) {
        return new Line(what, at, null, null, null, step, text, null, null);
    }

    static Line signOff(Instant at, StorySignOffDraft signOff) {
        return new Line(Kind.SIGN_OFF, at, null, null, null, null, null, null, signOff);
    }
}
