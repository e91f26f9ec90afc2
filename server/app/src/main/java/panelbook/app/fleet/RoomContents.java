package panelbook.app.fleet;

import java.util.List;
import java.util.UUID;
import org.springframework.stereotype.Component;
import panelbook.app.rest.Refusal;
import panelbook.wire.Display;
import panelbook.wire.PanelHoursQuestion;
import panelbook.wire.Preset;
import panelbook.wire.Quirk;
import panelbook.wire.Room;
import panelbook.wire.Target;
import panelbook.wire.ToleranceSet;

/** What stands in a room and what it is calibrated to. */
@Component
public class RoomContents {

    private final Rooms rooms;
    private final Displays displays;
    private final Presets presets;
    private final Targets targets;
    private final ToleranceSets toleranceSets;
    private final Quirks quirks;
    private final PanelHoursQuestions questions;

    RoomContents(
            Rooms rooms,
            Displays displays,
            Presets presets,
            Targets targets,
            ToleranceSets toleranceSets,
            Quirks quirks,
            PanelHoursQuestions questions) {
        this.rooms = rooms;
        this.displays = displays;
        this.presets = presets;
        this.targets = targets;
        this.toleranceSets = toleranceSets;
        this.quirks = quirks;
        this.questions = questions;
    }

    /**
     * A room.
     *
     * @throws Refusal when there is no such room
     */
    public Room room(UUID roomId) {
        return rooms.get(roomId);
    }

    /** The displays that stand in a room, by name. */
    public List<Display> displays(UUID roomId) {
        return displays.standingIn(roomId);
    }

    /** The presets in use of the displays that stand in a room, by display and name. */
    public List<Preset> presets(UUID roomId) {
        return presets.inUseIn(roomId);
    }

    /** The open quirks of the displays that stand in a room, newest first. */
    public List<Quirk> openQuirks(UUID roomId) {
        return quirks.openIn(roomId);
    }

    /** The open questions about the panel hours of displays, oldest first. */
    public List<PanelHoursQuestion> openQuestions(List<Display> ofDisplays) {
        return questions.openOf(ofDisplays.stream().map(Display::id).toList());
    }

    /** A set of limits. */
    public ToleranceSet toleranceSet(UUID toleranceSetId) {
        return toleranceSets.get(toleranceSetId);
    }

    /** A target that a preset aims at. */
    public Target target(UUID targetId) {
        return targets.get(targetId);
    }
}
