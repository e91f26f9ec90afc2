package panelbook.cli.command;

import static panelbook.cli.terminal.Column.of;

import java.time.DayOfWeek;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.time.temporal.IsoFields;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.UUID;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import panelbook.cli.service.Service;
import panelbook.cli.terminal.Column;
import panelbook.cli.terminal.ExitCode;
import panelbook.cli.terminal.Failure;
import panelbook.wire.NeededDays;
import panelbook.wire.Plan;
import panelbook.wire.PlanDraft;
import panelbook.wire.PlanMove;
import panelbook.wire.PlanRest;
import panelbook.wire.Visit;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;

@Command(
        footer = {
            "  panelbook plan",
            "  panelbook plan --propose --until 2027-04-30",
            "  panelbook plan --dry-run --facility North --until 2027-06-30 --calibrator-days 10"
        },
        description = {
            "",
            "Shows the visits of the coming weeks, week by week, by calibrator and day, in the time zones of the rooms. "
                    + "--propose lays them anew into the calibrators' hours and the rooms' free hours: least expected time beyond "
                    + "tolerance, weighted by the importance of rooms, then fewest visits. What is confirmed or pinned stays, and "
                    + "what was proposed moves as little as it can. --dry-run answers the same and changes nothing; it also says "
                    + "how many days of a calibrator keep every room within tolerance, whoever works: each visited by the day on "
                    + "which the first of its presets is due. With --calibrator-days it lays that many days of somebody who knows "
                    + "every display, spread evenly, in the place of your calibrators, and says which rooms come too late. Each room is visited once at most within a plan. Exit code 3 when "
                    + "the plan leaves something beyond tolerance."
        })
final class PlanAction extends Action {

    private static final int USUAL_DAYS = 42;
    private static final int MOST_VISITS = 2000;

    @Option(names = "--propose", description = "Make a plan and propose its visits, in place of those proposed before.")
    boolean propose;

    @Option(names = "--dry-run", description = "Only say what a plan would be.")
    boolean dryRun;

    @Option(
            names = "--calibrator-days",
            paramLabel = "N",
            description = "With --dry-run: what so many days of a calibrator would keep, more than you have or fewer.")
    @Nullable
    Integer calibratorDays;

    @Option(names = "--facility", paramLabel = "FACILITY", description = "Only its rooms.")
    @Nullable
    String facility;

    @Option(names = "--from", paramLabel = "DATE", description = "First day (default: today).")
    @Nullable
    String from;

    @Option(names = "--until", paramLabel = "DATE", description = "Last day (default: six weeks from the first).")
    @Nullable
    String until;

    /**
     * A visit, a preset that is left, or the days that are needed.
     *
     * @param week its Monday
     */
    record Row(
            @Nullable LocalDate week,
            Object state,
            @Nullable String day,
            @Nullable String from,
            @Nullable String to,
            @Nullable String calibrator,
            @Nullable String where,
            String text,
            @Nullable Object id) {}

    private static final List<Column<Row>> COLUMNS = List.of(
            of("CALIBRATOR", Row::calibrator),
            of("DAY", Row::day),
            of("FROM", Row::from),
            of("TO", Row::to),
            of("ROOM", Row::where),
            of("STATE", Row::state),
            of("ID", Row::id),
            of("TEXT", Row::text));

    @Override
    int work() {
        if (propose && dryRun) {
            throw Failure.usage("Propose a plan or ask for a dry run, not both.");
        }
        if (calibratorDays != null && !dryRun) {
            throw Failure.usage("--calibrator-days is a question: ask it with --dry-run.");
        }
        var today = LocalDate.ofInstant(at().clock().instant(), ZoneId.systemDefault());
        var first = from == null ? null : Words.date("--from", from);
        var last = until == null ? or(first, today).plusDays(USUAL_DAYS - 1L) : Words.date("--until", until);
        var facilityId = facility == null ? null : names().facility(facility).id();
        return propose || dryRun
                ? plan(new PlanDraft(UUID.randomUUID(), facilityId, first, last, dryRun, calibratorDays))
                : show(facilityId, or(first, today), last);
    }

