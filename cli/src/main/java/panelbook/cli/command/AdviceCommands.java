package panelbook.cli.command;

import static panelbook.cli.terminal.Column.of;

import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import panelbook.cli.service.Names;
import panelbook.wire.Advice;
import panelbook.wire.AdviceDraft;
import panelbook.wire.AdviceMoment;
import panelbook.wire.Look;
import panelbook.wire.Place;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Commands on the table of advice that a match is given. */
final class AdviceCommands {

    private static final String ADVICE = "Id of the line; panelbook advice list shows it.";
    private static final String PATH = "/advice";
    private static final String HOUSE = "house practice";

    private AdviceCommands() {}

    static View<Advice> view() {
        return View.of(
                Advice.class,
                List.of(
                        of("MOMENT", Advice::moment),
                        of("LOOK", Advice::look),
                        of("PLACE", Advice::place),
                        of("FIRST CONTROL", Advice::firstControl),
                        of("BASIS", Advice::basis),
                        of("RETIRED", Advice::retiredAt),
                        of("ID", Advice::id),
                        of("TEXT", Advice::text)));
    }

    @Command(
            footer = {"  panelbook advice list", "  panelbook advice list --retired"},
            description = {"", "What a match is told, and when. A house may add, change and retire lines."})
    static final class ListAll extends Action {
        @Option(names = "--retired", description = "Show those taken out of use, too.")
        boolean retired;

        @Override
        int work() {
            printer().checkFields(Advice.class);
            var table = service().list(Advice.class, PATH + (retired ? "?retired=true" : ""));
            printer().list(Advice.class, table, view().columns());
            if (table.isEmpty() && at().personReadsErr()) {
                printer().say("There is no advice. Next: panelbook advice add --help");
            }
            return 0;
        }
    }

    /** The parts of a line that an option may give; each null when it does not. */
    static final class Parts {
        @Option(
                names = "--look",
                paramLabel = "LOOK",
                description = "For an observation: only of this look, such as redder; any for all.")
        @Nullable
        String look;

        @Option(
                names = "--place",
                paramLabel = "PLACE",
                description = "For an observation: only there, such as skin; any for all.")
        @Nullable
        String place;

        @Option(
                names = "--control",
                paramLabel = "CONTROL",
                description = "For an observation: the control to try first.")
        @Nullable
        String control;

        @Option(
                names = "--basis",
                paramLabel = "TEXT",
                description = "Where it comes from, in words (default for a new line: house practice).")
        @Nullable
        String basis;

        @Nullable
        Look look(@Nullable Look old) {
            return look == null ? old : look.equals("any") ? null : Words.one(Look.class, "--look", look);
        }

        @Nullable
        Place place(@Nullable Place old) {
            return place == null ? old : place.equals("any") ? null : Words.one(Place.class, "--place", place);
        }
    }

    @Command(
            footer = {
                "  panelbook advice add \"Look at the skin of three shots first.\" --moment observation --place skin \\",
                "    --control saturation"
            })
    static final class Add extends Action {
        @Parameters(paramLabel = "TEXT", description = "What to tell.")
        String text = "";

        @Option(
                names = "--moment",
                required = true,
                paramLabel = "MOMENT",
                description = "opening, observation, trim, gain-raised, verdict, big-difference or sign-off.")
        String moment = "";

        @Mixin
        Parts parts = new Parts();

        @Override
        int work() {
            printer().checkFields(Advice.class);
            var when = Words.one(AdviceMoment.class, "--moment", moment);
            var look = parts.look(null);
            var place = parts.place(null);
            var basis = or(parts.basis, HOUSE);
            var id = idOf("advice", when, String.valueOf(look), String.valueOf(place), text);
            var added = addOnce(
                    id,
                    i -> service()
                            .post(
                                    Advice.class,
                                    PATH,
                                    new AdviceDraft(i, when, look, place, parts.control, text, basis)),
                    () -> false);
            return added(view(), added, "advice", "panelbook advice list");
        }
    }

    @Command(footer = "  panelbook advice edit 0f7e3a44-0000-4000-8000-6b1d2c3e4f50 --text \"Look at skin first.\"")
    static final class Edit extends Action {
        @Parameters(paramLabel = "ADVICE", description = ADVICE)
        String advice = "";

        @Option(names = "--text", paramLabel = "TEXT", description = "What to tell.")
        @Nullable
        String text;

        @Mixin
        Parts parts = new Parts();

        @Override
        int work() {
            printer().checkFields(Advice.class);
            requireAny(text, parts.look, parts.place, parts.control, parts.basis);
            var old = service().get(Advice.class, PATH + "/" + Names.id("an advice", advice));
            var draft = new AdviceDraft(
                    old.id(),
                    old.moment(),
                    parts.look(old.look()),
                    parts.place(old.place()),
                    parts.control == null ? old.firstControl() : parts.control,
                    or(text, old.text()),
                    or(parts.basis, old.basis()));
            var edited = service().put(Advice.class, PATH + "/" + old.id(), draft, old.version());
            return changed(view(), edited, "Changed advice, now version " + edited.version(), "");
        }
    }

    @Command(
            footer =
                    "  panelbook advice retire 0f7e3a44-0000-4000-8000-6b1d2c3e4f50 --reason \"we look at skin first\"")
    static final class Retire extends Retiring<Advice> {
        @Parameters(paramLabel = "ADVICE", description = ADVICE)
        String advice = "";

        @Override
        View<Advice> view() {
            return AdviceCommands.view();
        }

        @Override
        String collection() {
            return PATH;
        }

        @Override
        UUID thingId() {
            return Names.id("an advice", advice);
        }

        @Override
        String name() {
            return "advice";
        }
    }
}
