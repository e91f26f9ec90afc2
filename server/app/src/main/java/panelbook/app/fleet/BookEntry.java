package panelbook.app.fleet;

import java.time.Clock;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.UUID;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;
import panelbook.app.database.EditedRow;
import panelbook.app.instruments.Instruments;
import panelbook.app.rest.Checks;
import panelbook.wire.BookEntered;
import panelbook.wire.CertificateDraft;
import panelbook.wire.DisplayEntry;
import panelbook.wire.FacilityBook;
import panelbook.wire.Hero;
import panelbook.wire.Instrument;
import panelbook.wire.InstrumentEntry;
import panelbook.wire.PresetDraft;
import panelbook.wire.PresetEntry;
import panelbook.wire.RoomEntry;
import panelbook.wire.Stay;
import panelbook.wire.Target;
import panelbook.wire.TargetEntry;
import panelbook.wire.ToleranceSet;
import panelbook.wire.ToleranceSetEntry;

/** Enters a book that was checked. Names tell what is meant; ids are made here for what is new. */
@Component
class BookEntry {

    private final FacilityRows facilityRows;
    private final RoomRows roomRows;
    private final DisplayRows displayRows;
    private final PresetRows presetRows;
    private final ToleranceSets toleranceSets;
    private final Targets targets;
    private final Instruments instruments;
    private final Stays stays;
    private final Heroes heroes;
    private final Clock clock;

    BookEntry(
            FacilityRows facilityRows,
            RoomRows roomRows,
            DisplayRows displayRows,
            PresetRows presetRows,
            ToleranceSets toleranceSets,
            Targets targets,
            Instruments instruments,
            Stays stays,
            Heroes heroes,
            Clock clock) {
        this.facilityRows = facilityRows;
        this.roomRows = roomRows;
        this.displayRows = displayRows;
        this.presetRows = presetRows;
        this.toleranceSets = toleranceSets;
        this.targets = targets;
        this.instruments = instruments;
        this.stays = stays;
        this.heroes = heroes;
        this.clock = clock;
    }

    BookEntered enter(FacilityBook book) {
        return new Entering(book).all();
    }

    /** One entry under way: what is known by name, and what was done so far. */
    private final class Entering {

        private final FacilityBook book;
        private final Tally tally = new Tally();
        private final Checks checks = new Checks();
        private final Instant now = clock.instant();
        private final Map<String, UUID> targetIds = new HashMap<>();

        private Entering(FacilityBook book) {
            this.book = book;
        }

        private BookEntered all() {
            var facility = facility();
            enterToleranceSets();
            enterTargets();
            enterInstruments();
            var rooms = enterRooms(facility);
            var displays = enterDisplays(facility);
            var presets = enterPresets(displays);
            checks.refuse();
            roomRows.flush();
            place(facility, rooms, displays);
            nameHeroes(facility, rooms, displays, presets);
            return tally.entered(facility.id());
        }

        private FacilityRow facility() {
            var there = facilityRows.findByName(book.name());
            if (there.isEmpty()) {
                tally.added("facility " + book.name());
                return facilityRows.save(new FacilityRow(UUID.randomUUID(), book.name(), book.timeZone()));
            }
            var row = there.get();
            if (usable(row, "/name")) {
                tally.changed(!row.timeZone().equals(book.timeZone()), "facility " + book.name());
                row.edit(book.name(), book.timeZone());
            }
            return row;
        }

        private void enterToleranceSets() {
            var known = byName(toleranceSets.all(), ToleranceSet::name);
            for (var i = 0; i < book.toleranceSets().size(); i++) {
                var entry = book.toleranceSets().get(i);
                var there = known.get(entry.name());
                if (there == null) {
                    toleranceSets.add(BookDrafts.of(UUID.randomUUID(), entry));
                    tally.added("tolerance set " + entry.name());
                } else if (usable(there.retiredAt(), "/toleranceSets/" + i + "/name")) {
                    edit(there, entry);
                }
            }
        }

        private void edit(ToleranceSet there, ToleranceSetEntry entry) {
            var after = toleranceSets.edit(there.id(), BookDrafts.of(there.id(), entry), there.version());
            tally.changed(after.version() != there.version(), "tolerance set " + entry.name());
        }

        private void enterTargets() {
            var sets = byName(toleranceSets.all(), ToleranceSet::name);
            var known = byName(targets.all(), Target::name);
            known.forEach((name, target) -> targetIds.put(name, target.id()));
            for (var i = 0; i < book.targets().size(); i++) {
                var entry = book.targets().get(i);
                var there = known.get(entry.name());
                var setId =
                        Objects.requireNonNull(sets.get(entry.toleranceSet())).id();
                if (there == null) {
                    var added = targets.add(BookDrafts.of(UUID.randomUUID(), entry, setId));
                    targetIds.put(entry.name(), added.body().id());
                    tally.added("target " + entry.name());
                } else if (usable(there.retiredAt(), "/targets/" + i + "/name")) {
                    edit(there, entry, setId);
                }
            }
        }

