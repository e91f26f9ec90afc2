package panelbook.db.testing;

import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.List;

/**
 * The schema of a database as text for reviewers: the same schema gives the same text, whatever order its objects were
 * made in (columns keep theirs). Left out: what extensions bring along, and the migrations' own record.
 */
public final class SchemaDump {
    private static final String HISTORY = "flyway_schema_history";

    /** Objects of ours: of no system schema, and of no extension. */
    private static final String OURS = """
            n.nspname NOT IN ('pg_catalog', 'information_schema') AND n.nspname NOT LIKE 'pg\\_%%'
            AND NOT EXISTS (SELECT 1 FROM pg_depend d
                            WHERE d.classid = '%1$s'::regclass AND d.objid = %2$s.oid AND d.deptype = 'e')
            """;

    private final Connection connection;
    private final StringBuilder text = new StringBuilder();

    private SchemaDump(Connection connection) {
        this.connection = connection;
    }

    /**
     * Describes all schemas of a database.
     *
     * @param connection a connection to it, left open
     * @return the text, each line ended by a line feed
     */
    public static String of(Connection connection) throws SQLException {
        SchemaDump dump = new SchemaDump(connection);
        dump.extensions();
        dump.types();
        dump.sequences();
        dump.tables();
        dump.views();
        dump.functions();
        return dump.text.toString();
    }

    private void extensions() throws SQLException {
        each("SELECT extname FROM pg_extension WHERE extname <> 'plpgsql' ORDER BY extname COLLATE \"C\"")
                .forEach(row -> line("extension " + row.get(0)));
    }

    private void types() throws SQLException {
        String enums = """
                SELECT n.nspname || '.' || t.typname,
                       (SELECT string_agg(quote_literal(e.enumlabel), ', ' ORDER BY e.enumsortorder)
                        FROM pg_enum e WHERE e.enumtypid = t.oid)
                FROM pg_type t JOIN pg_namespace n ON n.oid = t.typnamespace
                WHERE t.typtype = 'e' AND %s ORDER BY 1
                """;
        each(enums.formatted(ours("pg_type", "t")))
                .forEach(row -> line("\nenum " + row.get(0) + " (" + row.get(1) + ")"));
        String domains = """
                SELECT n.nspname || '.' || t.typname, format_type(t.typbasetype, t.typtypmod),
                       CASE WHEN t.typnotnull THEN ' not null' ELSE '' END,
                       coalesce((SELECT string_agg(' ' || pg_get_constraintdef(c.oid), '' ORDER BY c.conname COLLATE "C")
                                 FROM pg_constraint c WHERE c.contypid = t.oid AND c.contype = 'c'), '')
                FROM pg_type t JOIN pg_namespace n ON n.oid = t.typnamespace
                WHERE t.typtype = 'd' AND %s ORDER BY 1
                """;
        each(domains.formatted(ours("pg_type", "t")))
                .forEach(row -> line("\ndomain " + row.get(0) + " " + row.get(1) + row.get(2) + row.get(3)));
    }

    private void sequences() throws SQLException {
        String sequences = """
                SELECT n.nspname || '.' || c.relname, format_type(s.seqtypid, NULL), s.seqstart, s.seqincrement
                FROM pg_sequence s JOIN pg_class c ON c.oid = s.seqrelid JOIN pg_namespace n ON n.oid = c.relnamespace
                WHERE %s ORDER BY 1
                """;
        each(sequences.formatted(ours("pg_class", "c")))
                .forEach(row -> line(
                        "\nsequence " + row.get(0) + " " + row.get(1) + " from " + row.get(2) + " by " + row.get(3)));
    }

    private void tables() throws SQLException {
        String tables = """
                SELECT c.oid, n.nspname || '.' || c.relname,
                       CASE c.relpersistence WHEN 'u' THEN ' unlogged' ELSE '' END
                       || coalesce(' partitioned by ' || pg_get_partkeydef(c.oid), '')
                       || coalesce(' partition of ' || (SELECT i.inhparent::regclass::text FROM pg_inherits i
                                                        WHERE i.inhrelid = c.oid)
                                   || ' ' || pg_get_expr(c.relpartbound, c.oid), '')
                       || coalesce(' with (' || array_to_string(c.reloptions, ', ') || ')', ''),
                       obj_description(c.oid, 'pg_class')
                FROM pg_class c JOIN pg_namespace n ON n.oid = c.relnamespace
                WHERE c.relkind IN ('r', 'p') AND c.relname <> '%s' AND %s ORDER BY 2
                """;
        for (List<String> row : each(tables.formatted(HISTORY, ours("pg_class", "c")))) {
            line("\ntable " + row.get(1) + row.get(2));
            comment(row.get(3));
            columns(row.get(0));
            constraints(row.get(0));
            indexes(row.get(0));
            triggers(row.get(0));
            grants(row.get(0));
        }
    }

