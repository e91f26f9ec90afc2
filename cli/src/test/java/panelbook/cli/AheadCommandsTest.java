package panelbook.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import org.junit.jupiter.api.Test;
import panelbook.cli.json.Records;
import panelbook.wire.DueInstrument;
import panelbook.wire.DueList;
import panelbook.wire.DuePreset;
import panelbook.wire.DueReason;
import panelbook.wire.DueRule;
import panelbook.wire.FigureForecast;
import panelbook.wire.ForecastAnswer;
import panelbook.wire.ForecastCrossing;
import panelbook.wire.ForecastPoint;
import panelbook.wire.ForecastValue;
import panelbook.wire.Metric;
import panelbook.wire.PresetForecast;
import panelbook.wire.SegmentStart;
import panelbook.wire.Sureness;

/** What is said of the days to come: a drawing with its words, and the list of what is due. */
class AheadCommandsTest extends CommandTest {

    private static final Instant FIRST = Instant.parse("2026-01-01T10:00:00Z");

    /** Falls by 1 cd/m² in 20 h from 1000 cd/m², read every 70 h. */
    private void forecast(ForecastAnswer answer) {
        var points = new ArrayList<ForecastPoint>();
        for (var hours = 0; hours <= 560; hours += 70) {
            points.add(new ForecastPoint(
                    UUID.randomUUID(),
                    FIRST.plus(Duration.ofDays(hours / 10)),
                    hours,
                    1000 - hours / 20.0,
                    true,
                    false));
        }
        var fit = new ArrayList<ForecastValue>();
        for (var hours = 0; hours <= 1200; hours += 30) {
            fit.add(new ForecastValue(hours, 1000 - hours / 20.0, 998 - hours / 18.0, 1002 - hours / 22.0));
        }
        var luminance = new FigureForecast(
                Metric.OWN_DRIFT_LUMINANCE,
                "cd/m²",
                answer,
                "Peak luminance crosses its limit.",
                1000.0,
                950.0,
                SegmentStart.FIRST,
                9,
                points,
                fit,
                new ForecastCrossing(1000, Instant.parse("2026-04-11T10:00:00Z")),
                new ForecastCrossing(864, Instant.parse("2026-03-28T18:00:00Z")),
                3360.0);
        var white = new FigureForecast(
                Metric.OWN_DRIFT_WHITE,
                "u′v′",
                ForecastAnswer.NO_LIMIT,
                "No forecast: the tolerance set has no limit for it.",
                null,
                null,
                null,
                0,
                List.of(),
                List.of(),
                null,
                null,
                null);
        var preset = UUID.fromString(id("presets", "HDR"));
        stub.things
                .get("presets")
                .get(preset.toString())
                .put(
                        "forecast",
                        Records.deepTree(new PresetForecast(
                                preset,
                                "North/Suite 1/Main/HDR",
                                Desk.NOW,
                                "House",
                                10.0,
                                2,
                                List.of(luminance, white))));
    }

    @Test
    void aForecastIsDrawnInPlainAsciiInAPipeAndSaidInWords() {
        forecast(ForecastAnswer.CROSSES);
        done("forecast", "show", "Suite 1/Main/HDR");
        assertThat(desk.lines())
                .contains(
                        "North/Suite 1/Main/HDR",
                        "  It runs 10.0 h a day. Left out, since no counter value places them: 2 of its runs.",
                        "  Peak luminance, cd/m²: crosses",
                        "  Peak luminance crosses its limit.",
                        "  expected\t1000 h\t2026-04-11",
                        "  earliest at 90 %\t864 h\t2026-03-28",
                        "  No forecast: the tolerance set has no limit for it.");
        var plot = desk.lines().stream().filter(line -> line.contains(" | ")).toList();
        assertThat(String.join("", plot)).matches("\\p{ASCII}*");
        var limit = plot.stream()
                .filter(line -> line.startsWith("    950.0 | "))
                .findFirst()
                .orElseThrow();
        // 80 columns, 68 of them the drawing from 0 to 1200 h
        assertThat((limit.indexOf('X') - 12) / 68.0)
                .as("X stands at 1000 of 1200 h")
                .isBetween(0.81, 0.85);
        assertThat((limit.indexOf('E') - 12) / 68.0)
                .as("E stands at 864 of 1200 h")
                .isBetween(0.70, 0.74);
        assertThat(plot.get(0)).as("the first reading is the brightest").contains("| o");
        assertThat(String.join("", plot).chars().filter(c -> c == 'o').count())
                .as("readings")
                .isEqualTo(9);
    }

