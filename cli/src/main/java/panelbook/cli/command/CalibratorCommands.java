package panelbook.cli.command;

import static panelbook.cli.terminal.Column.of;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import panelbook.cli.service.Names;
import panelbook.wire.Absence;
import panelbook.wire.AbsenceDraft;
import panelbook.wire.Calibrator;
import panelbook.wire.CalibratorDraft;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Commands on calibrators and their absences. */
final class CalibratorCommands {

    private static final String CALIBRATOR = "Name or id of the calibrator.";
    private static final String PATH = "/calibrators";
    private static final String HOURS =
            "Working hours in the time zone of the home facility, such as \"mon-fri 09:00-17:00\"; may be given more than once; "
                    + "none for none. Travel lies within them.";
    private static final String SKILL =
            "Panel technology that they calibrate, such as oled; may be given more than once (default: all).";

    private CalibratorCommands() {}

    static View<Calibrator> view() {
        return View.of(
                Calibrator.class,
                List.of(
                        of("NAME", Calibrator::name),
                        of("HOME", Calibrator::homeFacility),
                        of("SKILLS", c -> c.skills().isEmpty() ? "all" : String.join(", ", c.skills())),
                        of("HOURS", c -> WeekText.of(c.week())),
                        of("TIME ZONE", Calibrator::timeZone),
                        of("RETIRED", Calibrator::retiredAt),
                        of("ID", Calibrator::id)));
    }

    static View<Absence> absences() {
        return View.of(
                Absence.class,
                List.of(
                        of("CALIBRATOR", Absence::calibrator),
                        of("FROM", Absence::fromDay),
                        of("TO", Absence::toDay),
                        of("REASON", Absence::reason),
                        of("CANCELLED", Absence::cancelledAt),
                        of("ID", Absence::id)));
    }

    @Command(
            footer = {
                "  panelbook calibrator add Mara --home North --hours \"mon-fri 09:00-17:00\"",
                "  panelbook calibrator add Ivo --home South --skill oled --skill lcd --hours \"mon,wed 08:00-16:00\""
            },
            description = {
                "",
                "Give the name that the calibrator's token is held under: then they confirm and move their own visits."
            })
    static final class Add extends Action {
        @Parameters(paramLabel = "NAME", description = "Name; unique.")
        String name = "";

        @Option(
                names = "--home",
                required = true,
                paramLabel = "FACILITY",
                description = "Facility where each working day starts and ends.")
        String home = "";

        @Option(names = "--skill", paramLabel = "TECHNOLOGY", description = SKILL)
        List<String> skills = new ArrayList<>();

        @Option(names = "--hours", required = true, paramLabel = "DAYS HOURS", description = HOURS)
        List<String> hours = new ArrayList<>();

        @Override
        int work() {
            printer().checkFields(Calibrator.class);
            var week = WeekText.read("--hours", hours);
            var in = names().facility(home);
            var added = addOnce(
                    idOf("calibrator", name),
                    id -> service().post(Calibrator.class, PATH, new CalibratorDraft(id, name, in.id(), skills, week)),
                    () -> exists(() -> names().calibrator(name)));
            return added(view(), added, "calibrator " + name, "panelbook plan --propose");
        }
    }

    @Command(footer = {"  panelbook calibrator list", "  panelbook calibrator list --facility North --retired"})
    static final class ListAll extends ListingOfKept<Calibrator> {
        @Option(names = "--facility", paramLabel = "FACILITY", description = "Only those at home in this facility.")
        @Nullable
        String facility;

        @Override
        View<Calibrator> view() {
            return CalibratorCommands.view();
        }

        @Override
        String path() {
            var path = kept(PATH);
            return facility == null
                    ? path
                    : with(path, "facility", names().facility(facility).id().toString());
        }

        @Override
        String none() {
            return "There is no calibrator. Next: panelbook calibrator add --help";
        }
    }

    @Command(footer = "  panelbook calibrator show Mara")
    static final class Show extends Showing<Calibrator> {
        @Parameters(paramLabel = "CALIBRATOR", description = CALIBRATOR)
        String calibrator = "";

        @Override
        View<Calibrator> view() {
            return CalibratorCommands.view();
        }

        @Override
        Calibrator thing() {
            return names().calibrator(calibrator);
        }
    }

    @Command(
            footer = {
                "  panelbook calibrator edit Mara --hours \"mon-thu 09:00-18:00\"",
                "  panelbook calibrator edit Mara --skill all --name \"Mara L.\""
            })
    static final class Edit extends Action {
        @Parameters(paramLabel = "CALIBRATOR", description = CALIBRATOR)
        String calibrator = "";

        @Option(names = "--name", paramLabel = "NAME", description = "New name.")
        @Nullable
        String name;

