package panelbook.wire;

import java.time.Instant;
import java.util.List;

/**
 * Everything asked on arrival in a room, as it stood at a moment.
 *
 * @param at when
 * @param targets that presets of the room aim at, by name
 * @param displays that stand in the room, by name
 * @param alerts open or taken in hand, on the room's presets and on the meters of this sheet, newest first
 * @param trims matches in force, by follower and operator
 * @param origins how they came about, of those whose match was opened before it was signed
 * @param differences of operators who each have a match in force for the same pair
 * @param matchesUnderWay opened on followers of the room and neither signed nor given up, newest first
 * @param meters those named as in hand, and those used lately on the room's presets
 * @param cautions that apply to work in this room
 */
public record RoomSheet(
        Room room,
        Instant at,
        RoomReadiness readiness,
        List<SheetTarget> targets,
        List<SheetDisplay> displays,
        List<Alert> alerts,
        List<Match> trims,
        List<TrimOrigin> origins,
        List<OperatorDifference> differences,
        List<MatchStory> matchesUnderWay,
        List<SheetMeter> meters,
        List<String> cautions) {}