        private void edit(Target there, TargetEntry entry, UUID setId) {
            var after = targets.edit(there.id(), BookDrafts.of(there.id(), entry, setId), there.version());
            tally.changed(after.version() != there.version(), "target " + entry.name());
        }

        private void enterInstruments() {
            for (var i = 0; i < book.instruments().size(); i++) {
                var entry = book.instruments().get(i);
                var at = "/instruments/" + i;
                var there = instruments.find(entry.name());
                if (there.isEmpty()) {
                    var added = instruments
                            .add(BookDrafts.of(UUID.randomUUID(), entry))
                            .body();
                    tally.added("instrument " + entry.name());
                    enterCertificates(added, entry, at);
                } else if (usable(there.get().retiredAt(), at + "/name")) {
                    var id = there.get().id();
                    var after = instruments.edit(
                            id, BookDrafts.of(id, entry), there.get().version());
                    tally.changed(after.version() != there.get().version(), "instrument " + entry.name());
                    enterCertificates(after, entry, at);
                }
            }
        }

        private void enterCertificates(Instrument instrument, InstrumentEntry entry, String at) {
            var known = byName(instruments.certificates(instrument.id()), c -> c.number());
            for (var i = 0; i < entry.certificates().size(); i++) {
                var certificate = entry.certificates().get(i);
                var there = known.get(certificate.number());
                if (there == null) {
                    instruments.addCertificate(
                            instrument.id(),
                            new CertificateDraft(
                                    UUID.randomUUID(),
                                    certificate.number(),
                                    certificate.issuedOn(),
                                    certificate.expiresOn()));
                    tally.added("certificate " + certificate.number() + " of " + entry.name());
                } else {
                    checks.that(
                            there.issuedOn().equals(certificate.issuedOn())
                                    && there.expiresOn().equals(certificate.expiresOn()),
                            at + "/certificates/" + i,
                            "The certificate was entered with other dates, from " + there.issuedOn() + " to "
                                    + there.expiresOn() + ", and stays as it is.");
                }
            }
        }

        private Map<String, RoomRow> enterRooms(FacilityRow facility) {
            var known = byName(roomRows.findByFacilityId(facility.id()), RoomRow::name);
            var added = new ArrayList<RoomRow>();
            for (var i = 0; i < book.rooms().size(); i++) {
                var entry = book.rooms().get(i);
                var zone = entry.timeZone() == null ? book.timeZone() : entry.timeZone();
                var there = known.get(entry.name());
                if (there == null) {
                    var row = new RoomRow(UUID.randomUUID(), facility.id(), entry.name(), zone);
                    known.put(entry.name(), row);
                    added.add(row);
                    tally.added("room " + entry.name());
                } else if (usable(there, "/rooms/" + i + "/name")) {
                    tally.changed(!there.timeZone().equals(zone), "room " + entry.name());
                    there.edit(entry.name(), zone);
                }
            }
            roomRows.saveAll(added);
            return known;
        }

        private Map<String, DisplayRow> enterDisplays(FacilityRow facility) {
            var known = byName(displayRows.findByFacilityId(facility.id()), DisplayRow::name);
            var added = new ArrayList<DisplayRow>();
            eachDisplay((room, entry, at) -> {
                var there = known.get(entry.name());
                if (there == null) {
                    var row = new DisplayRow(BookDrafts.of(UUID.randomUUID(), facility.id(), entry));
                    known.put(entry.name(), row);
                    added.add(row);
                    tally.added("display " + entry.name());
                } else if (usable(there, at + "/name")) {
                    var draft = BookDrafts.of(there.id(), facility.id(), entry);
                    tally.changed(!there.sameAs(draft), "display " + entry.name());
                    there.edit(draft);
                }
            });
            displayRows.saveAll(added);
            return known;
        }

        private Map<PresetKey, PresetRow> enterPresets(Map<String, DisplayRow> displays) {
            var displayIds = displays.values().stream().map(DisplayRow::id).toList();
            var known = presetRows.findByDisplayIdIn(displayIds).stream()
                    .collect(Collectors.toMap(row -> new PresetKey(row.displayId(), row.name()), Function.identity()));
            var added = new ArrayList<PresetRow>();
            eachDisplay((room, entry, at) -> {
                var display = Objects.requireNonNull(displays.get(entry.name()));
                for (var i = 0; i < entry.presets().size(); i++) {
                    enterPreset(display, entry.presets().get(i), at + "/presets/" + i, known, added);
                }
            });
            presetRows.saveAll(added);
            return known;
        }

