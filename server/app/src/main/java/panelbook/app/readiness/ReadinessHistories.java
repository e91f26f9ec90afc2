package panelbook.app.readiness;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import panelbook.app.database.AsOf;
import panelbook.app.database.Rows;
import panelbook.app.rest.Refusal;
import panelbook.wire.ReadinessChange;
import panelbook.wire.ReadinessHistory;
import panelbook.wire.ReadinessSpan;
import panelbook.wire.ReadinessState;
import panelbook.wire.Reason;
import panelbook.wire.RoomReadiness;

/**
 * The readiness of rooms over time. It asks the same question as of each moment at which something was entered, or at which a
 * baseline grew too old, and joins what stayed alike.
 */
@Service
public class ReadinessHistories {

    /** The longest period that one question may be about. */
    public static final Duration LONGEST = Duration.ofDays(800);

    private static final ReadinessChange TIME_WENT_BY = new ReadinessChange("time", "time went by", null, null);

    private final Readiness readiness;
    private final ReadinessBook book;
    private final Happenings happenings;
    private final AsOf asOf;
    private final JdbcClient jdbc;
    private final Clock clock;

    ReadinessHistories(
            Readiness readiness, ReadinessBook book, Happenings happenings, AsOf asOf, JdbcClient jdbc, Clock clock) {
        this.readiness = readiness;
        this.book = book;
        this.happenings = happenings;
        this.asOf = asOf;
        this.jdbc = jdbc;
        this.clock = clock;
    }

    /** What was said at a moment, and when time alone may change it next. */
    private record Said(@Nullable RoomReadiness readiness, Set<Instant> flips) {}

    /**
     * How the readiness of a room went.
     *
     * @param from inclusive
     * @param to exclusive; what lies ahead of now is left out
     * @throws Refusal when there is no such room, or the period is empty, longer than {@link #LONGEST} or begins before the book
     *     keeps its history
     */
    public ReadinessHistory of(UUID roomId, Instant from, Instant to) {
        record Name(String room, String facility) {}
        var name = jdbc.sql(
                        "select r.name, f.name as facility from room r join facility f on f.id = r.facility_id where r.id = :id")
                .param("id", roomId)
                .query((row, n) -> new Name(row.getString("name"), row.getString("facility")))
                .optional()
                .orElseThrow(() -> Refusal.notFound("room", roomId));
        var now = clock.instant();
        var start = Rows.kept(from);
        var end = Rows.kept(to.isAfter(now) ? now : to);
        if (!start.isBefore(to)) {
            throw Refusal.invalid("to", "Must be later than \"from\".");
        }
        if (start.isAfter(now)) {
            throw Refusal.invalid("from", "Lies ahead: the book knows only what was.");
        }
        if (Duration.between(start, end).compareTo(LONGEST) > 0) {
            throw Refusal.invalid("from", "At most " + LONGEST.toDays() + " days at once: ask for a shorter period.");
        }
        var said = said(roomId, start, end);
        return new ReadinessHistory(roomId, name.facility(), name.room(), start, end, spans(roomId, said, end));
    }

    private TreeMap<Instant, Said> said(UUID roomId, Instant from, Instant to) {
        var moments = new ArrayList<>(List.of(from));
        moments.addAll(happenings.between(roomId, from, to));
        var said = ask(roomId, moments);
        var flips = new TreeSet<Instant>();
        for (var entry : said.entrySet()) {
            var next = said.higherKey(entry.getKey());
            entry.getValue().flips().stream()
                    .filter(flip -> flip.isAfter(entry.getKey()) && flip.isBefore(next == null ? to : next))
                    .forEach(flips::add);
        }
        said.putAll(ask(roomId, List.copyOf(flips)));
        return said;
    }

    private TreeMap<Instant, Said> ask(UUID roomId, List<Instant> moments) {
        var said = new TreeMap<Instant, Said>();
        if (!moments.isEmpty()) {
            var answers = asOf.at(moments, () -> sayNow(roomId));
            for (var i = 0; i < moments.size(); i++) {
                said.put(moments.get(i), answers.get(i));
            }
        }
        return said;
    }

    private Said sayNow(UUID roomId) {
        var lines = book.ofRoom(roomId);
        if (lines.isEmpty()) {
            return new Said(null, Set.of());
        }
        var flips = new HashSet<Instant>();
        for (var line : lines) {
            ReasonRules.overdueFrom(line).ifPresent(flips::add);
        }
        return new Said(readiness.of(lines), flips);
    }

    private List<ReadinessSpan> spans(UUID roomId, TreeMap<Instant, Said> said, Instant to) {
        var turns = new ArrayList<Instant>();
        @Nullable Object before = null;
        for (var entry : said.entrySet()) {
            var now = alike(entry.getValue().readiness());
            if (turns.isEmpty() || !now.equals(before)) {
                turns.add(entry.getKey());
            }
            before = now;
        }
        // by the names that things had at the end of the period: what is said of the past does not change with a new
        // name
        var what = asOf.at(to, () -> happenings.at(roomId, turns));
        var spans = new ArrayList<ReadinessSpan>();
        for (var i = 0; i < turns.size(); i++) {
            var at = turns.get(i);
            var answer = Objects.requireNonNull(said.get(at)).readiness();
            if (answer != null) {
                spans.add(new ReadinessSpan(
                        at,
                        i + 1 < turns.size() ? turns.get(i + 1) : to,
                        answer.state(),
                        answer.reasons(),
                        i == 0 ? List.of() : what.getOrDefault(at, List.of(TIME_WENT_BY))));
            }
        }
        return spans;
    }

    /** What has to change for the readiness to count as changed: not the figures within the words of a reason. */
    private static Object alike(@Nullable RoomReadiness readiness) {
        return readiness == null
                ? Optional.<ReadinessState>empty()
                : List.of(
                        readiness.state(),
                        readiness.reasons().stream()
                                .map(ReadinessHistories::alike)
                                .toList());
    }

    private static Object alike(Reason reason) {
        return List.of(
                reason.weight(),
                reason.code(),
                String.valueOf(reason.display()),
                String.valueOf(reason.preset()),
                String.valueOf(reason.alertId()));
    }
}
