package panelbook.app.planning;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.UUID;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import panelbook.app.matching.Agreement;
import panelbook.app.planning.crew.WorkDurations;
import panelbook.wire.DueReason;
import panelbook.wire.DueRule;
import panelbook.wire.VisitWork;
import panelbook.wire.Work;

/**
 * What is to be done in a room, and in which order: heroes first, and with each hero that is recalibrated its followers, since
 * that puts their matches in question.
 */
final class RoomWorks {

    /**
     * All the work on one preset.
     *
     * @param work its recalibration, its match, or one after the other
     * @param daysBefore expected days beyond tolerance before each day of the plan
     */
    record Piece(Due due, List<VisitWork> work, double[] daysBefore) {

        UUID presetId() {
            return due.line().presetId();
        }

        int minutes() {
            return work.stream().mapToInt(VisitWork::minutes).sum();
        }

        double beyondDays() {
            return daysBefore[daysBefore.length - 1];
        }
    }

    /**
     * What belongs into one visit.
     *
     * @param hero that is recalibrated; null where followers stand alone
     */
    record Unit(@Nullable Piece hero, List<Piece> followers) {

        List<Piece> pieces() {
            return Stream.concat(Stream.ofNullable(hero), followers.stream()).toList();
        }

        double beyondDays() {
            return pieces().stream().mapToDouble(Piece::beyondDays).sum();
        }

        int minutes() {
            return pieces().stream().mapToInt(Piece::minutes).sum();
        }
    }

    /**
     * What is taken into a visit.
     *
     * @param taken in the order of the work
     * @param left for another visit
     */
    record Cut(List<Piece> taken, List<Piece> left) {}

    private static final int STEP_MINUTES = 5;

    private final WorkDurations.Figures durations;
    private final Map<UUID, List<Agreement>> byFollower;
    private final Axis axis;

    RoomWorks(WorkDurations.Figures durations, List<Agreement> agreements, Axis axis) {
        this.durations = durations;
        this.byFollower = agreements.stream().collect(Collectors.groupingBy(Agreement::followerPresetId));
        this.axis = axis;
    }

    /** Whether a rule other than that of a match makes it due by a time. */
    static boolean recalibrationDue(Due due, Instant by) {
        return recalibrationRule(due, by) != null;
    }

    private static @Nullable DueRule recalibrationRule(Due due, Instant by) {
        return due.preset().rules().stream()
                .filter(rule -> !ofMatch(rule) && !rule.at().isAfter(by))
                .findFirst()
                .orElse(null);
    }

    private static boolean ofMatch(DueRule rule) {
        return rule.reason() == DueReason.MATCH_IN_QUESTION || rule.reason() == DueReason.HERO_RECALIBRATED;
    }

    /**
     * The work of a room, the gravest first.
     *
     * @param dues of the presets of the room
     * @param recalibrated says of which presets a recalibration is wanted
     * @param matchesToo whether matches that are in question already are wanted, too
     * @param why of a recalibration that no rule asks for
     * @param by when the rules are looked at
     */
    List<Unit> units(List<Due> dues, Predicate<Due> recalibrated, boolean matchesToo, String why, Instant by) {
        var anew = dues.stream()
                .filter(recalibrated)
                .map(due -> due.line().presetId())
                .collect(Collectors.toSet());
        var pieces = new LinkedHashMap<UUID, Piece>();
        for (var due : dues) {
            var work = new ArrayList<VisitWork>();
            if (anew.contains(due.line().presetId())) {
                work.add(recalibration(due, why, by));
            }
            match(due, anew, matchesToo).ifPresent(work::add);
            if (!work.isEmpty()) {
                pieces.put(
                        due.line().presetId(),
                        new Piece(
                                due, List.copyOf(work), Chances.of(due.preset()).daysBefore(axis)));
            }
        }
        return grouped(pieces, anew);
    }

    private List<Unit> grouped(Map<UUID, Piece> pieces, Set<UUID> anew) {
        var units = new ArrayList<Unit>();
        var placed = new HashSet<UUID>();
        for (var piece : pieces.values()) {
            if (piece.due().line().hero() && anew.contains(piece.presetId())) {
                var followers = pieces.values().stream()
                        .filter(other -> heroesOf(other.presetId()).contains(piece.presetId()))
                        .filter(other -> placed.add(other.presetId()))
                        .sorted(GRAVEST)
                        .toList();
                placed.add(piece.presetId());
                units.add(new Unit(piece, followers));
            }
        }
        pieces.values().stream()
                .filter(piece -> !placed.contains(piece.presetId()))
                .forEach(piece -> units.add(new Unit(null, List.of(piece))));
        units.sort(Comparator.comparingDouble((Unit unit) -> -unit.beyondDays())
                .thenComparing(unit -> unit.pieces().get(0).due().line().path()));
        return units;
    }

