package panelbook.cli.command;

import static panelbook.cli.terminal.Column.of;

import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import panelbook.cli.service.Names;
import panelbook.cli.service.Service;
import panelbook.cli.terminal.Failure;
import panelbook.wire.Holiday;
import panelbook.wire.HolidayDraft;
import panelbook.wire.RoomPlanning;
import panelbook.wire.RoomPlanningDraft;
import panelbook.wire.TravelTime;
import panelbook.wire.TravelTimeDraft;
import panelbook.wire.Work;
import panelbook.wire.WorkDuration;
import panelbook.wire.WorkDurationDraft;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Commands on what a plan rests on beside calibrators: holidays, travel, durations and the importance of rooms. */
final class CrewCommands {

    private static final String NONE = "none";
    private static final String HOLIDAYS = "/holidays";

    private CrewCommands() {}

    static View<Holiday> holidays() {
        return View.of(
                Holiday.class,
                List.of(
                        of("DAY", Holiday::day),
                        of("NAME", Holiday::name),
                        of("FACILITY", h -> h.facility() == null ? "all" : h.facility()),
                        of("CANCELLED", Holiday::cancelledAt),
                        of("ID", Holiday::id)));
    }

    static View<TravelTime> travels() {
        return View.of(
                TravelTime.class,
                List.of(
                        of("ONE", TravelTime::oneFacility),
                        of("OTHER", TravelTime::otherFacility),
                        of("MINUTES", TravelTime::minutes)));
    }

    static View<WorkDuration> durations() {
        return View.of(
                WorkDuration.class,
                List.of(
                        of("MODEL", d -> d.model() == null ? "the house" : d.model()),
                        of("WORK", WorkDuration::work),
                        of("MINUTES", WorkDuration::minutes),
                        of("FROM", WorkDuration::source),
                        of("LEARNED", WorkDuration::learnedMinutes),
                        of("VISITS", WorkDuration::visits)));
    }

    @Command(
            footer = {
                "  panelbook holiday add 2027-01-01 \"New Year\"",
                "  panelbook holiday add 2027-06-24 \"house day\" --facility North"
            })
    static final class HolidayAdd extends Action {
        @Parameters(index = "0", paramLabel = "DAY", description = "The day.")
        String day = "";

        @Parameters(index = "1", paramLabel = "NAME", description = "What it is called.")
        String name = "";

        @Option(names = "--facility", paramLabel = "FACILITY", description = "Only there (default: everywhere).")
        @Nullable
        String facility;

        @Override
        int work() {
            printer().checkFields(Holiday.class);
            var on = Words.date("DAY", day);
            var in = facility == null ? null : names().facility(facility).id();
            var before = service().list(Holiday.class, HOLIDAYS + "?cancelled=true").stream()
                    .filter(holiday -> holiday.cancelledAt() != null)
                    .count();
            var id = idOf("holiday", on, name, String.valueOf(in), before);
            var added = service().post(Holiday.class, HOLIDAYS, new HolidayDraft(id, in, on, name));
            return added(holidays(), added, "holiday " + name, "");
        }
    }

    @Command(footer = {"  panelbook holiday list", "  panelbook holiday list --facility North --from 2027-01-01"})
    static final class HolidayList extends Action {
        @Option(names = "--facility", paramLabel = "FACILITY", description = "Those that hold there.")
        @Nullable
        String facility;

        @Option(names = "--from", paramLabel = "DAY", description = "From this day on.")
        @Nullable
        String from;

        @Option(names = "--until", paramLabel = "DAY", description = "Up to this day.")
        @Nullable
        String until;

        @Option(names = "--cancelled", description = "Also those taken back.")
        boolean cancelled;

        @Override
        int work() {
            printer().checkFields(Holiday.class);
            var path = Service.with(HOLIDAYS, "cancelled", cancelled ? "true" : null);
            path = Service.with(
                    path,
                    "facility",
                    facility == null ? null : names().facility(facility).id().toString());
            path = Service.with(
                    path,
                    "from",
                    from == null ? null : Words.date("--from", from).toString());
            path = Service.with(
                    path,
                    "until",
                    until == null ? null : Words.date("--until", until).toString());
            printer()
                    .list(
                            Holiday.class,
                            service().list(Holiday.class, path),
                            holidays().columns());
            return 0;
        }
    }

    @Command(footer = "  panelbook holiday cancel 0f7e3a44-0000-4000-8000-6b1d2c3e4f50")
    static final class HolidayCancel extends Action {
        @Parameters(paramLabel = "HOLIDAY", description = "Id; panelbook holiday list shows it.")
        String holiday = "";

        @Override
        int work() {
            printer().checkFields(Holiday.class);
            var path = HOLIDAYS + "/" + Names.id("a holiday", holiday) + "/cancellation";
            var cancelled = service().post(Holiday.class, path, Map.of()).value();
            return changed(holidays(), cancelled, "Took holiday " + cancelled.name() + " back", "");
        }
    }

    @Command(
            footer = {"  panelbook travel set North South 40", "  panelbook travel set North South none"},
            description = {"", "Either way. Where nobody says anything, nobody travels."})
    static final class TravelSet extends Action {
        @Parameters(index = "0", paramLabel = "ONE", description = "Name or id of a facility.")
        String one = "";

