package panelbook.app.planning.crew;

import java.util.List;
import java.util.regex.Pattern;
import panelbook.app.rest.Checks;
import panelbook.wire.WorkingHours;

/** Whether working hours can be right. */
final class WeekChecks {

    private static final Pattern TIME = Pattern.compile("([01]\\d|2[0-3]):[0-5]\\d|24:00");
    private static final int MOST_SPANS = 50;

    private WeekChecks() {}

    /** Notes what is wrong with {@code week}, which {@code /week} points to. */
    static void check(Checks checks, List<WorkingHours> week) {
        checks.that(week.size() <= MOST_SPANS, "/week", "Must not hold more than " + MOST_SPANS + " spans.");
        for (var i = 0; i < week.size(); i++) {
            check(checks, "/week/" + i, week.get(i));
        }
        if (!checks.failed()) {
            apart(checks, week);
        }
    }

    /** Minutes from midnight of a time that was checked. */
    static int minutes(String time) {
        return Integer.parseInt(time.substring(0, 2)) * 60 + Integer.parseInt(time.substring(3));
    }

    private static void check(Checks checks, String at, WorkingHours hours) {
        var from = time(checks, at + "/from", hours.from());
        var until = time(checks, at + "/until", hours.until());
        checks.that(
                !from || !until || minutes(hours.from()) < minutes(hours.until()),
                at + "/until",
                "Must be later than " + hours.from() + ". Write a night in two parts, the first until 24:00.");
    }

    private static boolean time(Checks checks, String at, String text) {
        var is = TIME.matcher(text).matches();
        checks.that(is, at, "Must be a time such as 09:30.");
        return is;
    }

    private static void apart(Checks checks, List<WorkingHours> week) {
        for (var i = 0; i < week.size(); i++) {
            for (var before : week.subList(0, i)) {
                var hours = week.get(i);
                var overlap = before.day() == hours.day()
                        && minutes(hours.from()) < minutes(before.until())
                        && minutes(before.from()) < minutes(hours.until());
                checks.that(
                        !overlap,
                        "/week/" + i,
                        "Overlaps " + before.from() + " to " + before.until() + " of the same " + before.day() + ".");
            }
        }
    }
}