    private int show(@Nullable UUID facilityId, LocalDate first, LocalDate last) {
        printer().checkFields(Visit.class);
        var path = VisitCommands.PATH + "?state=proposed&state=confirmed&state=done";
        path = Service.with(path, "facility", facilityId == null ? null : facilityId.toString());
        // a day more on both sides, since rooms have time zones of their own
        path = Service.with(
                path,
                "from",
                first.minusDays(1).atStartOfDay(ZoneOffset.UTC).toInstant().toString());
        path = Service.with(
                path,
                "until",
                last.plusDays(2).atStartOfDay(ZoneOffset.UTC).toInstant().toString());
        var visits = service().pages(Visit.class, path, MOST_VISITS).items().stream()
                .filter(visit -> {
                    var day = VisitText.date(visit.startsAt(), visit.timeZone());
                    return !day.isBefore(first) && !day.isAfter(last);
                })
                .toList();
        if (printer().isJson()) {
            printer().list(Visit.class, visits, List.of());
        } else {
            print(visits.stream().map(visit -> row(visit, "")).toList());
        }
        if (visits.isEmpty() && at().personReadsErr()) {
            printer().say("There is no visit from " + first + " to " + last + ". Next: panelbook plan --propose");
        }
        return ExitCode.DONE;
    }

    private int plan(PlanDraft draft) {
        printer().checkFields(Plan.class);
        var plan = service().post(Plan.class, "/plans", draft).value();
        if (printer().isJson()) {
            printer().one(Plan.class, plan, List.of());
        } else {
            print(rows(plan));
        }
        printer().say(summary(plan));
        return plan.rest().isEmpty() ? ExitCode.DONE : ExitCode.BEYOND;
    }

    private List<Row> rows(Plan plan) {
        var moved = plan.moves().stream()
                .filter(move -> move.toStart() != null)
                .collect(Collectors.toMap(PlanMove::visitId, move -> move));
        var rows = new ArrayList<Row>();
        plan.visits().forEach(visit -> rows.add(row(visit, moved(visit, moved.get(visit.id())))));
        plan.moves().stream().filter(move -> move.toStart() == null).forEach(move -> rows.add(dropped(plan, move)));
        plan.rest().forEach(rest -> rows.add(left(plan, rest)));
        plan.gaps()
                .forEach(gap -> rows.add(new Row(
                        null,
                        "no visit",
                        null,
                        null,
                        null,
                        null,
                        gap.room(),
                        gap.obstacle() + ": " + gap.explanation() + " Due there: " + gap.presets() + ".",
                        null)));
        if (plan.neededDays() != null) {
            days(plan.neededDays())
                    .forEach(text -> rows.add(new Row(null, "days", null, null, null, null, null, text, null)));
        }
        return rows;
    }

    private static Row row(Visit visit, String more) {
        var day = VisitText.date(visit.startsAt(), visit.timeZone());
        return new Row(
                day.with(DayOfWeek.MONDAY),
                visit.pinned() ? visit.state() + ", pinned" : visit.state(),
                VisitText.day(visit.startsAt(), visit.timeZone()),
                VisitText.clock(visit.startsAt(), visit.timeZone()),
                VisitText.clock(visit.endsAt(), visit.timeZone()),
                visit.calibrator(),
                visit.room(),
                VisitText.summary(visit) + more,
                visit.id());
    }

    private static String moved(Visit visit, @Nullable PlanMove move) {
        return move == null
                ? ""
                : "; moved from " + VisitText.time(move.fromStart(), visit.timeZone())
                        + (move.fromCalibrator().equals(visit.calibrator()) ? "" : " with " + move.fromCalibrator());
    }

    private static Row dropped(Plan plan, PlanMove move) {
        return new Row(
                null,
                "dropped",
                VisitText.day(move.fromStart(), plan.timeZone()),
                VisitText.clock(move.fromStart(), plan.timeZone()),
                null,
                move.fromCalibrator(),
                move.room(),
                "Was proposed before; the plan has no visit there.",
                move.visitId());
    }

