package panelbook.app.drawing;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Drawings come from the font on the class path, whatever the machine has. */
class FontsTest {

    @TempDir
    Path machine;

    @Test
    void aMachineWithoutAnyFontDrawsTheSameBytes() throws Exception {
        var configuration = machine.resolve("fonts.conf");
        Files.writeString(
                configuration,
                "<?xml version=\"1.0\"?><!DOCTYPE fontconfig SYSTEM \"fonts.dtd\"><fontconfig><dir>" + machine
                        + "/none</dir><cachedir>" + machine + "/cache</cachedir></fontconfig>");
        var program = new ProcessBuilder(
                        Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                        "-Djava.awt.headless=true",
                        "-Duser.home=" + machine, // the platform remembers fonts there
                        "-Djava.io.tmpdir=" + machine,
                        "-cp",
                        System.getProperty("java.class.path"),
                        DrawnWithoutFonts.class.getName())
                .redirectError(machine.resolve("errors").toFile());
        program.environment().put("FONTCONFIG_FILE", configuration.toString());
        var running = program.start();
        var drawn = new String(running.getInputStream().readAllBytes(), StandardCharsets.UTF_8);

        assertThat(running.waitFor())
                .as(Files.readString(machine.resolve("errors")))
                .isZero();
        assertThat(drawn).contains("series readings").isEqualTo(DrawnWithoutFonts.drawing());
    }
}
