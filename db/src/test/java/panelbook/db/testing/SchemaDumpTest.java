package panelbook.db.testing;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.Statement;
import org.junit.jupiter.api.Test;

class SchemaDumpTest {
    private static final Path COMMITTED = Path.of("src/main/resources/db/schema.txt");
    private static final String REWRITE = "mvn -pl db test -Dtest=SchemaDumpTest -Dpanelbook.schema.write=true";
    private static final String HEAD = "The schema after all migrations. Written by: " + REWRITE + "\n\n";

    @Test
    void theCommittedSchemaTextIsWhatTheMigrationsMake() throws Exception {
        String dump;
        try (Connection connection = TestDatabase.fresh().connect()) {
            dump = HEAD + SchemaDump.of(connection);
        }
        if (Boolean.getBoolean("panelbook.schema.write")) {
            Files.createDirectories(COMMITTED.getParent());
            Files.writeString(COMMITTED, dump, StandardCharsets.UTF_8);
        }
        assertThat(Files.exists(COMMITTED) ? Files.readString(COMMITTED, StandardCharsets.UTF_8) : "")
                .as(
                        "The migrations make another schema than %s shows. Rewrite it and look at the difference: %s",
                        COMMITTED, REWRITE)
                .isEqualTo(dump);
    }

    @Test
    void theDumpShowsEveryKindOfRuleThatASchemaCanHold() throws Exception {
        TestDatabase db = TestDatabase.empty();
        try (Connection connection = db.connect();
                Statement statement = connection.createStatement()) {
            statement.execute("""
                    CREATE EXTENSION btree_gist;
                    CREATE TYPE mood AS ENUM ('calm', 'stern');
                    CREATE DOMAIN positive AS integer CHECK (VALUE > 0);
                    CREATE TABLE shelf (id uuid PRIMARY KEY, label text NOT NULL UNIQUE DEFAULT 'none', mood mood);
                    COMMENT ON TABLE shelf IS 'what holds things';
                    CREATE TABLE stay (
                        id bigint GENERATED ALWAYS AS IDENTITY PRIMARY KEY,
                        shelf uuid NOT NULL REFERENCES shelf ON DELETE RESTRICT,
                        during tstzrange NOT NULL,
                        width positive,
                        twice integer GENERATED ALWAYS AS (width * 2) STORED,
                        CONSTRAINT no_overlap EXCLUDE USING gist (shelf WITH =, during WITH &&),
                        CONSTRAINT some_time CHECK (NOT isempty(during)));
                    CREATE INDEX wide_stays ON stay (width) WHERE width > 10;
                    CREATE FUNCTION refuse() RETURNS trigger LANGUAGE plpgsql AS
                        'BEGIN RAISE EXCEPTION ''kept as it is''; END';
                    CREATE TRIGGER kept BEFORE UPDATE OR DELETE ON stay FOR EACH ROW EXECUTE FUNCTION refuse();
                    CREATE VIEW labels AS SELECT label FROM shelf;
                    GRANT SELECT ON shelf TO PUBLIC;
                    """);
            String dump = SchemaDump.of(connection);
            assertThat(dump)
                    .contains(
                            "extension btree_gist\n",
                            "enum public.mood ('calm', 'stern')",
                            "domain public.positive integer CHECK ((VALUE > 0))",
                            "sequence public.stay_id_seq bigint from 1 by 1",
                            "table public.shelf\n    -- what holds things\n  id uuid not null\n",
                            "  label text not null default 'none'::text\n",
                            "  id bigint not null generated always as identity\n",
                            "  twice integer generated stored ((width)::integer * 2)\n",
                            "  constraint stay_pkey PRIMARY KEY (id)\n",
                            "  constraint shelf_label_key UNIQUE (label)\n",
                            "  constraint stay_shelf_fkey FOREIGN KEY (shelf) REFERENCES shelf(id) ON DELETE RESTRICT\n",
                            "  constraint no_overlap EXCLUDE USING gist (shelf WITH =, during WITH &&)\n",
                            "  constraint some_time CHECK ((NOT isempty(during)))\n",
                            "  CREATE INDEX wide_stays ON public.stay USING btree (width) WHERE",
                            "  CREATE TRIGGER kept BEFORE DELETE OR UPDATE ON public.stay FOR EACH ROW",
                            "  granted to public: select\n",
                            "view public.labels\n",
                            "CREATE OR REPLACE FUNCTION public.refuse()")
                    .doesNotContain("gbt_", "CREATE UNIQUE INDEX", "bigint from 1 by 1\n\ntable pg_");
        }
    }
}
