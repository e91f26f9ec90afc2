package panelbook.app;

import java.time.Clock;
import java.time.Duration;
import org.springframework.beans.factory.ObjectProvider;
import org.springframework.beans.factory.annotation.Qualifier;
import org.springframework.boot.SpringApplication;
import org.springframework.boot.autoconfigure.SpringBootApplication;
import org.springframework.boot.security.autoconfigure.UserDetailsServiceAutoConfiguration;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Primary;
import org.springframework.modulith.Modulithic;
import panelbook.app.database.BookClock;

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

    /** The one source of "now", in the microseconds that the database keeps; tests set the clock that it goes by. */
    @Bean
    @Primary
    BookClock clock(@Qualifier("wall") ObjectProvider<Clock> wall) {
        return new BookClock(wall.getIfAvailable(() -> Clock.tick(Clock.systemUTC(), Duration.ofNanos(1000))));
    }
}
