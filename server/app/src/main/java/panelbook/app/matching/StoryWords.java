package panelbook.app.matching;

import panelbook.app.rest.Days;
import panelbook.wire.Match;

/** How matches and their states are called. */
final class StoryWords {

    private StoryWords() {}

    /** A step of a match, e.g. "step 3 of the match of 2026-03-02 for operator A"; 0 is its opening. */
    static String step(StoredStory stored, int number) {
        return (number == 0 ? "the opening" : "step " + number) + " of the match of " + Days.of(stored.openedAt())
                + " for " + stored.opening().operator();
    }

    /** A sign-off, e.g. "as signed off for operator A on 2026-03-02". */
    static String signedOff(Match match) {
        return "as signed off for " + match.operator() + " on " + Days.of(match.signedAt());
    }
}
