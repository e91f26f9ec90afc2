package panelbook.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

/** The client's process is killed, again and again, in the middle of a session; the service comes and goes. */
class MatchKillTest extends MatchRoom {

    private static final int KILLS = 12;
    private static final int NOTES_AHEAD = 200;

    @Test
    @Timeout(value = 180, threadMode = Timeout.ThreadMode.SEPARATE_THREAD)
    void everyStepThatWasAnsweredBeforeAKillIsInTheStoryOnceAndInOrder() throws Exception {
        var random = new Random(20260331);
        var match = open();
        var answered = new ArrayList<String>();
        var typed = 0;
        for (var kill = 0; kill < KILLS; kill++) {
            var away = kill % 3 == 1;
            if (away) {
                stub.stop();
            }
            try (var client = new ClientProcess(home, "match", "session", match)) {
                assertThat(client.awaits("North/Suite 1/Client/HDR to "))
                        .as(client.seen())
                        .isTrue();
                var first = typed;
                for (var n = 0; n < NOTES_AHEAD; n++) {
                    client.type("note number " + typed++);
                }
                // by what was answered, not by the clock: on a fast machine all would be answered before any time is up
                var last = "  note number " + (first + random.nextInt(NOTES_AHEAD / 4)) + " ";
                assertThat(client.awaits(line -> line.contains(last)))
                        .as(client.seen())
                        .isTrue();
                client.kill();
                var before = answered.size();
                for (var number = first; number < typed; number++) {
                    if (client.seen().contains("  note number " + number + " ")) {
                        answered.add("number " + number);
                    }
                }
                assertThat(answered.size() - before)
                        .as("not all: the kill came in the middle")
                        .isLessThan(NOTES_AHEAD);
            }
            if (away) {
                stub.restart();
            }
        }
        done("match", "do", match, "send");
        var stored = stub.stories.steps(match).stream()
                .map(step -> (String) step.get("note"))
                .toList();
        assertThat(stored).doesNotHaveDuplicates().containsAll(answered);
        assertThat(stored.stream()
                        .map(note -> Integer.valueOf(note.substring(7)))
                        .toList())
                .as("order")
                .isSorted();
        assertThat(answered).as("the sessions got somewhere").hasSizeGreaterThan(KILLS);
        assertThat(stored.size() - answered.size())
                .as("at most the one step that was under way at each kill is there besides")
                .isBetween(0, KILLS);
        assertThat(List.copyOf(answered)).isSubsetOf(stored);
    }
}
