package panelbook.cli.command;

import java.util.UUID;
import org.jspecify.annotations.Nullable;
import panelbook.cli.service.Paths;
import panelbook.cli.service.Service;
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
