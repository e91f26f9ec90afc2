package panelbook.cli.command;

import static panelbook.cli.terminal.Column.of;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import panelbook.cli.service.Paths;
import panelbook.cli.service.Refused;
import panelbook.cli.service.Service;
import panelbook.cli.service.ServiceAway;
import panelbook.cli.terminal.Column;
import panelbook.cli.terminal.ExitCode;
import panelbook.cli.terminal.Failure;
import panelbook.wire.DueInstrument;
import panelbook.wire.DueList;
import panelbook.wire.DuePreset;
import panelbook.wire.FigureForecast;
import panelbook.wire.ForecastAnswer;
import panelbook.wire.ForecastCrossing;
import panelbook.wire.Metric;
import panelbook.wire.Preset;
import panelbook.wire.PresetForecast;
import panelbook.wire.Sureness;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Commands that look ahead. */
final class AheadCommands {

    private AheadCommands() {}

    @Command(
            footer = {
                "  panelbook forecast show \"Suite 1/Main\"",
                "  panelbook forecast show \"Suite 1/Main/HDR\" --ascii",
                "  panelbook forecast show \"Suite 1/Main/HDR\" --svg forecast.svg",
                "  panelbook forecast show \"Suite 1/Main/HDR\" --json > forecast.json"
            },
            description = {
                "",
                "Draws peak luminance and white over panel hours with what they are expected to do and the limits of the "
                        + "tolerance set, and says when these are crossed: as expected, and at the earliest with 90 %%. "
                        + "Where the readings do not tell, it says so instead of a date. Exit code 3 when a trend is beyond "
                        + "its limit already."
            })
    static final class ForecastShow extends Action {

        private static final int MOST_PRESETS = 200;
        private static final int USUAL_WIDTH = 80;

        @Parameters(
                paramLabel = "DISPLAY|PRESET",
                description = "DISPLAY, ROOM/DISPLAY or id for all its presets; ROOM/DISPLAY/PRESET or id for one.")
        String of = "";

        @Option(names = "--ascii", description = "Draw in plain ASCII on a terminal too, as is done in a pipe.")
        boolean ascii;

        @Option(
                names = "--svg",
                paramLabel = "FILE",
                description =
                        "Draw as SVG into this file in place of the terminal, - for standard output. For one preset.")
        @Nullable
        String svg;

        @Override
        int work() {
            printer().checkFields(PresetForecast.class);
            if (svg != null) {
                return draw(svg);
            }
            var forecasts = presets().stream()
                    .map(preset -> service().get(PresetForecast.class, "/presets/" + preset.id() + "/forecast"))
                    .toList();
            if (printer().isJson()) {
                printer().list(PresetForecast.class, forecasts, List.of());
            } else {
                forecasts.forEach(this::print);
            }
            return forecasts.stream()
                            .flatMap(forecast -> forecast.figures().stream())
                            .anyMatch(figure -> figure.answer() == ForecastAnswer.BEYOND_ALREADY)
                    ? ExitCode.BEYOND
                    : ExitCode.DONE;
        }

        private int draw(String file) {
            if (printer().isJson()) {
                throw Failure.usage("Ask for --svg or --json, not for both.");
            }
            var presets = presets();
            if (presets.size() > 1) {
                throw Failure.usage("--svg draws one preset, and \"" + of + "\" has these: "
                        + presets.stream().map(Paths::of).collect(Collectors.joining(", ")) + ".");
            }
            var drawing = service().getText("/presets/" + presets.get(0).id() + "/forecast.svg", "image/svg+xml");
            return DrawnFile.write(this, file, drawing, "the forecast of " + Paths.of(presets.get(0)));
        }

        private List<Preset> presets() {
            try {
                var display = names().display(of);
                var presets = service()
                        .pages(
                                Preset.class,
                                Service.with("/presets", "display", display.id().toString()),
                                MOST_PRESETS)
                        .items();
                if (presets.isEmpty()) {
                    throw Failure.failed("Display \"" + of + "\" has no preset in use.");
                }
                return presets;
            } catch (ServiceAway e) {
                throw e;
            } catch (Refused e) {
                if (e.status() != 404) {
                    throw e;
                }
                return List.of(names().preset(of));
            } catch (Failure e) {
                if (of.indexOf('/') < 0) {
                    throw e;
                }
                return List.of(names().preset(of));
            }
        }

        private void print(PresetForecast forecast) {
            printer().line(forecast.preset());
            printer()
                    .line("  "
                            + (forecast.hoursPerDay() == null
                                    ? "Its counter values do not tell how many hours a day it runs: there are no dates."
                                    : "It runs " + Words.fixed(forecast.hoursPerDay(), 1) + " h a day.")
                            + (forecast.runsWithoutPanelHours() == 0
                                    ? ""
                                    : " Left out, since no counter value places them: "
                                            + forecast.runsWithoutPanelHours() + " of its runs."));
            forecast.figures().forEach(this::print);
        }

