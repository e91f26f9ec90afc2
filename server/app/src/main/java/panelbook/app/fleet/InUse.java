package panelbook.app.fleet;

import java.util.List;
import java.util.UUID;
import org.springframework.jdbc.core.simple.JdbcClient;
import panelbook.app.rest.Refusal;

/** Refuses to retire what others still need, and names them. */
final class InUse {

    private static final int NAMED = 5;

    private InUse() {}

    /** Refuses with {@code words}, where %s stands for the names that {@code select} finds for {@code id}, if any. */
    static void refuse(JdbcClient jdbc, String words, String select, UUID id) {
        var users = jdbc.sql(select).param(id).query(String.class).list();
        if (!users.isEmpty()) {
            throw Refusal.conflict(words.replace("%s", named(users)));
        }
    }

    private static String named(List<String> users) {
        var first = String.join(", ", users.subList(0, Math.min(NAMED, users.size())));
        return users.size() > NAMED ? first + " and " + (users.size() - NAMED) + " more" : first;
    }
}
