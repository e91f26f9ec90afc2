package panelbook.cli.match;

import org.jspecify.annotations.Nullable;
import panelbook.wire.StepDraft;
import panelbook.wire.Trim;

/**
 * A step as this machine keeps it.
 *
 * @param draft with the number that it has now
 * @param ofHero for a reading: whether it is of the hero; null for other kinds
 * @param fate what became of it
 * @param text why it was refused, or who typed it elsewhere; null otherwise
 */
public record KeptStep(
        StepDraft draft,
        @Nullable Boolean ofHero,
        Fate fate,
        @Nullable String text) {

    /** What became of a step. */
    public enum Fate {
        /** On this machine only, so far. */
        UNSENT,
        /** The service has it. */
        STORED,
        /** The service refused it; it is kept here and counts for nothing. */
        REFUSED,
        /** Refused, and a person has seen it. */
        LEFT
    }

    /** Its place in the story. */
    public int number() {
        return draft.number();
    }

    KeptStep with(Fate now, @Nullable String why) {
        return new KeptStep(draft, ofHero, now, why);
    }

    /** The step moved up into the gap that a refused one left. */
    KeptStep afterLossOf(int gap) {
        var to = draft.returnTo();
        var moved = new StepDraft(
                draft.id(),
                draft.number() - 1,
                draft.kind(),
                draft.observation(),
                draft.trim(),
                draft.verdict(),
                draft.runId(),
                to == null || to < gap ? to : (Integer) (to - 1),
                draft.control(),
                draft.level(),
                draft.note(),
                draft.at());
        return new KeptStep(moved, ofHero, fate, text);
    }

    /** In words, as it can be typed. */
    public String words() {
        return StepText.of(draft, ofHero);
    }

    static boolean same(Trim a, Trim b) {
        return a.control().equals(b.control()) && a.level().equals(b.level());
    }
}