    private static final Comparator<Piece> GRAVEST = Comparator.comparingDouble((Piece piece) -> -piece.beyondDays())
            .thenComparing(piece -> piece.due().line().path());

    private Set<UUID> heroesOf(UUID presetId) {
        return byFollower.getOrDefault(presetId, List.of()).stream()
                .map(Agreement::heroPresetId)
                .collect(Collectors.toSet());
    }

    private VisitWork recalibration(Due due, String why, Instant by) {
        var line = due.line();
        var rule = recalibrationRule(due, by);
        var explanation = rule == null
                ? why
                : rule.explanation()
                        + (rule.at().isAfter(axis.start()) ? " Due on " + Say.day(rule.at(), line.zone()) + "." : "");
        return new VisitWork(
                line.presetId(),
                line.path(),
                line.hero(),
                Work.RECALIBRATION,
                rounded(durations.of(line.model(), Work.RECALIBRATION).minutes()),
                explanation);
    }

    private Optional<VisitWork> match(Due due, Set<UUID> anew, boolean matchesToo) {
        var line = due.line();
        var agreements = byFollower.getOrDefault(line.presetId(), List.of());
        var own = anew.contains(line.presetId());
        var touched = agreements.stream()
                .filter(agreement ->
                        own || anew.contains(agreement.heroPresetId()) || matchesToo && agreement.inQuestion() != null)
                .toList();
        if (touched.isEmpty()) {
            return Optional.empty();
        }
        var operators =
                touched.stream().map(Agreement::operator).distinct().sorted().toList();
        var minutes = rounded(durations.of(line.model(), Work.MATCH).minutes()) * operators.size();
        return Optional.of(new VisitWork(
                line.presetId(),
                line.path(),
                line.hero(),
                Work.MATCH,
                minutes,
                "With " + String.join(" and ", operators) + ": " + whyMatched(own, touched, anew) + "."));
    }

    private static String whyMatched(boolean own, List<Agreement> touched, Set<UUID> anew) {
        if (touched.stream().anyMatch(agreement -> anew.contains(agreement.heroPresetId()))) {
            return "its hero is recalibrated in this visit";
        }
        if (own) {
            return "its own recalibration puts the match in question";
        }
        return touched.stream().anyMatch(Agreement::heroRebased)
                ? "the hero was recalibrated since the match"
                : String.valueOf(touched.get(0).inQuestion());
    }

    private static int rounded(int minutes) {
        return Math.max(STEP_MINUTES, (minutes + STEP_MINUTES - 1) / STEP_MINUTES * STEP_MINUTES);
    }

    /**
     * As much as goes into a visit: whole units, the gravest first; of a unit that is too long by itself its hero and the gravest
     * of its followers.
     *
     * @param longestMinutes that the work may take
     */
    static Cut cut(List<Unit> units, int longestMinutes) {
        var taken = new ArrayList<Piece>();
        var left = new ArrayList<Piece>();
        var minutes = 0;
        for (var unit : units) {
            if (minutes + unit.minutes() <= longestMinutes) {
                taken.addAll(unit.pieces());
                minutes += unit.minutes();
            } else if (taken.isEmpty()) {
                for (var piece : unit.pieces()) {
                    var heroLeft = unit.hero() != null && left.contains(unit.hero());
                    var fits = !heroLeft && minutes + piece.minutes() <= longestMinutes;
                    (fits ? taken : left).add(piece);
                    minutes += fits ? piece.minutes() : 0;
                }
            } else {
                left.addAll(unit.pieces());
            }
        }
        return new Cut(heroesFirst(units, taken), List.copyOf(left));
    }

    /** Units with a hero come before those without. */
    private static List<Piece> heroesFirst(List<Unit> units, List<Piece> taken) {
        return units.stream()
                .sorted(Comparator.comparing((Unit unit) -> unit.hero() == null))
                .flatMap(unit -> unit.pieces().stream())
                .filter(taken::contains)
                .toList();
    }

    /** How long displays warm up before a visit, min: at least what their tolerance sets ask. */
    int warmUpMinutes(List<Piece> pieces) {
        return pieces.stream()
                .map(piece -> piece.due().line())
                .mapToInt(line -> Math.max(
                        line.warmUpMinutes(),
                        durations.of(line.model(), Work.WARM_UP).minutes()))
                .max()
                .orElse(0);
    }

    /** Panel technologies that a calibrator must know for it, in lower case. */
    static Set<String> skills(List<Piece> pieces) {
        return pieces.stream()
                .map(piece -> skill(piece.due().line().panelTechnology()))
                .collect(Collectors.toCollection(TreeSet::new));
    }

    /** A panel technology as skills are compared. */
    static String skill(String technology) {
        return technology.strip().toLowerCase(Locale.ROOT);
    }

    static List<VisitWork> work(List<Piece> pieces) {
        return pieces.stream().flatMap(piece -> piece.work().stream()).toList();
    }
}
