package panelbook.cli.command;

import java.time.Instant;
import java.util.Objects;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import panelbook.cli.service.Names;
import panelbook.cli.service.Paths;
import panelbook.wire.Quirk;
import panelbook.wire.QuirkDraft;
import panelbook.wire.SettlementDraft;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Commands on quirks. */
final class QuirkCommands {

    private static final String DISPLAY = "DISPLAY, ROOM/DISPLAY, FACILITY/ROOM/DISPLAY or id.";

    private QuirkCommands() {}

    @Command(
            footer = {
                "  panelbook display quirk add Client \"the menu dims the picture while it is open\"",
                "  panelbook display quirk add Client \"a converter sits in its feed\" --seen-at 2026-03-31T14:05:00+02:00"
            },
            description = {"", "The room sheet shows it to whoever comes next, until it is settled."})
    static final class Add extends Action {
        @Parameters(index = "0", paramLabel = "DISPLAY", description = DISPLAY)
        String display = "";

        @Parameters(index = "1", paramLabel = "NOTE", description = "What the next visitor should know.")
        String note = "";

        @Option(names = "--seen-at", paramLabel = "TIME", description = "When it was noticed (default: now).")
        @Nullable
        String seenAt;

        @Override
        int work() {
            printer().checkFields(Quirk.class);
            var moment = seenAt == null ? null : Words.time("--seen-at", seenAt);
            var of = names().display(display);
            var added =
                    service().post(Quirk.class, path(of.id(), ""), new QuirkDraft(id(of.id(), moment), note, moment));
            return added(
                    Views.quirks(),
                    added,
                    "quirk of " + Paths.of(of),
                    "when it is gone, panelbook display quirk settle "
                            + added.value().id() + " --word TEXT");
        }

        // what is back after it was settled is a new quirk; what is typed twice before that is one
        private UUID id(UUID displayId, @Nullable Instant moment) {
            var settled = service().list(Quirk.class, path(displayId, "?settled=true")).stream()
                    .filter(quirk -> quirk.settlement() != null && quirk.note().equals(note))
                    .count();
            return idOf("quirk", displayId, note, Objects.toString(moment, ""), settled);
        }

        private static String path(UUID displayId, String query) {
            return "/displays/" + displayId + "/quirks" + query;
        }
    }

    @Command(footer = {"  panelbook display quirk list Client", "  panelbook display quirk list Client --settled"})
    static final class ListAll extends Action {
        @Parameters(paramLabel = "DISPLAY", description = DISPLAY)
        String display = "";

        @Option(names = "--settled", description = "Also those that are settled.")
        boolean settled;

        @Override
        int work() {
            printer().checkFields(Quirk.class);
            var path = "/displays/" + names().display(display).id() + "/quirks" + (settled ? "?settled=true" : "");
            var quirks = service().list(Quirk.class, path);
            printer().list(Quirk.class, quirks, Views.quirks().columns());
            if (quirks.isEmpty() && at().personReadsErr()) {
                printer().say("No open quirk. Next: panelbook display quirk add DISPLAY NOTE");
            }
            return 0;
        }
    }

    @Command(
            footer =
                    "  panelbook display quirk settle 0f7e3a44-0000-4000-8000-6b1d2c3e4f50 --word \"converter taken out\"",
            description = {"", "The quirk stays on record with the word; if it comes back, note it anew."})
    static final class Settle extends Action {
        @Parameters(paramLabel = "QUIRK", description = "Id of the quirk; panelbook display quirk list shows it.")
        String quirk = "";

        @Option(names = "--word", required = true, paramLabel = "TEXT", description = "What became of it.")
        String word = "";

        @Override
        int work() {
            printer().checkFields(Quirk.class);
            var path = "/quirks/" + Names.id("a display quirk", quirk) + "/settlement";
            var settled =
                    service().post(Quirk.class, path, new SettlementDraft(word)).value();
            return changed(Views.quirks(), settled, "Settled a quirk of " + settled.display(), "");
        }
    }
}
