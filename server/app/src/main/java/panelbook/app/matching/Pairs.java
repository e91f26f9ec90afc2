package panelbook.app.matching;

import java.util.UUID;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import panelbook.app.rest.Refusal;
import panelbook.app.runs.PresetFacts;
import panelbook.app.runs.PresetFactsBook;

/** Tells who can be matched to whom. */
@Component
class Pairs {

    private final PresetFactsBook presets;
    private final JdbcClient jdbc;

    Pairs(PresetFactsBook presets, JdbcClient jdbc) {
        this.presets = presets;
        this.jdbc = jdbc;
    }

    /**
     * A follower and the hero of its room.
     *
     * @throws Refusal when there is no such preset, one is retired, or the second is not the hero of the follower's room for
     *     the follower's target; {@code /followerPresetId} and {@code /heroPresetId} point to the ids
     */
    Pair of(UUID followerPresetId, UUID heroPresetId) {
        return of("/followerPresetId", followerPresetId, "/heroPresetId", heroPresetId);
    }

    /** As {@link #of(UUID, UUID)}, with what points to the ids. */
    Pair of(String followerPointer, UUID followerPresetId, String heroPointer, UUID heroPresetId) {
        var follower = preset(followerPointer, followerPresetId);
        var hero = preset(heroPointer, heroPresetId);
        mustBelongTogether(follower, hero);
        return new Pair(follower, hero);
    }

    private PresetFacts preset(String pointer, UUID id) {
        var facts = presets.find(id).orElseThrow(() -> Refusal.invalid(pointer, "there is no preset " + id));
        if (facts.retired()) {
            throw Refusal.invalid(pointer, facts.path() + " is retired");
        }
        return facts;
    }

    private void mustBelongTogether(PresetFacts follower, PresetFacts hero) {
        var heroOfRoom = jdbc.sql("""
                        select preset_id from hero where room_id = :room and target_id = :target and upper_inf(during)
                        """)
                .param("room", follower.roomId())
                .param("target", follower.targetId())
                .query(UUID.class)
                .optional();
        if (heroOfRoom.isEmpty()) {
            throw Refusal.conflict("The room of " + follower.path() + " has no hero for this target: name one first.");
        }
        if (heroOfRoom.get().equals(follower.presetId())) {
            throw Refusal.conflict(follower.path() + " is the hero of its room itself: a match is a follower's.");
        }
        if (!heroOfRoom.get().equals(hero.presetId())) {
            throw Refusal.conflict(
                    hero.path() + " is not the hero of the room of " + follower.path() + " for this target.");
        }
    }

    /** Refuses a pair whose presets are calibrated to different targets. */
    static void mustShareTarget(Pair pair) {
        if (!pair.follower().targetId().equals(pair.hero().targetId())) {
            throw Refusal.conflict(pair.follower().path() + " and "
                    + pair.hero().path() + " are calibrated to different targets: match presets of one target.");
        }
    }
}
