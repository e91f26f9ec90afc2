package panelbook.app.matching;

import java.util.List;
import java.util.UUID;
import java.util.stream.Stream;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import panelbook.app.rest.Refusal;
import panelbook.wire.Match;
import panelbook.wire.RoomTrims;

/** Trims by room. */
@Component
public class TrimBook {

    private final MatchRows rows;
    private final JdbcClient jdbc;

    TrimBook(MatchRows rows, JdbcClient jdbc) {
        this.rows = rows;
        this.jdbc = jdbc;
    }

    /**
     * Matches of the followers that stand in a room, in force and replaced.
     *
     * @throws Refusal when there is no such room
     */
    public RoomTrims of(UUID roomId) {
        var room = jdbc.sql("select name from room where id = :id")
                .param("id", roomId)
                .query(String.class)
                .optional()
                .orElseThrow(() -> Refusal.notFound("room", roomId));
        var matches = rows.list(rows.select(
                        " where fro.id = :room order by follower, m.operator, m.signed_at desc, m.recorded_at desc, m.id")
                .param("room", roomId));
        return new RoomTrims(
                roomId,
                room,
                matches.stream().filter(Match::inForce).toList(),
                matches.stream().filter(match -> !match.inForce()).toList());
    }

    /** Matches of an operator in all rooms, those in force first, by follower, the newest first. */
    public List<Match> ofOperator(String operator) {
        var matches = rows.list(
                rows.select(" where m.operator = :operator order by follower, m.signed_at desc, m.recorded_at desc")
                        .param("operator", operator));
        return Stream.concat(
                        matches.stream().filter(Match::inForce),
                        matches.stream().filter(match -> !match.inForce()))
                .toList();
    }

    /** Everybody that a match was signed off for, by name. */
    public List<String> operators() {
        return jdbc.sql("select distinct operator from counted_match order by operator")
                .query(String.class)
                .list();
    }
}
