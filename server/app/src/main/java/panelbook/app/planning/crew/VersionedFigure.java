package panelbook.app.planning.crew;

import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;

/** Writes a figure that may not be there yet, which is version 0, and may be taken back. */
final class VersionedFigure {

    private VersionedFigure() {}

    /**
     * The statement for what is asked.
     *
     * @param figure null takes it back
     * @param key condition that finds the row, which stands for %s in {@code update} and {@code delete}
     */
    static String sql(
            @Nullable Integer figure, long expectedVersion, String insert, String update, String delete, String key) {
        if (expectedVersion == 0) {
            return figure == null ? "select 1" : insert;
        }
        return (figure == null ? delete : update).formatted(key + " and version = :version");
    }

    /** Rows that were written: 0 when somebody was there before; 1 when nothing was to be taken back. */
    static int run(JdbcClient.StatementSpec statement, @Nullable Integer figure, long expectedVersion) {
        if (expectedVersion == 0 && figure == null) {
            return 1;
        }
        var bound = figure == null ? statement : statement.param("minutes", figure);
        return (expectedVersion == 0 ? bound : bound.param("version", expectedVersion)).update();
    }
}
