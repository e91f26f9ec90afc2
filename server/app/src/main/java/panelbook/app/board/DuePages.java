package panelbook.app.board;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.format.DateTimeParseException;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.RequestParam;
import panelbook.app.fleet.Directory;
import panelbook.app.planning.DueLists;
import panelbook.app.rest.Refusal;
import panelbook.wire.DuePreset;
import panelbook.wire.DueReason;
import panelbook.wire.DueRule;
import panelbook.wire.Sureness;

/** What is due, what will be, and which display leaves tolerance next. */
@BoardPage
class DuePages {

    private static final int SOONEST = 8;
    private static final int MOST = 500;
    private static final int USUAL_DAYS = 60;

    private final DueLists dueLists;
    private final Directory directory;

    DuePages(DueLists dueLists, Directory directory) {
        this.dueLists = dueLists;
        this.directory = directory;
    }

    /**
     * A preset on its way out of tolerance.
     *
     * @param earliest not before this with 90 %; null where only the expected day is told
     * @param expected as likely before as after; null where it lies too far ahead to be told
     */
    record Crossing(
            DuePreset preset,
            DueRule rule,
            @Nullable Instant earliest,
            @Nullable Instant expected) {

        /** What it is ordered by. */
        public Instant at() {
            return expected == null ? rule.at() : expected;
        }
    }

    /** {@code room} is part of a room's name, {@code until} the last day to look at, in the time zone of each room. */
    @GetMapping("/board/due")
    String due(
            Model model,
            @RequestParam(defaultValue = "") String facility,
            @RequestParam(defaultValue = "") String room,
            @RequestParam(defaultValue = "") String until) {
        var of = Asked.id("facility", facility);
        var wanted = room.strip().toLowerCase(Locale.ROOT);
        var list = dueLists.of(of, null, null);
        var here = list.presets().stream()
                .filter(due ->
                        wanted.isEmpty() || roomOf(due).toLowerCase(Locale.ROOT).contains(wanted))
                .toList();
        var last = until.isBlank()
                ? LocalDate.ofInstant(list.at(), ZoneId.of("UTC")).plusDays(USUAL_DAYS)
                : day(until);
        var due = here.stream().filter(one -> falls(one, last)).toList();
        var soonest = here.stream()
                .flatMap(one -> crossing(one, list.at()))
                .sorted(Comparator.comparing(Crossing::at)
                        .thenComparing(one -> one.preset().preset()))
                .limit(SOONEST)
                .toList();
        var shown = due.subList(0, Math.min(MOST, due.size()));
        model.addAttribute("due", shown);
        model.addAttribute("all", due.size());
        model.addAttribute("soonest", soonest);
        model.addAttribute("instruments", list.instruments());
        model.addAttribute(
                "places",
                directory.places(Stream.concat(shown.stream(), soonest.stream().map(Crossing::preset))
                        .map(DuePreset::presetId)
                        .distinct()
                        .toList()));
        model.addAttribute("facility", of);
        model.addAttribute("room", room.strip());
        model.addAttribute("until", last);
        model.addAttribute("at", list.at());
        var zones = here.stream().map(DuePreset::timeZone).distinct().toList();
        model.addAttribute("zone", zones.size() == 1 ? ZoneId.of(zones.get(0)) : null);
        model.addAttribute("zones", zones.size() > 1 ? "each room" : null);
        return "due";
    }

    private static String roomOf(DuePreset due) {
        var parts = due.preset().split("/", 3);
        return parts.length < 2 ? "" : parts[1];
    }

    private static boolean falls(DuePreset due, LocalDate last) {
        return due.dueAt() != null
                && !LocalDate.ofInstant(due.dueAt(), ZoneId.of(due.timeZone())).isAfter(last);
    }

    private static LocalDate day(String text) {
        try {
            return LocalDate.parse(text.strip());
        } catch (DateTimeParseException none) {
            throw Refusal.invalid("until", "\"" + text + "\" is no day: write it like 2026-12-31.");
        }
    }

    /** The forecast of a preset that is crossed first; nothing where none is ahead. */
    private static Stream<Crossing> crossing(DuePreset due, Instant now) {
        return due.rules().stream()
                .filter(rule -> forecast(rule) && rule.at().isAfter(now))
                .min(Comparator.comparing(DueRule::at))
                .map(first -> new Crossing(
                        due,
                        first,
                        at(due.rules(), first.reason(), Sureness.EARLIEST_AT_90),
                        at(due.rules(), first.reason(), Sureness.EXPECTED)))
                .stream();
    }

    private static boolean forecast(DueRule rule) {
        return rule.reason() == DueReason.LUMINANCE_FORECAST || rule.reason() == DueReason.WHITE_FORECAST;
    }

    private static @Nullable Instant at(List<DueRule> rules, DueReason reason, Sureness sureness) {
        return rules.stream()
                .filter(rule -> rule.reason() == reason && rule.sureness() == sureness)
                .map(DueRule::at)
                .findFirst()
                .orElse(null);
    }
}
