package panelbook.app.access;

import java.time.Duration;
import org.springframework.boot.context.properties.ConfigurationProperties;
import org.springframework.boot.context.properties.bind.DefaultValue;

/**
 * How long people stay signed in: {@code panelbook.sign-in.*}.
 *
 * @param idle without asking for a page; what a page asks for by itself does not count
 * @param atMost whatever they do
 */
@ConfigurationProperties("panelbook.sign-in")
record SignInSettings(
        @DefaultValue("2h") Duration idle,
        @DefaultValue("12h") Duration atMost) {}
