package panelbook.app.access;

import java.net.URI;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.transaction.annotation.Transactional;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.bind.annotation.RestController;
import panelbook.app.database.Rows;
import panelbook.app.rest.Paging;
import panelbook.wire.AuditEntry;
import panelbook.wire.Page;
import tools.jackson.core.type.TypeReference;
import tools.jackson.databind.json.JsonMapper;

/** The audit log: every change, who made it and when. */
@RestController
class AuditController {

    private static final TypeReference<Map<String, Object>> ROW = new TypeReference<>() {};

    private static final String CHANNEL = "channel";
    private static final String URL = "url";

    private final JdbcClient jdbc;
    private final JsonMapper json;

    AuditController(JdbcClient jdbc, JsonMapper json) {
        this.jdbc = jdbc;
        this.json = json;
    }

    /** Changes, newest first; {@code actor} is part of the actor's name. */
    @GetMapping("/api/v1/audit-entries")
    @Transactional(readOnly = true)
    Page<AuditEntry> listAuditEntries(
            @RequestParam(name = "subject-kind", required = false) @Nullable String subjectKind,
            @RequestParam(name = "subject-id", required = false) @Nullable String subjectId,
            @RequestParam(required = false) @Nullable String actor,
            Paging paging) {
        var rows = jdbc.sql("""
                        select seq, at, actor, action, subject_kind, subject_id, before, after from audit_entry
                        where (cast(:kind as text) is null or subject_kind = :kind)
                        and (cast(:id as text) is null or subject_id = :id)
                        and (cast(:actor as text) is null or strpos(actor, :actor) > 0)
                        and (cast(:before as bigint) is null or seq < :before)
                        order by seq desc limit :fetch""")
                .param("kind", subjectKind)
                .param("id", subjectId)
                .param("actor", actor)
                .param("before", paging.parsed(0, Long::valueOf))
                .param("fetch", paging.fetch())
                .query(this::entry)
                .list();
        return paging.page(rows, entry -> List.of(Long.toString(entry.sequence())));
    }

    private AuditEntry entry(ResultSet rs, int n) throws SQLException {
        return new AuditEntry(
                rs.getLong("seq"),
                Rows.instant(rs, "at"),
                rs.getString("actor"),
                rs.getString("action"),
                rs.getString("subject_kind"),
                rs.getString("subject_id"),
                row(rs.getString("subject_kind"), rs.getString("before")),
                row(rs.getString("subject_kind"), rs.getString("after")));
    }

    private @Nullable Map<String, Object> row(String subjectKind, @Nullable String text) {
        if (text == null) {
            return null;
        }
        var row = json.readValue(text, ROW);
        if (subjectKind.equals(CHANNEL)) {
            row.computeIfPresent(URL, (name, url) -> hostOf(String.valueOf(url)));
        }
        return row;
    }

    /** What follows the host in the address of a webhook often is the key to it, and more people read this than channels. */
    private static String hostOf(String url) {
        var parsed = URI.create(url);
        return parsed.getScheme() + "://" + parsed.getRawAuthority() + "/…";
    }
}