    private static Row left(Plan plan, PlanRest rest) {
        return new Row(
                null,
                "left beyond",
                VisitText.day(rest.dueAt(), plan.timeZone()),
                null,
                null,
                null,
                rest.preset(),
                "Due by " + rest.reason() + ", beyond tolerance for " + Words.fixed(rest.beyondDays(), 1)
                        + " days as expected. " + rest.why(),
                null);
    }

    private static List<String> days(NeededDays needed) {
        var lines = new ArrayList<String>();
        var asked = needed.asked();
        if (asked != null) {
            lines.add(plural(asked.days(), "day of a calibrator", "days of a calibrator")
                    + (asked.lateRooms().isEmpty()
                            ? ": enough for every room that can be kept."
                            : ": not enough. Too late or not at all: " + String.join(", ", asked.lateRooms()) + "."));
        }
        lines.add(
                needed.enough() == null
                        ? "Not even the most days that were tried are enough: bookings leave too little time."
                        : "Enough to keep every room within tolerance that can be kept: "
                                + plural(needed.enough(), "day of a calibrator", "days of a calibrator")
                                + ", spread evenly; fewer than " + needed.atLeast()
                                + " cannot be. Your calibrators work " + plural(needed.there(), "day", "days") + ".");
        if (!needed.lateAnyhow().isEmpty()) {
            lines.add("Late whatever is done, since due already, or before anybody could come: "
                    + String.join(", ", needed.lateAnyhow()) + ". Counted with a visit as long as one can be had.");
        }
        lines.add("Tried: "
                + needed.tried().stream()
                        .map(tried -> plural(tried.days(), "day", "days") + " " + tried.lateRooms() + " late")
                        .collect(Collectors.joining(", "))
                + ".");
        return lines;
    }

    private static String plural(int count, String one, String more) {
        return count + " " + (count == 1 ? one : more);
    }

    private static String summary(Plan plan) {
        var words = (plan.dryRun() ? "Would be: " : "Proposed: ")
                + plan.visits().size()
                + (plan.visits().size() == 1 ? " visit" : " visits") + " from " + plan.from() + " to " + plan.until()
                + ". Expected days beyond tolerance, weighted: " + Words.fixed(plan.beyondDays(), 1) + " instead of "
                + Words.fixed(plan.beyondDaysWithout(), 1)
                + (plan.bound() == null
                        ? "."
                        : "; with the prices of visits and moves " + Words.fixed(plan.cost(), 1)
                                + ", and no plan goes below " + Words.fixed(plan.bound(), 1) + ".");
        var calendars = plan.roomsWithoutCalendar() == 0
                ? ""
                : " Taken to be free always, since nobody gave their bookings: " + plan.roomsWithoutCalendar()
                        + (plan.roomsWithoutCalendar() == 1 ? " room." : " rooms.");
        return words + calendars + (plan.dryRun() ? "" : " Next: panelbook visit confirm VISIT");
    }

    private void print(List<Row> rows) {
        var sorted = rows.stream()
                .sorted(Comparator.comparing(Row::week, Comparator.nullsLast(Comparator.naturalOrder())))
                .toList();
        if (!at().personReadsOut()) {
            printer().list(Row.class, sorted, COLUMNS);
            return;
        }
        var weeks = new LinkedHashMap<String, List<Row>>();
        sorted.forEach(row ->
                weeks.computeIfAbsent(heading(row), key -> new ArrayList<>()).add(row));
        weeks.forEach((heading, those) -> {
            printer().line(heading);
            printer()
                    .list(
                            Row.class,
                            those.stream()
                                    .sorted(Comparator.comparing(
                                            Row::calibrator, Comparator.nullsLast(Comparator.naturalOrder())))
                                    .toList(),
                            COLUMNS);
            printer().line("");
        });
    }

    private static String heading(Row row) {
        var week = row.week();
        return week == null
                ? "Beside the visits"
                : "Week " + week.get(IsoFields.WEEK_OF_WEEK_BASED_YEAR) + ", from " + week + " to " + week.plusDays(6);
    }
}
