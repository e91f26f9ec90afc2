package panelbook.cli.command;

import static panelbook.cli.terminal.Column.of;

import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import panelbook.cli.service.Paths;
import panelbook.cli.service.Service;
import panelbook.cli.terminal.Column;
import panelbook.cli.terminal.ExitCode;
import panelbook.cli.terminal.Failure;
import panelbook.wire.AxisScale;
import panelbook.wire.Drawing;
import panelbook.wire.DrawingAxis;
import panelbook.wire.DrawingName;
import panelbook.wire.DrawingPoint;
import panelbook.wire.DrawingSeries;
import panelbook.wire.Paper;
import panelbook.wire.Preset;
import panelbook.wire.PresetDraft;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Commands on presets. */
final class PresetCommands {

    private static final String PRESET = "ROOM/DISPLAY/PRESET, FACILITY/ROOM/DISPLAY/PRESET or id.";

    private PresetCommands() {}

    @Command(footer = "  panelbook preset add HDR --display \"Suite 1/Main\" --target \"HDR 1000\"")
    static final class Add extends Action {
        @Parameters(paramLabel = "NAME", description = "Name; unique on the display.")
        String name = "";

        @Option(
                names = "--display",
                required = true,
                paramLabel = "DISPLAY",
                description = "DISPLAY, ROOM/DISPLAY or id.")
        String display = "";

        @Option(names = "--target", required = true, paramLabel = "TARGET", description = "Name or id of its target.")
        String target = "";

        @Override
        int work() {
            var on = names().display(display);
            var aim = names().target(target);
            var added = addOnce(
                    idOf("preset", on.id(), name),
                    id -> service().post(Preset.class, "/presets", new PresetDraft(id, on.id(), name, aim.id())),
                    () -> !service()
                            .pages(Preset.class, Service.with("/presets?display=" + on.id(), "name", name), 1)
                            .items()
                            .isEmpty());
            var path = Paths.of(added.value());
            return added(
                    Views.presets(),
                    added,
                    "preset " + path,
                    "panelbook run upload FILE --preset " + Words.quoted(path) + " --purpose as-left");
        }
    }

    @Command(footer = {"  panelbook preset list", "  panelbook preset list --room \"Suite 1\""})
    static final class ListAll extends ListingOfKept<Preset> {
        @Option(
                names = "--room",
                paramLabel = "ROOM",
                description = "Only presets of displays that stand in this room.")
        @Nullable
        String room;

        @Option(names = "--display", paramLabel = "DISPLAY", description = "Only presets of this display.")
        @Nullable
        String display;

        @Override
        View<Preset> view() {
            return Views.presets();
        }

        @Override
        String path() {
            var path = kept("/presets");
            if (room != null) {
                path = with(path, "room", names().room(room).id().toString());
            }
            return display == null
                    ? path
                    : with(path, "display", names().display(display).id().toString());
        }

        @Override
        String none() {
            return "There is no preset. Next: panelbook preset add NAME --display DISPLAY --target TARGET";
        }
    }

    @Command(footer = "  panelbook preset show \"Suite 1/Main/HDR\"")
    static final class Show extends Showing<Preset> {
        @Parameters(paramLabel = "PRESET", description = PRESET)
        String preset = "";

        @Override
        View<Preset> view() {
            return Views.presets();
        }

        @Override
        Preset thing() {
            return names().preset(preset);
        }
    }

    @Command(
            footer = {
                "  panelbook preset drawing \"Suite 1/Main/HDR\" white",
                "  panelbook preset drawing \"Suite 1/Main/HDR\" peak-luminance --svg peak.svg",
                "  panelbook preset drawing \"Suite 1/Main/HDR\" gamut --paper white --svg - > gamut.svg",
                "  panelbook preset drawing \"Suite 1/Main/HDR\" contrast --json > contrast.json"
            },
            description = {
                "",
                "The charts: peak-luminance and white-drift (over panel hours, with forecast), white, grey-delta-e, "
                        + "grey-luminance, eotf, gamut, contrast, match-white and match-luminance (residuals since sign-off)."
            })
    static final class Draw extends Action {
        @Parameters(index = "0", paramLabel = "PRESET", description = PRESET)
        String preset = "";

