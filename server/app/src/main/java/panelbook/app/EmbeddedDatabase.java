package panelbook.app;

import java.nio.file.Path;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionException;
import org.jspecify.annotations.Nullable;
import org.springframework.boot.SpringApplication;
import org.springframework.boot.jdbc.autoconfigure.JdbcConnectionDetails;
import org.springframework.context.ApplicationContextInitializer;
import org.springframework.context.ConfigurableApplicationContext;
import org.springframework.core.env.Environment;
import org.springframework.util.StringUtils;
import panelbook.db.EmbeddedPostgres;
import panelbook.db.EmbeddedPostgresSettings;

/**
 * Starts the embedded PostgreSQL when no outside one is named by {@code spring.datasource.url}. The server starts while
 * Spring builds its context, and stops when that context is closed.
 */
final class EmbeddedDatabase implements ApplicationContextInitializer<ConfigurableApplicationContext> {

    @Override
    public void initialize(ConfigurableApplicationContext context) {
        var environment = context.getEnvironment();
        if (StringUtils.hasText(environment.getProperty("spring.datasource.url"))) {
            return;
        }
        var settings = settings(environment);
        var starting = CompletableFuture.supplyAsync(() -> EmbeddedPostgres.start(settings));
        // a shutdown hook of its own would race with Spring's, which still needs the database
        SpringApplication.getShutdownHandlers().add(() -> close(starting));
        context.getBeanFactory().registerSingleton("embeddedDatabase", new Starting(starting));
    }

    private static EmbeddedPostgresSettings settings(Environment environment) {
        var folder = environment.getProperty("panelbook.data-folder");
        return StringUtils.hasText(folder)
                ? EmbeddedPostgresSettings.durable(Path.of(folder))
                : EmbeddedPostgresSettings.defaults();
    }

    private static void close(CompletableFuture<EmbeddedPostgres> starting) {
        starting.handle((server, failure) -> {
                    if (server != null) {
                        server.close();
                    }
                    return failure;
                })
                .join();
    }

    /** Where to connect to; waits for the server. */
    private record Starting(CompletableFuture<EmbeddedPostgres> server) implements JdbcConnectionDetails {

        private EmbeddedPostgres running() {
            try {
                return server.join();
            } catch (CompletionException failed) {
                if (failed.getCause() instanceof RuntimeException cause) {
                    throw cause;
                }
                throw failed;
            }
        }

        @Override
        public String getJdbcUrl() {
            return running().jdbcUrl();
        }

        @Override
        public @Nullable String getUsername() {
            return running().username();
        }

        @Override
        public @Nullable String getPassword() {
            return running().password();
        }
    }
}