        @Parameters(index = "1", paramLabel = "OTHER", description = "Name or id of another.")
        String other = "";

        @Parameters(index = "2", paramLabel = "MINUTES", description = "Minutes, door to door; none takes it back.")
        String minutes = "";

        @Override
        int work() {
            printer().checkFields(TravelTime.class);
            var figure = minutes("MINUTES", minutes);
            var first = names().facility(one).id();
            var second = names().facility(other).id();
            var version = service().list(TravelTime.class, "/travel-times").stream()
                    .filter(time ->
                            Set.of(time.oneFacilityId(), time.otherFacilityId()).containsAll(List.of(first, second)))
                    .mapToLong(TravelTime::version)
                    .findFirst()
                    .orElse(0);
            var set = service()
                    .put(
                            TravelTime.class,
                            "/travel-times/" + first + "/" + second,
                            new TravelTimeDraft(figure),
                            version);
            return changed(
                    travels(),
                    set,
                    "It takes " + (figure == null ? "nobody says how long" : figure + " minutes") + " from "
                            + set.oneFacility() + " to " + set.otherFacility(),
                    "");
        }
    }

    @Command(footer = "  panelbook travel list")
    static final class TravelList extends Action {
        @Override
        int work() {
            printer().checkFields(TravelTime.class);
            printer()
                    .list(
                            TravelTime.class,
                            service().list(TravelTime.class, "/travel-times"),
                            travels().columns());
            return 0;
        }
    }

    @Command(
            footer = {
                "  panelbook duration set recalibration 50",
                "  panelbook duration set match 25 --model \"Model K\"",
                "  panelbook duration set match none --model \"Model K\""
            },
            description = {
                "",
                "Plans count with what is said of a model; else with what three past visits or more teach; else with the figure of "
                        + "the house."
            })
    static final class DurationSet extends Action {
        @Parameters(index = "0", paramLabel = "WORK", description = "warm-up, recalibration or match.")
        String work = "";

        @Parameters(index = "1", paramLabel = "MINUTES", description = "Minutes; none takes the figure back.")
        String minutes = "";

        @Option(
                names = "--model",
                paramLabel = "MODEL",
                description = "Of displays of this model (default: the house).")
        @Nullable
        String model;

        @Override
        int work() {
            printer().checkFields(WorkDuration.class);
            var what = Words.one(Work.class, "WORK", work);
            var figure = minutes("MINUTES", minutes);
            var old = service().list(WorkDuration.class, Service.with("/work-durations", "model", model)).stream()
                    .filter(duration -> duration.work() == what && Objects.equals(duration.model(), model))
                    .findFirst()
                    .orElseThrow();
            var set = service()
                    .put(
                            WorkDuration.class,
                            "/work-durations",
                            new WorkDurationDraft(model, what, figure),
                            old.version());
            return changed(durations(), set, "Plans count " + set.minutes() + " minutes for a " + what, "");
        }
    }

    @Command(footer = {"  panelbook duration list", "  panelbook duration list --model \"Model K\""})
    static final class DurationList extends Action {
        @Option(names = "--model", paramLabel = "MODEL", description = "Only of this model.")
        @Nullable
        String model;

        @Override
        int work() {
            printer().checkFields(WorkDuration.class);
            var path = Service.with("/work-durations", "model", model);
            printer()
                    .list(
                            WorkDuration.class,
                            service().list(WorkDuration.class, path),
                            durations().columns());
            return 0;
        }
    }

    @Command(
            footer = {"  panelbook room importance \"Suite 1\"", "  panelbook room importance \"Suite 1\" 5"},
            description = {
                "",
                "A day beyond tolerance counts so many times in a plan; a room weighs 1 unless it is said."
            })
    static final class RoomImportance extends Action {
        @Parameters(index = "0", paramLabel = "ROOM", description = "ROOM, FACILITY/ROOM or id.")
        String room = "";

        @Parameters(
                index = "1",
                arity = "0..1",
                paramLabel = "IMPORTANCE",
                description = "1 to 10; without it, shows it.")
        @Nullable
        Integer importance;

        @Override
        int work() {
            printer().checkFields(RoomPlanning.class);
            var path = "/rooms/" + names().room(room).id() + "/planning";
            var old = service().get(RoomPlanning.class, path);
            if (importance == null) {
                printer().one(RoomPlanning.class, old, view().fields());
                return 0;
            }
            var set = service().put(RoomPlanning.class, path, new RoomPlanningDraft(importance), old.version());
            return changed(view(), set, set.room() + " weighs " + set.importance(), "panelbook plan --propose");
        }

        private static View<RoomPlanning> view() {
            return View.of(
                    RoomPlanning.class,
                    List.of(of("ROOM", RoomPlanning::room), of("IMPORTANCE", RoomPlanning::importance)));
        }
    }

    private static @Nullable Integer minutes(String option, String text) {
        if (text.equals(NONE)) {
            return null;
        }
        try {
            return Integer.valueOf(text);
        } catch (NumberFormatException e) {
            throw Failure.usage(option + " \"" + text + "\" is neither a whole number of minutes nor none.");
        }
    }
}
