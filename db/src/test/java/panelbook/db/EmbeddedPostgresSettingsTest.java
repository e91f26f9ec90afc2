package panelbook.db;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class EmbeddedPostgresSettingsTest {

    /** XDG Base Directory Specification 0.8: unset or empty means the default, a relative path is to be ignored. */
    @Test
    void theDefaultFolderFollowsTheBaseDirectorySpecification() {
        Path home = Path.of(System.getProperty("user.home"));
        assertThat(EmbeddedPostgresSettings.xdg("/srv/data", ".local/share")).isEqualTo(Path.of("/srv/data"));
        for (String unusable : new String[] {null, "", "relative/folder"}) {
            assertThat(EmbeddedPostgresSettings.xdg(unusable, ".local/share"))
                    .as("for %s", unusable)
                    .isEqualTo(home.resolve(".local/share"));
        }
    }

    @ParameterizedTest
    @ValueSource(strings = {"fsync", "FSYNC", "synchronous_commit", "listen_addresses", "hba_file"})
    void whatKeepsTheServerDurableAndClosedCannotBeSwitchedOff(String setting) {
        assertThatThrownBy(() -> EmbeddedPostgresSettings.defaults().withServerOption(setting, "off"))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("'" + setting + "'");
    }

    @Test
    void aSettingsNameCannotSmuggleInAnother() {
        assertThatThrownBy(() -> EmbeddedPostgresSettings.defaults().withServerOption("work_mem\nfsync", "off"))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("not the name of a PostgreSQL setting");
    }
}
