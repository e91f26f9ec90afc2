package panelbook.app.board;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.sql.SQLException;
import java.util.UUID;
import org.jsoup.Jsoup;
import org.junit.jupiter.api.Test;
import panelbook.app.testing.ServiceTest;
import panelbook.app.testing.Studio;
import panelbook.wire.Role;

/** A facility of 2,000 rooms stays usable; how long its page takes is measured by deploy/bench/load. */
class ManyRoomsTest extends ServiceTest {

    private static final int ROOMS = 2000;

    /** What the longest page may be, bytes: a goal of this house. */
    private static final int LONGEST = 300_000;

    /** What the next visits of rooms told in full would add. */
    private static final int OF_VISITS = RoomLists.IN_FULL * 60;

    @Test
    void thePageOfTwoThousandRoomsNamesThemAllAndIsSmall() throws SQLException {
        var studio =
                new Studio(engineer(), unique("A house so large that nobody ever walked through all of it in a day"));
        try {
            fill(studio.facility(), studio.target());

            var answer = as(Role.MANAGER)
                    .get("/board/facilities/" + studio.facility())
                    .expect(200)
                    .text();

            assertThat(answer.getBytes(StandardCharsets.UTF_8).length).isLessThan(LONGEST - OF_VISITS);
            var page = Jsoup.parse(answer);
            assertThat(page.select("table.rooms tbody tr")).hasSize(RoomLists.IN_FULL);
            assertThat(page.select("main a[href^=/board/rooms/]")).hasSize(ROOMS + 1);
            var rest = page.select("a[href*=skip]").attr("href");
            var next = Jsoup.parse(as(Role.MANAGER).get(rest).expect(200).text());
            assertThat(next.select("table.rooms tbody tr")).hasSize(RoomLists.IN_FULL);
            assertThat(next.select("table.rooms tbody th").eachText())
                    .doesNotContainAnyElementsOf(
                            page.select("table.rooms tbody th").eachText());
        } finally {
            retire(studio.facility());
        }
    }

    /** Rooms with a display each that was never calibrated, which is a long reason, and with a booking. */
    private static void fill(UUID facility, UUID target) throws SQLException {
        run(facility, target, """
                insert into room (id, facility_id, name, time_zone)
                    select md5('room' || :facility || n)::uuid, :facility, 'Grading suite ' || n, 'Europe/Lisbon' from generate_series(1, 2000) n;
                insert into display (id, facility_id, name, model, panel_technology)
                    select md5('display' || :facility || n)::uuid, :facility, 'Display ' || n, 'any', 'lcd' from generate_series(1, 2000) n;
                insert into display_stay (id, display_id, room_id, during, moved_by, moved_at)
                    select gen_random_uuid(), md5('display' || :facility || n)::uuid, md5('room' || :facility || n)::uuid,
                           tstzrange('2026-01-01', null), 'test', '2026-01-01' from generate_series(1, 2000) n;
                insert into preset (id, display_id, name, target_id)
                    select md5('preset' || :facility || n)::uuid, md5('display' || :facility || n)::uuid, 'Night', :target from generate_series(1, 2000) n;
                insert into booking_source (id, room_id, name)
                    select md5('source' || :facility || n)::uuid, md5('room' || :facility || n)::uuid, 'sessions' from generate_series(1, 2000) n;
                insert into booking (source_id, uid, starts_at, ends_at)
                    select md5('source' || :facility || n)::uuid, 'one', '2036-01-01 10:00Z', '2036-01-01 18:00Z' from generate_series(1, 2000) n;
                """);
    }

    /** So that other tests, which share the book, find it as quick as before. */
    private static void retire(UUID facility) throws SQLException {
        run(facility, facility, """
                update preset set retired_at = now() where display_id in (select id from display where facility_id = :facility);
                update display set retired_at = now() where facility_id = :facility;
                update room set retired_at = now() where facility_id = :facility;
                """);
    }

    private static void run(UUID facility, UUID target, String statements) throws SQLException {
        try (var connection = DATABASE.connect();
                var statement = connection.createStatement()) {
            statement.execute("begin;"
                    + statements
                            .replace(":facility", "'" + facility + "'::uuid")
                            .replace(":target", "'" + target + "'::uuid")
                    + "commit");
        }
    }
}
