package panelbook.cli.command;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import panelbook.cli.terminal.Failure;
import panelbook.wire.Weekday;
import panelbook.wire.WorkingHours;

/** Working hours as people type and read them: {@code mon-fri 09:00-17:00}. */
final class WeekText {

    private static final Pattern SPAN = Pattern.compile("(\\S+) +(\\d\\d:\\d\\d)-(\\d\\d:\\d\\d)");
    private static final String LIKE = "write it as \"mon-fri 09:00-17:00\" or \"sat,sun 10:00-14:00\"";
    private static final int SHORT = 3;

    private WeekText() {}

    /** The hours of all values of an option; none for the single value {@code none}. */
    static List<WorkingHours> read(String option, List<String> values) {
        if (values.equals(List.of("none"))) {
            return List.of();
        }
        var hours = new ArrayList<WorkingHours>();
        for (var value : values) {
            var span = SPAN.matcher(value.strip());
            if (!span.matches()) {
                throw Failure.usage(option + " \"" + value + "\" is not understood: " + LIKE + ".");
            }
            days(option, span.group(1)).forEach(day -> hours.add(new WorkingHours(day, span.group(2), span.group(3))));
        }
        hours.sort(Comparator.comparing(WorkingHours::day).thenComparing(WorkingHours::from));
        return hours;
    }

    private static List<Weekday> days(String option, String text) {
        var days = new ArrayList<Weekday>();
        for (var part : text.split(",", -1)) {
            var ends = part.split("-", -1);
            var first = day(option, ends[0]);
            var last = day(option, ends[ends.length - 1]);
            if (ends.length > 2 || first.compareTo(last) > 0) {
                throw Failure.usage(option + " \"" + part + "\" are no days: " + LIKE + ".");
            }
            days.addAll(EnumSet.range(first, last));
        }
        return days;
    }

    private static Weekday day(String option, String text) {
        return Arrays.stream(Weekday.values())
                .filter(day -> text.length() >= SHORT && day.toString().startsWith(text.toLowerCase(Locale.ROOT)))
                .findFirst()
                .orElseThrow(() -> Failure.usage(option + " \"" + text + "\" is no day: " + LIKE + "."));
    }

    /** The hours, those that days in a row share said once. */
    static String of(List<WorkingHours> week) {
        var byHours = new LinkedHashMap<String, List<Weekday>>();
        week.stream()
                .sorted(Comparator.comparing(WorkingHours::day).thenComparing(WorkingHours::from))
                .forEach(hours -> byHours.computeIfAbsent(hours.from() + "-" + hours.until(), key -> new ArrayList<>())
                        .add(hours.day()));
        return byHours.entrySet().stream()
                .map(entry -> days(entry.getValue()) + " " + entry.getKey())
                .collect(Collectors.joining("; "));
    }

    private static String days(List<Weekday> days) {
        var first = days.get(0);
        var last = days.get(days.size() - 1);
        var inARow = last.ordinal() - first.ordinal() == days.size() - 1 && days.size() > 1;
        return inARow
                ? shortly(first) + "-" + shortly(last)
                : days.stream().map(WeekText::shortly).collect(Collectors.joining(","));
    }

    private static String shortly(Weekday day) {
        return day.toString().substring(0, SHORT);
    }
}
