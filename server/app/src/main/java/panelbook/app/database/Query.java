package panelbook.app.database;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.RowMapper;
import org.springframework.jdbc.core.simple.JdbcClient;
import panelbook.app.rest.Paging;
import panelbook.wire.Page;

/** A select that takes only the conditions that are asked for. Fragments are constants of the code, values are bound. */
public final class Query {

    private final StringBuilder sql;
    private final Map<String, @Nullable Object> values = new HashMap<>();
    private boolean conditional;

    /** {@code select} ends before {@code where}. */
    public Query(String select) {
        this.sql = new StringBuilder(select);
    }

    /** A condition that always holds. */
    public Query where(String condition) {
        sql.append(conditional ? " and " : " where ").append(condition);
        conditional = true;
        return this;
    }

    /** A condition with the value {@code :name}, left out when there is no value. */
    public Query where(String condition, String name, @Nullable Object value) {
        if (value == null) {
            return this;
        }
        values.put(name, value);
        return where(condition);
    }

    /** A value that a condition names beside its own. */
    public Query bind(String name, @Nullable Object value) {
        values.put(name, value);
        return this;
    }

    /** Leaves out rows whose {@code column} says that they are retired, unless they are wanted. */
    public Query retired(boolean wanted, String column) {
        return wanted ? this : where(column + " is null");
    }

    /** The rows in the order of {@code order}. */
    public <T> List<T> list(JdbcClient jdbc, RowMapper<T> mapper, String order) {
        return jdbc.sql(sql + " order by " + order).params(values).query(mapper).list();
    }

    /** The only row, if there is one. */
    public <T> Optional<T> one(JdbcClient jdbc, RowMapper<T> mapper) {
        return jdbc.sql(sql.toString()).params(values).query(mapper).optional();
    }

    /** A page in the order of name and id. */
    public <T> Page<T> page(
            JdbcClient jdbc, RowMapper<T> mapper, Paging paging, String nameColumn, String idColumn, Key<T> key) {
        if (!paging.first()) {
            where("(" + nameColumn + ", " + idColumn + ") > (:afterName, :afterId)");
            values.put("afterName", String.valueOf(paging.key(0)));
            values.put("afterId", paging.parsed(1, UUID::fromString));
        }
        var rows = jdbc.sql(sql + " order by " + nameColumn + ", " + idColumn + " limit " + paging.fetch())
                .params(values)
                .query(mapper)
                .list();
        return paging.page(
                rows, row -> List.of(key.name().apply(row), key.id().apply(row).toString()));
    }

    /** Where a row keeps its sort key. */
    public record Key<T>(Function<T, String> name, Function<T, UUID> id) {}
}