    private void columns(String table) throws SQLException {
        String columns = """
                SELECT a.attname, format_type(a.atttypid, a.atttypmod),
                       CASE WHEN a.attnotnull THEN ' not null' ELSE '' END
                       || CASE a.attidentity WHEN 'a' THEN ' generated always as identity'
                                             WHEN 'd' THEN ' generated by default as identity' ELSE '' END
                       || coalesce(CASE a.attgenerated WHEN 's' THEN ' generated stored ' WHEN 'v' THEN ' generated '
                                   ELSE ' default ' END || pg_get_expr(d.adbin, d.adrelid), ''),
                       col_description(a.attrelid, a.attnum)
                FROM pg_attribute a LEFT JOIN pg_attrdef d ON d.adrelid = a.attrelid AND d.adnum = a.attnum
                WHERE a.attrelid = %s AND a.attnum > 0 AND NOT a.attisdropped ORDER BY a.attnum
                """;
        for (List<String> row : each(columns.formatted(table))) {
            line("  " + row.get(0) + " " + row.get(1) + row.get(2));
            comment(row.get(3));
        }
    }

    /** Checks, keys, references and exclusions; that a column is not null stands beside the column. */
    private void constraints(String table) throws SQLException {
        String constraints = """
                SELECT conname, pg_get_constraintdef(oid) FROM pg_constraint
                WHERE conrelid = %s AND contype IN ('p', 'u', 'f', 'c', 'x')
                ORDER BY position(contype::text IN 'pufcx'), conname COLLATE "C"
                """;
        each(constraints.formatted(table)).forEach(row -> line("  constraint " + row.get(0) + " " + row.get(1)));
    }

    private void indexes(String table) throws SQLException {
        String indexes = """
                SELECT pg_get_indexdef(i.indexrelid) FROM pg_index i JOIN pg_class c ON c.oid = i.indexrelid
                WHERE i.indrelid = %s
                AND NOT EXISTS (SELECT 1 FROM pg_constraint k WHERE k.conindid = i.indexrelid AND k.conrelid = i.indrelid
                                AND k.contype IN ('p', 'u', 'x'))
                ORDER BY c.relname COLLATE "C"
                """;
        each(indexes.formatted(table)).forEach(row -> line("  " + row.get(0)));
    }

    private void triggers(String table) throws SQLException {
        String triggers = """
                SELECT pg_get_triggerdef(oid) || CASE tgenabled WHEN 'O' THEN '' ELSE ' (fires ' || tgenabled::text || ')' END
                FROM pg_trigger WHERE tgrelid = %s AND NOT tgisinternal ORDER BY tgname COLLATE "C"
                """;
        each(triggers.formatted(table)).forEach(row -> line("  " + row.get(0)));
    }

    /** Rights that were given or taken; none are listed where the owner's usual ones hold. */
    private void grants(String table) throws SQLException {
        String grants = """
                SELECT coalesce(nullif(a.grantee::regrole::text, '-'), 'public'),
                       string_agg(lower(a.privilege_type), ', ' ORDER BY a.privilege_type COLLATE "C")
                FROM pg_class c, aclexplode(c.relacl) a WHERE c.oid = %s GROUP BY 1 ORDER BY 1
                """;
        each(grants.formatted(table)).forEach(row -> line("  granted to " + row.get(0) + ": " + row.get(1)));
    }

    private void views() throws SQLException {
        String views = """
                SELECT CASE c.relkind WHEN 'm' THEN 'materialized view ' ELSE 'view ' END || n.nspname || '.' || c.relname,
                       pg_get_viewdef(c.oid, true), obj_description(c.oid, 'pg_class')
                FROM pg_class c JOIN pg_namespace n ON n.oid = c.relnamespace
                WHERE c.relkind IN ('v', 'm') AND %s ORDER BY n.nspname COLLATE "C", c.relname COLLATE "C"
                """;
        for (List<String> row : each(views.formatted(ours("pg_class", "c")))) {
            line("\n" + row.get(0));
            comment(row.get(2));
            line(row.get(1));
        }
    }

    private void functions() throws SQLException {
        String functions = """
                SELECT pg_get_functiondef(p.oid), obj_description(p.oid, 'pg_proc')
                FROM pg_proc p JOIN pg_namespace n ON n.oid = p.pronamespace
                WHERE p.prokind IN ('f', 'p') AND %s
                ORDER BY n.nspname COLLATE "C", p.proname COLLATE "C", pg_get_function_identity_arguments(p.oid) COLLATE "C"
                """;
        for (List<String> row : each(functions.formatted(ours("pg_proc", "p")))) {
            line("\n" + row.get(0).stripTrailing());
            comment(row.get(1));
        }
    }

    private static String ours(String catalog, String alias) {
        return OURS.formatted(catalog, alias);
    }

    private void comment(String comment) {
        if (!comment.isEmpty()) {
            line("    -- " + comment.replace("\n", "\n    -- "));
        }
    }

    private void line(String line) {
        line.lines()
                .map(String::stripTrailing)
                .forEach(each -> text.append(each).append('\n'));
    }

    /** All rows as text, a null as the empty string. */
    private List<List<String>> each(String query) throws SQLException {
        try (Statement statement = connection.createStatement();
                ResultSet result = statement.executeQuery(query)) {
            List<List<String>> rows = new ArrayList<>();
            int columns = result.getMetaData().getColumnCount();
            while (result.next()) {
                List<String> row = new ArrayList<>();
                for (int column = 1; column <= columns; column++) {
                    String value = result.getString(column);
                    row.add(value == null ? "" : value);
                }
                rows.add(row);
            }
            return rows;
        }
    }
}
