package panelbook.app.fleet;

import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.PutMapping;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.RequestHeader;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.bind.annotation.RestController;
import panelbook.app.rest.Adds;
import panelbook.app.rest.AnswersAsOf;
import panelbook.app.rest.Etags;
import panelbook.app.rest.Paging;
import panelbook.wire.Hero;
import panelbook.wire.HeroDraft;
import panelbook.wire.Page;
import panelbook.wire.Retirement;
import panelbook.wire.Room;
import panelbook.wire.RoomDraft;

/** Rooms and their heroes. */
@RestController
@RequestMapping(RoomsController.PATH)
class RoomsController {

    static final String PATH = "/api/v1/rooms";

    private final Rooms rooms;
    private final Heroes heroes;

    RoomsController(Rooms rooms, Heroes heroes) {
        this.rooms = rooms;
        this.heroes = heroes;
    }

    /** Adds a room. */
    @Adds
    @PostMapping
    ResponseEntity<Room> addRoom(@RequestBody RoomDraft draft) {
        var added = rooms.add(draft);
        return added.at(PATH + "/" + draft.id(), added.body().version());
    }

    /** Rooms by name. */
    @GetMapping
    @AnswersAsOf
    Page<Room> listRooms(
            @RequestParam(required = false) @Nullable UUID facility,
            @RequestParam(required = false) @Nullable String name,
            @RequestParam(defaultValue = "false") boolean retired,
            Paging paging) {
        return rooms.page(facility, name, retired, paging);
    }

    /** One room. */
    @GetMapping("/{id}")
    @AnswersAsOf
    ResponseEntity<Room> getRoom(@PathVariable UUID id) {
        return withEtag(rooms.get(id));
    }

    /** Edits a room. */
    @PutMapping("/{id}")
    ResponseEntity<Room> editRoom(
            @PathVariable UUID id,
            @RequestBody RoomDraft draft,
            @RequestHeader(name = "If-Match", required = false) @Nullable String ifMatch) {
        return withEtag(rooms.edit(id, draft, Etags.expected(ifMatch)));
    }

    /** Takes a room out of use. */
    @PostMapping("/{id}/retirement")
    Room retireRoom(@PathVariable UUID id, @RequestBody Retirement retirement) {
        return rooms.retire(id, retirement);
    }

    /** Heroes in force, by target, or all there ever were, newest first. */
    @GetMapping("/{id}/heroes")
    @AnswersAsOf
    List<Hero> listHeroes(@PathVariable UUID id, @RequestParam(defaultValue = "false") boolean history) {
        return heroes.of(id, history);
    }

    /** Names the hero for the target of a preset; the one before it stays in the history. */
    @Adds
    @PostMapping("/{id}/heroes")
    ResponseEntity<Hero> nameHero(@PathVariable UUID id, @RequestBody HeroDraft draft) {
        return heroes.name(id, draft).at(PATH + "/" + id + "/heroes");
    }

    private static ResponseEntity<Room> withEtag(Room room) {
        return ResponseEntity.ok().eTag(Etags.of(room.version())).body(room);
    }
}