    @Test
    void onATerminalTheCurveIsDrawnInBrailleUnlessAsciiIsAskedFor() {
        forecast(ForecastAnswer.CROSSES);
        desk.terminal = true;
        done("forecast", "show", "Main");
        assertThat(desk.out.codePoints().anyMatch(c -> c > 0x2800 && c <= 0x28ff))
                .isTrue();
        done("forecast", "show", "Main", "--ascii");
        assertThat(desk.out.codePoints().noneMatch(c -> c >= 0x2800 && c <= 0x28ff))
                .isTrue();
        for (var width : List.of(1, 40, 80, 300)) {
            desk.width = width;
            done("forecast", "show", "Main");
            assertThat(desk.lines().stream().filter(line -> line.contains(" | ")))
                    .as("a terminal of %s columns", width)
                    .allMatch(line -> line.length() <= Math.min(100, Math.max(40, width)));
        }
    }

    @Test
    void aTrendBeyondItsLimitGivesExitCode3AndJsonHoldsEverything() {
        forecast(ForecastAnswer.BEYOND_ALREADY);
        assertThat(desk.type("forecast", "show", "Main", "--json=preset,hoursPerDay"))
                .isEqualTo(3);
        assertThat(desk.out).isEqualTo("[{\"preset\":\"North/Suite 1/Main/HDR\",\"hoursPerDay\":10.0}]\n");
        fails(1, "There is no display \"Nothing\"", "forecast", "show", "Nothing");
        fails(1, "There is no preset \"Suite 1/Main/SDR\"", "forecast", "show", "Suite 1/Main/SDR");
        fails(2, "There is no field \"x\"", "forecast", "show", "Main", "--json=x");
    }

    private void due(boolean already) {
        var at = already ? Instant.parse("2026-03-01T08:00:00Z") : Instant.parse("2026-05-01T08:00:00Z");
        var later = Instant.parse("2026-07-01T08:00:00Z");
        stub.due = Records.deepTree(new DueList(
                Desk.NOW,
                null,
                List.of(
                        new DuePreset(
                                UUID.randomUUID(),
                                "North/Suite 1/Main/HDR",
                                "Europe/Lisbon",
                                true,
                                at,
                                already,
                                List.of(
                                        new DueRule(DueReason.RECALIBRATION_DAYS, at, Sureness.CALENDAR, "60 days."),
                                        new DueRule(
                                                DueReason.LUMINANCE_FORECAST,
                                                later,
                                                Sureness.EARLIEST_AT_90,
                                                "Falls."))),
                        new DuePreset(
                                UUID.randomUUID(),
                                "North/Suite 1/Main/SDR",
                                "Europe/Lisbon",
                                false,
                                null,
                                false,
                                List.of())),
                List.of(new DueInstrument(UUID.randomUUID(), "Meter 1", LocalDate.parse("2026-12-31"), false))));
    }

    @Test
    void theDueListHoldsARowForEveryRuleAndExitCode3SaysThatSomethingIsDueAlready() {
        due(true);
        assertThat(desk.type("due", "--room", "Suite 1", "--until", "2026-12-31"))
                .as(desk.err)
                .isEqualTo(3);
        assertThat(desk.lines())
                .containsExactly(
                        "North/Suite 1/Main/HDR\ttrue\t2026-03-01\trecalibration-days\tcalendar\t60 days.",
                        "North/Suite 1/Main/HDR\tfalse\t2026-07-01\tluminance-forecast\tearliest-at-90\tFalls.",
                        "North/Suite 1/Main/SDR\tfalse\t\t\t\tNothing gives a date.",
                        "Meter 1\tfalse\t2027-01-01\tcertificate\tcalendar\tIts certificate holds until 2026-12-31.");
        var asked = List.copyOf(stub.seen).get(stub.seen.size() - 1);
        assertThat(asked.query()).isEqualTo("room=" + id("rooms", "Suite 1") + "&until=2026-12-31");
        due(false);
        done("due");
        done("due", "--json=until");
        assertThat(desk.out).isEqualTo("{\"until\":null}\n");
        fails(2, "not both", "due", "--room", "Suite 1", "--facility", "North");
        fails(2, "is not a date", "due", "--until", "soon");
    }
}
