package panelbook.app.assessment;

import java.util.List;
import java.util.UUID;
import java.util.stream.Stream;
import org.springframework.context.event.EventListener;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import panelbook.app.access.Caller;
import panelbook.app.alerts.Alerts;
import panelbook.app.fleet.DisplayMoved;
import panelbook.app.fleet.HeroNamed;
import panelbook.app.fleet.PresetRetired;

/** What changes in the fleet changes what a preset is judged by: matches rest on who is the hero and who stands with it. */
@Component
class FleetChanges {

    private final Verdicts verdicts;
    private final Alerts alerts;
    private final JdbcClient jdbc;

    FleetChanges(Verdicts verdicts, Alerts alerts, JdbcClient jdbc) {
        this.verdicts = verdicts;
        this.alerts = alerts;
        this.jdbc = jdbc;
    }

    @EventListener
    void onHeroNamed(HeroNamed named) {
        verdicts.judgeLatestOf(jdbc.sql("""
                        select p.id from preset p join display_stay s on s.display_id = p.display_id and upper_inf(s.during)
                        where s.room_id = :room and p.target_id = :target and p.retired_at is null order by p.id
                        """)
                .param("room", named.roomId())
                .param("target", named.targetId())
                .query(UUID.class)
                .list());
    }

    @EventListener
    void onDisplayMoved(DisplayMoved moved) {
        var presets = presetsOf(moved.displayId());
        // rooms are locked before the log of alerts, by everybody
        verdicts.judgeLatestOf(
                Stream.concat(presets.stream(), followersOf(presets).stream()).toList());
        presets.forEach(preset -> alerts.moveAllAbout(preset, moved.toRoomId()));
    }

    @EventListener
    void onPresetRetired(PresetRetired retired) {
        verdicts.judgeLatestOf(followersOf(List.of(retired.presetId())));
        alerts.closeAllAbout(
                retired.presetId(),
                "It was taken out of use.",
                Caller.find().map(Caller::holder).orElse("service"));
    }

    /** The presets in use that were ever matched to one of these. */
    private List<UUID> followersOf(List<UUID> heroes) {
        return jdbc.sql("""
                        select distinct m.follower_preset_id from counted_match m join preset p on p.id = m.follower_preset_id
                        where m.hero_preset_id = any (:heroes) and p.retired_at is null
                        """)
                .param("heroes", heroes.toArray(new UUID[0]))
                .query(UUID.class)
                .list();
    }

    private List<UUID> presetsOf(UUID displayId) {
        return jdbc.sql("select id from preset where display_id = :display and retired_at is null order by id")
                .param("display", displayId)
                .query(UUID.class)
                .list();
    }
}
