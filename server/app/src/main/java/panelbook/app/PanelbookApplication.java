package panelbook.app;

import java.time.Clock;
import java.time.Duration;
import org.springframework.boot.SpringApplication;
import org.springframework.boot.autoconfigure.SpringBootApplication;
import org.springframework.boot.security.autoconfigure.UserDetailsServiceAutoConfiguration;
import org.springframework.context.annotation.Bean;
import org.springframework.modulith.Modulithic;

/** The Panelbook service. */
@Modulithic(
        systemName = "Panelbook",
        sharedModules = {"rest", "database"})
@SpringBootApplication(exclude = UserDetailsServiceAutoConfiguration.class, proxyBeanMethods = false)
public class PanelbookApplication {

    /** Starts the service; the arguments are Spring properties, e.g. {@code --server.port=8089}. */
    public static void main(String[] args) {
        var application = new SpringApplication(PanelbookApplication.class);
        application.addInitializers(new EmbeddedDatabase());
        application.run(args);
    }

    /** The one source of "now": UTC, in the microseconds that the database keeps. */
    @Bean
    Clock clock() {
        return Clock.tick(Clock.systemUTC(), Duration.ofNanos(1000));
    }
}