        @Parameters(index = "1", paramLabel = "CHART", description = "One of the charts below.")
        String chart = "";

        @Option(
                names = "--svg",
                paramLabel = "FILE",
                description = "Draw as SVG into this file, - for standard output, in place of printing the numbers.")
        @Nullable
        String svg;

        @Option(
                names = "--paper",
                paramLabel = "PAPER",
                description = "With --svg: dark (default), or white for print.")
        @Nullable
        String paper;

        /** A point of the chart. */
        record Row(
                String series,
                @Nullable Instant at,
                Object x,
                Object y,
                @Nullable Double low,
                @Nullable Double high,
                @Nullable String text,
                @Nullable UUID run) {}

        private static final List<Column<Row>> COLUMNS = List.of(
                of("SERIES", Row::series),
                of("TAKEN", Row::at),
                of("X", Row::x),
                of("Y", Row::y),
                of("Y FROM", Row::low),
                of("Y TO", Row::high),
                of("TEXT", Row::text),
                of("RUN", Row::run));

        @Override
        int work() {
            printer().checkFields(Drawing.class);
            var name = Words.one(DrawingName.class, "CHART", chart);
            var on = paper == null ? Paper.DARK : Words.one(Paper.class, "--paper", paper);
            if (svg != null && printer().isJson()) {
                throw Failure.usage("Ask for --svg or --json, not for both.");
            }
            if (svg == null && paper != null) {
                throw Failure.usage("--paper is for --svg.");
            }
            var drawn = names().preset(preset);
            var path = "/presets/" + drawn.id() + "/drawings/" + name;
            if (svg != null) {
                return DrawnFile.write(
                        this,
                        svg,
                        service().getText(path + ".svg?paper=" + on, "image/svg+xml"),
                        name + " of " + Paths.of(drawn));
            }
            print(service().get(Drawing.class, path));
            return ExitCode.DONE;
        }

        private void print(Drawing drawing) {
            if (printer().isJson()) {
                printer().one(Drawing.class, drawing, List.of());
                return;
            }
            printer().say(drawing.summary());
            printer()
                    .list(
                            Row.class,
                            drawing.series().stream()
                                    .flatMap(series ->
                                            series.points().stream().map(point -> row(drawing, series, point)))
                                    .toList(),
                            COLUMNS);
        }

        private static Row row(Drawing drawing, DrawingSeries series, DrawingPoint point) {
            return new Row(
                    series.name().isEmpty() ? series.kind().toString() : series.name(),
                    point.at(),
                    value(drawing.x(), point.x()),
                    value(drawing.y(), point.y()),
                    point.yLow(),
                    point.yHigh(),
                    point.words(),
                    point.runId());
        }

        private static Object value(DrawingAxis axis, double value) {
            return axis.scale() == AxisScale.TIME ? LocalDate.ofEpochDay((long) Math.floor(value)) : value;
        }
    }

    @Command(
            footer = "  panelbook preset edit \"Suite 1/Main/HDR\" --name \"HDR 1000\"",
            description = {"", "A preset keeps its target: a preset for another target is another preset."})
    static final class Edit extends Action {
        @Parameters(paramLabel = "PRESET", description = PRESET)
        String preset = "";

        @Option(names = "--name", required = true, paramLabel = "NAME", description = "New name.")
        String name = "";

        @Override
        int work() {
            var old = names().preset(preset);
            var draft = new PresetDraft(old.id(), old.displayId(), name, old.targetId());
            var edited = service().put(Preset.class, "/presets/" + old.id(), draft, old.version());
            return changed(Views.presets(), edited, "Changed preset " + Paths.of(edited), "");
        }
    }

    @Command(footer = "  panelbook preset retire \"Suite 1/Main/HDR\"")
    static final class Retire extends Retiring<Preset> {
        @Parameters(paramLabel = "PRESET", description = PRESET)
        String preset = "";

        @Override
        View<Preset> view() {
            return Views.presets();
        }

        @Override
        String collection() {
            return "/presets";
        }

        @Override
        UUID thingId() {
            return names().preset(preset).id();
        }

        @Override
        String name() {
            return "preset " + preset;
        }
    }
}
