package panelbook.app.proofs;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.UUID;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;
import panelbook.app.database.Query;
import panelbook.app.database.Rows;
import panelbook.app.rest.Paging;
import panelbook.app.rest.Words;
import panelbook.wire.Page;
import panelbook.wire.Proof;
import panelbook.wire.ReadinessState;

/** The proofs that were handed out. */
@Component
class ProofRows {

    private static final String SELECT = "select * from proof";

    private final JdbcClient jdbc;

    ProofRows(JdbcClient jdbc) {
        this.jdbc = jdbc;
    }

    /**
     * What was handed out.
     *
     * @param content canonical JSON
     * @param file PDF
     */
    record Kept(String content, byte[] file) {}

    Optional<Proof> find(UUID id) {
        return new Query(SELECT).where("id = :id", "id", id).one(jdbc, ProofRows::proof);
    }

    Kept kept(UUID id) {
        return jdbc.sql("select content, file from proof_file where proof_id = :id")
                .param("id", id)
                .query((row, n) -> new Kept(
                        Objects.requireNonNull(row.getString("content")), Objects.requireNonNull(row.getBytes("file"))))
                .single();
    }

    /** Newest first. */
    Page<Proof> ofRoom(UUID roomId, Paging paging) {
        var query = new Query(SELECT).where("room_id = :room", "room", roomId);
        if (!paging.first()) {
            query.bind("askedAt", Rows.atOrNull(paging.parsed(0, Instant::parse)))
                    .bind("after", paging.parsed(1, UUID::fromString))
                    .where("(asked_at, id) < (:askedAt, :after)");
        }
        return paging.page(
                query.list(jdbc, ProofRows::proof, "asked_at desc, id desc limit " + paging.fetch()),
                proof -> List.of(proof.askedAt().toString(), proof.id().toString()));
    }

    /** Newest first, the last hundred. */
    List<Proof> ofDay(UUID roomId, LocalDate day) {
        return new Query(SELECT)
                .where("room_id = :room", "room", roomId)
                .where("day = :day", "day", day)
                .list(jdbc, ProofRows::proof, "asked_at desc, id desc limit 100");
    }

    /** The newest whose column, the name of a digest, holds this. */
    Optional<Proof> byDigest(String column, String digest) {
        return new Query(SELECT)
                        .where(column + " = :digest", "digest", digest)
                        .list(jdbc, ProofRows::proof, "asked_at desc, id desc limit 1")
                        .stream()
                        .findFirst();
    }

    /** False when one of that id was there already. */
    @Transactional
    boolean add(Proof proof, Kept kept) {
        var added = jdbc.sql("""
                        insert into proof (id, room_id, facility, room, day, as_of, state, asked_at, asked_by, content_digest,
                                           file_digest)
                        values (:id, :roomId, :facility, :room, :day, :asOf, :state, :askedAt, :askedBy, :contentDigest,
                                :fileDigest)
                        on conflict (id) do nothing""")
                .param("id", proof.id())
                .param("roomId", proof.roomId())
                .param("facility", proof.facility())
                .param("room", proof.room())
                .param("day", proof.day())
                .param("asOf", Rows.at(proof.asOf()))
                .param("state", proof.state().toString())
                .param("askedAt", Rows.at(proof.askedAt()))
                .param("askedBy", proof.askedBy())
                .param("contentDigest", proof.contentDigest())
                .param("fileDigest", proof.fileDigest())
                .update();
        if (added == 0) {
            return false;
        }
        jdbc.sql("insert into proof_file (proof_id, content, file) values (:id, :content, :file)")
                .param("id", proof.id())
                .param("content", kept.content())
                .param("file", kept.file())
                .update();
        return true;
    }

    private static Proof proof(ResultSet row, int n) throws SQLException {
        return new Proof(
                Rows.id(row, "id"),
                Rows.id(row, "room_id"),
                row.getString("facility"),
                row.getString("room"),
                row.getObject("day", LocalDate.class),
                Rows.instant(row, "as_of"),
                Words.of(ReadinessState.class, row.getString("state")),
                Rows.instant(row, "asked_at"),
                row.getString("asked_by"),
                row.getString("content_digest"),
                row.getString("file_digest"));
    }
}
