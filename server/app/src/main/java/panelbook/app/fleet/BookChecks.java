package panelbook.app.fleet;

import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.UUID;
import java.util.function.Function;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import panelbook.app.instruments.Instruments;
import panelbook.app.rest.Checks;
import panelbook.wire.DisplayEntry;
import panelbook.wire.FacilityBook;
import panelbook.wire.InstrumentEntry;
import panelbook.wire.PresetEntry;
import panelbook.wire.RoomEntry;
import panelbook.wire.TargetEntry;
import panelbook.wire.ToleranceSetEntry;

/** What can be wrong with a book in itself, all of it at once, each with its place in the document. */
@Component
class BookChecks {

    /** Checks look at what a draft says, never at its id. */
    private static final UUID ANY = new UUID(0, 0);

    private final JdbcClient jdbc;

    BookChecks(JdbcClient jdbc) {
        this.jdbc = jdbc;
    }

    void check(FacilityBook book) {
        var checks = new Checks().name("/name", book.name());
        Facilities.checkTimeZone(checks, "/timeZone", book.timeZone());
        once(checks, "/toleranceSets", book.toleranceSets(), ToleranceSetEntry::name);
        once(checks, "/targets", book.targets(), TargetEntry::name);
        once(checks, "/instruments", book.instruments(), InstrumentEntry::name);
        once(checks, "/rooms", book.rooms(), RoomEntry::name);
        for (var i = 0; i < book.toleranceSets().size(); i++) {
            ToleranceSetChecks.of(
                    checks,
                    "/toleranceSets/" + i,
                    BookDrafts.of(ANY, book.toleranceSets().get(i)));
        }
        targets(checks, book);
        for (var i = 0; i < book.instruments().size(); i++) {
            instrument(checks, "/instruments/" + i, book.instruments().get(i));
        }
        rooms(checks, book);
        checks.refuse();
    }

    private void targets(Checks checks, FacilityBook book) {
        var sets = known(
                "select name from tolerance_set where retired_at is null",
                book.toleranceSets().stream().map(ToleranceSetEntry::name).toList());
        for (var i = 0; i < book.targets().size(); i++) {
            var target = book.targets().get(i);
            var at = "/targets/" + i;
            TargetChecks.of(checks, at, BookDrafts.of(ANY, target, ANY));
            checks.that(
                    sets.contains(target.toleranceSet()),
                    at + "/toleranceSet",
                    "There is no tolerance set \"" + target.toleranceSet()
                            + "\" in use, neither in this book nor in the" + " service.");
        }
    }

    private static void instrument(Checks checks, String at, InstrumentEntry instrument) {
        Instruments.check(checks, at, BookDrafts.of(ANY, instrument));
        once(checks, at + "/certificates", instrument.certificates(), certificate -> certificate.number());
        for (var i = 0; i < instrument.certificates().size(); i++) {
            var c = instrument.certificates().get(i);
            Instruments.checkCertificate(checks, at + "/certificates/" + i, c.number(), c.issuedOn(), c.expiresOn());
        }
    }

    private void rooms(Checks checks, FacilityBook book) {
        var targets = known(
                "select name from target where retired_at is null",
                book.targets().stream().map(TargetEntry::name).toList());
        Set<String> displays = new HashSet<>();
        for (var i = 0; i < book.rooms().size(); i++) {
            var room = book.rooms().get(i);
            var at = "/rooms/" + i;
            checks.name(at + "/name", room.name());
            if (room.timeZone() != null) {
                Facilities.checkTimeZone(checks, at + "/timeZone", room.timeZone());
            }
            Set<String> targetsWithHero = new HashSet<>();
            for (var j = 0; j < room.displays().size(); j++) {
                var display = room.displays().get(j);
                var there = at + "/displays/" + j;
                checks.that(
                        displays.add(display.name()),
                        there + "/name",
                        "The display \"" + display.name()
                                + "\" is in this book already: it stands in one room at a time.");
                display(checks, there, display, targets, targetsWithHero);
            }
        }
    }

    private static void display(
            Checks checks, String at, DisplayEntry display, Set<String> targets, Set<String> targetsWithHero) {
        Displays.checks(checks, at, BookDrafts.of(ANY, ANY, display));
        once(checks, at + "/presets", display.presets(), PresetEntry::name);
        for (var i = 0; i < display.presets().size(); i++) {
            var preset = display.presets().get(i);
            var there = at + "/presets/" + i;
            checks.name(there + "/name", preset.name())
                    .that(
                            targets.contains(preset.target()),
                            there + "/target",
                            "There is no target \"" + preset.target()
                                    + "\" in use, neither in this book nor in the service.")
                    .that(
                            !preset.hero() || targetsWithHero.add(preset.target()),
                            there + "/hero",
                            "The room has another hero for \"" + preset.target() + "\" in this book.");
        }
    }

    private Set<String> known(String select, List<String> named) {
        var known = new HashSet<>(jdbc.sql(select).query(String.class).list());
        known.addAll(named);
        return known;
    }

    private static <T> void once(Checks checks, String at, List<T> entries, Function<T, String> name) {
        Set<String> seen = new HashSet<>();
        for (var i = 0; i < entries.size(); i++) {
            var value = name.apply(entries.get(i));
            checks.that(seen.add(value), at + "/" + i + "/name", "\"" + value + "\" is in this list already.");
        }
    }
}