        @Option(names = "--home", paramLabel = "FACILITY", description = "New home facility.")
        @Nullable
        String home;

        @Option(names = "--skill", paramLabel = "TECHNOLOGY", description = SKILL + " In place of those before.")
        @Nullable
        List<String> skills;

        @Option(names = "--hours", paramLabel = "DAYS HOURS", description = HOURS + " In place of those before.")
        @Nullable
        List<String> hours;

        @Override
        int work() {
            requireAny(name, home, skills, hours);
            printer().checkFields(Calibrator.class);
            var week = hours == null ? null : WeekText.read("--hours", hours);
            var old = names().calibrator(calibrator);
            var draft = new CalibratorDraft(
                    old.id(),
                    or(name, old.name()),
                    home == null ? old.homeFacilityId() : names().facility(home).id(),
                    skills == null ? old.skills() : skills.equals(List.of("all")) ? List.of() : skills,
                    week == null ? old.week() : week);
            var edited = service().put(Calibrator.class, PATH + "/" + old.id(), draft, old.version());
            return changed(view(), edited, "Changed calibrator " + edited.name(), "panelbook plan --propose");
        }
    }

    @Command(
            footer = "  panelbook calibrator retire Mara --reason \"moved on\"",
            description = {"", "Visits that were only proposed are dropped; confirmed ones have to be moved first."})
    static final class Retire extends Retiring<Calibrator> {
        @Parameters(paramLabel = "CALIBRATOR", description = CALIBRATOR)
        String calibrator = "";

        @Override
        View<Calibrator> view() {
            return CalibratorCommands.view();
        }

        @Override
        String collection() {
            return PATH;
        }

        @Override
        UUID thingId() {
            return names().calibrator(calibrator).id();
        }

        @Override
        String name() {
            return "calibrator " + calibrator;
        }
    }

    @Command(
            footer = {
                "  panelbook calibrator absence add Mara 2027-07-01 2027-07-14 --reason holiday",
                "  panelbook calibrator absence add Mara 2027-03-05"
            },
            description = {"", "Visits that are confirmed already stay, with a remark."})
    static final class AbsenceAdd extends Action {
        @Parameters(index = "0", paramLabel = "CALIBRATOR", description = CALIBRATOR)
        String calibrator = "";

        @Parameters(index = "1", paramLabel = "FROM", description = "First day away.")
        String from = "";

        @Parameters(index = "2", arity = "0..1", paramLabel = "TO", description = "Last day away (default: the same).")
        @Nullable
        String to;

        @Option(names = "--reason", paramLabel = "TEXT", description = "Why.")
        @Nullable
        String reason;

        @Override
        int work() {
            printer().checkFields(Absence.class);
            var first = Words.date("FROM", from);
            var last = to == null ? first : Words.date("TO", to);
            var of = names().calibrator(calibrator);
            var path = PATH + "/" + of.id() + "/absences";
            var before = service().list(Absence.class, path + "?cancelled=true").stream()
                    .filter(absence -> absence.cancelledAt() != null)
                    .count();
            var id = idOf("absence", of.id(), first, last, or(reason, ""), before);
            var added = service().post(Absence.class, path, new AbsenceDraft(id, first, last, reason));
            return added(absences(), added, "absence of " + of.name(), "panelbook plan --propose");
        }
    }

    @Command(
            footer = {"  panelbook calibrator absence list Mara", "  panelbook calibrator absence list Mara --cancelled"
            })
    static final class AbsenceList extends Action {
        @Parameters(paramLabel = "CALIBRATOR", description = CALIBRATOR)
        String calibrator = "";

        @Option(names = "--cancelled", description = "Also those taken back.")
        boolean cancelled;

        @Override
        int work() {
            printer().checkFields(Absence.class);
            var path = PATH + "/" + names().calibrator(calibrator).id() + "/absences"
                    + (cancelled ? "?cancelled=true" : "");
            printer()
                    .list(
                            Absence.class,
                            service().list(Absence.class, path),
                            absences().columns());
            return 0;
        }
    }

    @Command(footer = "  panelbook calibrator absence cancel 0f7e3a44-0000-4000-8000-6b1d2c3e4f50")
    static final class AbsenceCancel extends Action {
        @Parameters(paramLabel = "ABSENCE", description = "Id; panelbook calibrator absence list shows it.")
        String absence = "";

        @Override
        int work() {
            printer().checkFields(Absence.class);
            var path = "/absences/" + Names.id("a calibrator absence", absence) + "/cancellation";
            var cancelled = service().post(Absence.class, path, Map.of()).value();
            return changed(absences(), cancelled, "Took an absence of " + cancelled.calibrator() + " back", "");
        }
    }
}
