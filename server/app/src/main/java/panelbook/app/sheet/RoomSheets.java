package panelbook.app.sheet;

import java.time.Clock;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Isolation;
import org.springframework.transaction.annotation.Transactional;
import panelbook.app.alerts.AlertBook;
import panelbook.app.fleet.RoomContents;
import panelbook.app.matching.StoryBook;
import panelbook.app.matching.TrimBook;
import panelbook.app.readiness.Readiness;
import panelbook.app.rest.Refusal;
import panelbook.wire.Display;
import panelbook.wire.Match;
import panelbook.wire.OperatorDifference;
import panelbook.wire.PanelHoursQuestion;
import panelbook.wire.Preset;
import panelbook.wire.Quirk;
import panelbook.wire.RoomSheet;
import panelbook.wire.SheetDisplay;

/** Gathers room sheets. */
@Component
public class RoomSheets {

    private final RoomContents contents;
    private final Readiness readiness;
    private final TargetParts targets;
    private final MeterParts meters;
    private final AlertBook alerts;
    private final TrimBook trims;
    private final StoryBook stories;
    private final Clock clock;

    RoomSheets(
            RoomContents contents,
            Readiness readiness,
            TargetParts targets,
            MeterParts meters,
            AlertBook alerts,
            TrimBook trims,
            StoryBook stories,
            Clock clock) {
        this.contents = contents;
        this.readiness = readiness;
        this.targets = targets;
        this.meters = meters;
        this.alerts = alerts;
        this.trims = trims;
        this.stories = stories;
        this.clock = clock;
    }

    /**
     * The sheet of a room now, all of it from one state of the book.
     *
     * @param inHand meters that are to be on it whether or not they were used here
     * @throws Refusal when there is no such room or meter, or the room is retired
     */
    @Transactional(readOnly = true, isolation = Isolation.REPEATABLE_READ)
    public RoomSheet of(UUID roomId, Set<UUID> inHand) {
        var now = clock.instant();
        var room = contents.room(roomId);
        var ready = readiness.ofRoom(roomId);
        var displays = contents.displays(roomId);
        var presets = contents.presets(roomId);
        var ids = presets.stream().map(Preset::id).collect(Collectors.toSet());
        var ofMeters = meters.of(presets, displays, inHand, now);
        var subjects = Stream.concat(
                        ids.stream(),
                        ofMeters.stream().map(meter -> meter.instrument().id()))
                .toList();
        var inForce = trims.of(roomId).inForce().stream()
                .filter(match -> ids.contains(match.followerPresetId()) && ids.contains(match.heroPresetId()))
                .toList();
        return new RoomSheet(
                room,
                now,
                ready,
                targets.of(presets, displays, now),
                withQuirks(displays, contents.openQuirks(roomId), contents.openQuestions(displays)),
                alerts.openIn(roomId, subjects),
                inForce,
                stories.originsOf(inForce),
                differences(inForce),
                stories.openIn(roomId),
                ofMeters,
                Cautions.in(displays));
    }

    private static List<SheetDisplay> withQuirks(
            List<Display> displays, List<Quirk> quirks, List<PanelHoursQuestion> questions) {
        return displays.stream()
                .map(display -> new SheetDisplay(
                        display,
                        quirks.stream()
                                .filter(quirk -> quirk.displayId().equals(display.id()))
                                .toList(),
                        questions.stream()
                                .filter(question -> question.displayId().equals(display.id()))
                                .toList()))
                .toList();
    }

    private static List<OperatorDifference> differences(List<Match> inForce) {
        var byPair = inForce.stream()
                .sorted(Comparator.comparing(Match::follower).thenComparing(Match::operator))
                .collect(Collectors.groupingBy(
                        match -> List.of(match.followerPresetId(), match.heroPresetId()),
                        LinkedHashMap::new,
                        Collectors.toList()));
        var differences = new ArrayList<OperatorDifference>();
        for (var ofPair : byPair.values()) {
            for (var one = 0; one < ofPair.size(); one++) {
                for (var other = one + 1; other < ofPair.size(); other++) {
                    differences.add(Apart.between(ofPair.get(one), ofPair.get(other)));
                }
            }
        }
        return differences;
    }
}
