package panelbook.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.stream.LongStream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * Whatever cuts in, a match ends with the story that it has without: the service away for a while, answers lost, the client
 * killed at any byte of its journal after the step that it last acknowledged, a line left half written.
 */
class MatchCutsTest extends MatchRoom {

    private static final int STEPS = 14;

    static LongStream seeds() {
        return LongStream.rangeClosed(1, 25);
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void anyStepsWithAnyCutsEndWithTheSameStoryAsWithout(long seed) throws Exception {
        var lines = lines(new Random(seed));
        var undisturbed = open();
        lines.forEach(line -> done("match", "do", undisturbed, line));
        done("match", "give-up", undisturbed, "--reason", "to begin anew");
        var cut = open();
        cutInto(cut, lines, new Random(1000 + seed));
        assertThat(story(cut)).as("steps typed: %s", lines).isEqualTo(story(undisturbed));
        var settings = stub.stories.settings(stub.stories.stories.get(cut), STEPS);
        assertThat(settings).isEqualTo(stub.stories.settings(stub.stories.stories.get(undisturbed), STEPS));
        done("match", "do", cut, "where");
        for (var setting : settings) {
            assertThat(desk.out)
                    .as("the client agrees on how the controls stand")
                    .contains("%s@%s %+d"
                            .formatted(
                                    setting.get("control"),
                                    setting.get("level"),
                                    ((Number) setting.get("clicks")).intValue())
                            .replace("@all", ""));
        }
    }

    private List<String> lines(Random random) {
        var lines = new ArrayList<String>();
        lines.add("gain.red -1");
        for (var number = 2; number <= STEPS; number++) {
            lines.add(line(number, random));
        }
        return lines;
    }

    private String line(int number, Random random) {
        var controls = List.of("gain.red", "gain.blue@low", "saturation");
        return switch (random.nextInt(8)) {
            case 0 -> "saw redder skin on shot " + number;
            case 1 -> List.of("better", "worse", "same").get(random.nextInt(3));
            case 2 -> "back " + random.nextInt(number);
            case 3 -> "note number " + number;
            case 4 -> reading(number);
            default ->
                controls.get(random.nextInt(3)) + " " + (random.nextBoolean() ? "+" : "-") + (1 + random.nextInt(4));
        };
    }

    private String reading(int number) {
        var name = "run" + number + ".csv";
        reading(name, number % 2 == 0 ? CLIENT : MAIN, "2026-03-31T10:%02d:00Z".formatted(number));
        return "read " + name;
    }

    private void cutInto(String match, List<String> lines, Random random) throws Exception {
        var away = false;
        for (var line : lines) {
            if (random.nextInt(3) == 0) {
                away = !away;
                if (away) {
                    stub.stop();
                } else {
                    stub.restart();
                }
            }
            if (!away && random.nextInt(3) == 0) {
                stub.afterStep.add(StubService.problem(503, "The answer is lost.", List.of()));
            }
            done("match", "do", match, line);
            stub.afterStep.clear();
            if (random.nextInt(2) == 0) {
                killedAtSomeByte(match, random);
            }
        }
        if (away) {
            stub.restart();
        }
        done("match", "do", match, "send");
    }

    // the journal only grows: whenever the client is killed, what is left is a beginning of it
    private void killedAtSomeByte(String match, Random random) throws Exception {
        var journal = journal(match);
        var bytes = Files.readAllBytes(journal);
        var text = new String(bytes, StandardCharsets.UTF_8);
        var acknowledged = text.indexOf('\n', text.lastIndexOf("{\"what\":\"step\"")) + 1;
        var left = acknowledged + random.nextInt(bytes.length - acknowledged + 1);
        Files.write(journal, Arrays.copyOf(bytes, left));
    }

    private Path journal(String match) {
        return home.resolve(".local/state/panelbook/matches/" + match + ".jsonl");
    }

    private List<Map<String, Object>> story(String match) {
        return stub.stories.steps(match).stream()
                .map(step -> {
                    Map<String, Object> told = new LinkedHashMap<>(step);
                    told.remove("id");
                    told.remove("at");
                    return told;
                })
                .toList();
    }
}