        private void enterPreset(
                DisplayRow display,
                PresetEntry entry,
                String at,
                Map<PresetKey, PresetRow> known,
                List<PresetRow> added) {
            var key = new PresetKey(display.id(), entry.name());
            var targetId = Objects.requireNonNull(targetIds.get(entry.target()));
            var called = "preset " + display.name() + "/" + entry.name();
            var there = known.get(key);
            if (there == null) {
                var row = new PresetRow(new PresetDraft(UUID.randomUUID(), display.id(), entry.name(), targetId));
                known.put(key, row);
                added.add(row);
                tally.added(called);
            } else if (usable(there, at + "/name")) {
                checks.that(
                        there.targetId().equals(targetId),
                        at + "/target",
                        "The preset is there for another target, and a preset for another target is another preset:"
                                + " give it a name of its own.");
                tally.changed(false, called);
            }
        }

        private void place(FacilityRow facility, Map<String, RoomRow> rooms, Map<String, DisplayRow> displays) {
            var roomOf =
                    stays.presentIn(facility.id()).stream().collect(Collectors.toMap(Stay::displayId, Stay::roomId));
            eachDisplay((roomEntry, entry, at) -> {
                var room = Objects.requireNonNull(rooms.get(roomEntry.name()));
                var display = Objects.requireNonNull(displays.get(entry.name()));
                if (!room.id().equals(roomOf.get(display.id()))) {
                    stays.come(display, room, UUID.randomUUID(), now, "facility book");
                    tally.note("display " + entry.name() + " placed in " + room.name());
                }
            });
        }

        private void nameHeroes(
                FacilityRow facility,
                Map<String, RoomRow> rooms,
                Map<String, DisplayRow> displays,
                Map<PresetKey, PresetRow> presets) {
            var inForce = heroes.inForceIn(facility.id()).stream()
                    .collect(
                            Collectors.toMap(hero -> new HeroKey(hero.roomId(), hero.targetId()), Function.identity()));
            eachDisplay((roomEntry, entry, at) -> {
                var room = Objects.requireNonNull(rooms.get(roomEntry.name()));
                var display = Objects.requireNonNull(displays.get(entry.name()));
                for (var preset : entry.presets()) {
                    var row = Objects.requireNonNull(presets.get(new PresetKey(display.id(), preset.name())));
                    nameHero(inForce, room, row, preset.hero(), entry.name() + "/" + preset.name());
                }
            });
        }

        private void nameHero(Map<HeroKey, Hero> inForce, RoomRow room, PresetRow preset, boolean hero, String called) {
            var key = new HeroKey(room.id(), preset.targetId());
            var present = inForce.get(key);
            var isHero = present != null && present.presetId().equals(preset.id());
            if (hero && !isHero) {
                heroes.replace(room.id(), preset, present, now);
                inForce.remove(key);
                tally.note(called + " named hero of " + room.name());
            } else if (!hero && isHero) {
                heroes.endOf(preset.id(), now);
                inForce.remove(key);
                tally.note(called + " is no longer hero of " + room.name());
            }
        }

        private void eachDisplay(DisplayStep step) {
            for (var i = 0; i < book.rooms().size(); i++) {
                var room = book.rooms().get(i);
                for (var j = 0; j < room.displays().size(); j++) {
                    step.take(room, room.displays().get(j), "/rooms/" + i + "/displays/" + j);
                }
            }
        }

        private boolean usable(EditedRow row, String at) {
            return usable(row.retired(), at);
        }

        private boolean usable(@Nullable Instant retiredAt, String at) {
            return usable(retiredAt != null, at);
        }

        private boolean usable(boolean retired, String at) {
            checks.that(!retired, at, "It is retired, and its record stays as it is: take another name.");
            return !retired;
        }
    }

    private static <T> Map<String, T> byName(List<T> things, Function<T, String> name) {
        return things.stream().collect(Collectors.toMap(name, Function.identity(), (a, b) -> a, HashMap::new));
    }

    private record HeroKey(UUID roomId, UUID targetId) {}

    private record PresetKey(UUID displayId, String name) {}

    @FunctionalInterface
    private interface DisplayStep {
        void take(RoomEntry room, DisplayEntry display, String at);
    }

    /** What was done so far. */
    private static final class Tally {

        private final List<String> notes = new ArrayList<>();
        private int added;
        private int changed;
        private int unchanged;

        private void added(String what) {
            added++;
            notes.add(what + " added");
        }

        private void changed(boolean really, String what) {
            if (really) {
                changed++;
                notes.add(what + " changed");
            } else {
                unchanged++;
            }
        }

        private void note(String what) {
            notes.add(what);
        }

        private BookEntered entered(UUID facilityId) {
            return new BookEntered(facilityId, added, changed, unchanged, List.copyOf(notes));
        }
    }
}