        private void print(FigureForecast figure) {
            printer().line("");
            printer()
                    .line(
                            figure.metric() == Metric.OWN_DRIFT_WHITE
                                    ? "  White, distance in u′v′ from where it was left: " + figure.answer()
                                    : "  Peak luminance, cd/m²: " + figure.answer());
            var plain = ascii || !at().personReadsOut();
            ForecastPlot.of(figure, at().width() == 0 ? USUAL_WIDTH : at().width(), plain)
                    .forEach(printer()::line);
            printer().line("  " + figure.explanation());
            crossing("expected", figure.expected());
            crossing("earliest at 90 %", figure.earliest());
            var doubtful =
                    figure.points().stream().filter(point -> point.doubtful()).toList();
            doubtful.forEach(point -> printer()
                    .line("  Look again: the run of " + day(point.takenAt()) + " says "
                            + Words.fixed(point.panelHours(), 0)
                            + " panel hours, out of line with those before and after."));
        }

        private void crossing(String what, @Nullable ForecastCrossing crossing) {
            if (crossing != null) {
                printer()
                        .line("  " + what + "\t" + Words.fixed(crossing.panelHours(), 0) + " h"
                                + (crossing.at() == null ? "" : "\t" + day(crossing.at())));
            }
        }
    }

    @Command(
            footer = {
                "  panelbook due",
                "  panelbook due --room \"Suite 1\"",
                "  panelbook due --facility North --until 2027-03-31"
            },
            description = {
                "",
                "Every preset in use with each rule that makes it due and how sure its date is, earliest first; then the meters "
                        + "used on them and how long their certificates hold. Days are those where the room is. Exit code 3 when something "
                        + "is due already."
            })
    static final class Due extends Action {

        @Option(names = "--facility", paramLabel = "FACILITY", description = "Only this facility.")
        @Nullable
        String facility;

        @Option(names = "--room", paramLabel = "ROOM", description = "Only this room: ROOM, FACILITY/ROOM or id.")
        @Nullable
        String room;

        @Option(
                names = "--until",
                paramLabel = "DATE",
                description = "Only what is due by then, such as 2027-03-31 (default: all, without an end).")
        @Nullable
        String until;

        /** A rule of a preset, a preset that nothing makes due, or a meter. */
        record Row(
                String what,
                boolean due,
                @Nullable LocalDate on,
                @Nullable Object rule,
                @Nullable Object sureness,
                String text) {}

        private static final List<Column<Row>> COLUMNS = List.of(
                of("WHAT", Row::what),
                of("DUE", Row::due),
                of("ON", Row::on),
                of("RULE", Row::rule),
                of("HOW SURE", Row::sureness),
                of("TEXT", Row::text));

        @Override
        int work() {
            printer().checkFields(DueList.class);
            if (facility != null && room != null) {
                throw Failure.usage("Name a room or a facility, not both.");
            }
            var list = service().get(DueList.class, path());
            if (printer().isJson()) {
                printer().one(DueList.class, list, List.of());
            } else {
                var rows = Stream.concat(
                                list.presets().stream().flatMap(preset -> rows(preset, list.at())),
                                list.instruments().stream().map(Due::row))
                        .toList();
                printer().list(Row.class, rows, COLUMNS);
                if (rows.isEmpty() && at().personReadsErr()) {
                    printer().say(until == null ? "There is no preset in use." : "Nothing is due by " + until + ".");
                }
            }
            var due = list.presets().stream().anyMatch(DuePreset::due)
                    || list.instruments().stream().anyMatch(DueInstrument::due);
            return due ? ExitCode.BEYOND : ExitCode.DONE;
        }

        private String path() {
            var path = "/due";
            if (facility != null) {
                path = Service.with(
                        path, "facility", names().facility(facility).id().toString());
            }
            if (room != null) {
                path = Service.with(path, "room", names().room(room).id().toString());
            }
            return until == null
                    ? path
                    : Service.with(path, "until", Words.date("--until", until).toString());
        }

        private static Stream<Row> rows(DuePreset preset, Instant now) {
            return preset.rules().isEmpty()
                    ? Stream.of(new Row(preset.preset(), false, null, null, null, "Nothing gives a date."))
                    : preset.rules().stream()
                            .map(rule -> new Row(
                                    preset.preset(),
                                    !rule.at().isAfter(now),
                                    VisitText.date(rule.at(), preset.timeZone()),
                                    rule.reason(),
                                    rule.sureness(),
                                    rule.explanation()));
        }

        private static Row row(DueInstrument meter) {
            var until = meter.certifiedUntil();
            return new Row(
                    meter.instrument(),
                    meter.due(),
                    until == null ? null : until.plusDays(1),
                    "certificate",
                    until == null ? Sureness.FACT : Sureness.CALENDAR,
                    until == null
                            ? "There is no certificate on file."
                            : "Its certificate " + (meter.due() ? "held" : "holds") + " until " + until + ".");
        }
    }

    private static String day(Instant at) {
        return date(at).toString();
    }

    private static LocalDate date(Instant at) {
        return at.atOffset(ZoneOffset.UTC).toLocalDate();
    }
}
