package panelbook.app.fleet;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.sql.SQLException;
import java.util.List;
import java.util.UUID;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import panelbook.app.testing.Samples;
import panelbook.app.testing.ServiceTest;
import panelbook.wire.PanelHoursDraft;
import panelbook.wire.QuirkDraft;
import panelbook.wire.SettlementDraft;

/** History holds even against the role that owns the tables. */
class HistoryTest extends ServiceTest {

    @BeforeEach
    void somethingHappened() {
        var samples = new Samples(engineer());
        var room = samples.room(samples.facility().id());
        var preset = samples.preset(
                samples.display(room.facilityId(), room.id()).id(),
                samples.target().id());
        samples.hero(room.id(), preset.id());
        samples.instrument();
        engineer()
                .post("/displays/" + preset.displayId() + "/panel-hours", new PanelHoursDraft(1, null, null))
                .expect(201);
        var quirk = new QuirkDraft(UUID.randomUUID(), "The menu dims the picture.", null);
        engineer().post("/displays/" + preset.displayId() + "/quirks", quirk).expect(201);
        engineer()
                .post("/quirks/" + quirk.id() + "/settlement", new SettlementDraft("set to close by itself"))
                .expect(200);
    }

    @ParameterizedTest(name = "{0}")
    @CsvSource({
        "audit_entry, actor",
        "target_revision, recorded_by",
        "tolerance_set_revision, recorded_by",
        "tolerance, metric",
        "display_stay, moved_by",
        "hero, named_by",
        "instrument_certificate, recorded_by",
        "panel_hours, recorded_by",
        "quirk, note",
        "quirk_settlement, word"
    })
    void aRowOfHistoryIsNeitherChangedNorDeletedNorSweptAway(String table, String column) throws SQLException {
        for (var statement : List.of(
                "update " + table + " set " + column + " = 'somebody else'",
                "delete from " + table,
                "truncate " + table + " cascade")) {
            assertThatThrownBy(() -> execute(statement))
                    .as(statement)
                    .isInstanceOf(SQLException.class)
                    .hasMessageContaining("is history");
        }
        assertThat(count(table)).isPositive();
    }

    @Test
    void aStayCannotOverlapAnotherOfTheSameDisplay() {
        assertThatThrownBy(() -> execute("""
                        insert into display_stay (id, display_id, room_id, during, moved_by, moved_at)
                        select gen_random_uuid(), display_id, room_id, during, 'x', now() from display_stay""")).hasMessageContaining("display_stands_in_one_room_at_a_time");
    }

    @Test
    void aRoomCannotHaveTwoHeroesForATargetAtATime() {
        assertThatThrownBy(() -> execute("""
                        insert into hero (id, room_id, target_id, preset_id, during, named_by, named_at)
                        select gen_random_uuid(), room_id, target_id, preset_id, during, 'x', now() from hero""")).hasMessageContaining("room_has_one_hero_per_target");
    }

    @Test
    void whatIsChangedPastTheServiceIsInTheLogUnderTheDatabasesOwnName() throws SQLException {
        execute("insert into facility (id, name, time_zone) values (gen_random_uuid(), '" + unique("Past")
                + "', 'UTC')");

        try (var connection = DATABASE.connect();
                var rows = connection
                        .createStatement()
                        .executeQuery("select actor from audit_entry order by seq desc limit 1")) {
            assertThat(rows.next()).isTrue();
            assertThat(rows.getString(1)).isEqualTo("database: " + DATABASE.username());
        }
    }

    private static int count(String table) throws SQLException {
        try (var connection = DATABASE.connect();
                var rows = connection.createStatement().executeQuery("select count(*) from " + table)) {
            rows.next();
            return rows.getInt(1);
        }
    }

    private static void execute(String sql) throws SQLException {
        try (var connection = DATABASE.connect();
                var statement = connection.createStatement()) {
            statement.execute(sql);
        }
    }
}
