package panelbook.app.drawing;

import java.awt.Font;
import java.awt.FontFormatException;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;

/** The font of all drawings, from the class path: places of labels must not hang on what a machine has installed. */
final class Fonts {

    /** As the SVG names it, with what may stand in for it. */
    static final String FAMILY = "DejaVu Sans, Liberation Sans, sans-serif";

    /** Pixels: 12 px at least are to be seen, and drawings are shown no smaller than they are. */
    static final float SIZE = 12;

    private static final String RESOURCE = "/net/sf/jasperreports/fonts/dejavu/DejaVuSans.ttf";
    private static final String FONT_CONFIGURATION = "sun.awt.fontconfig";

    static final Font PLAIN = load().deriveFont(SIZE);

    private Fonts() {}

    private static Font load() {
        try {
            return read();
        } catch (IOException noFontsInstalled) {
            // the platform asks for the fonts of the machine first, and gives up where there are none at all
            var empty = emptyConfiguration();
            try {
                System.setProperty(FONT_CONFIGURATION, empty);
                return read();
            } catch (IOException failed) {
                failed.addSuppressed(noFontsInstalled);
                throw new UncheckedIOException("The font of the drawings cannot be read", failed);
            }
        }
    }

    private static Font read() throws IOException {
        try (var font = Fonts.class.getResourceAsStream(RESOURCE)) {
            if (font == null) {
                throw new IOException(RESOURCE + " is not on the class path");
            }
            return Font.createFont(Font.TRUETYPE_FONT, font);
        } catch (FontFormatException broken) {
            throw new IOException(RESOURCE + " is no font", broken);
        }
    }

    private static String emptyConfiguration() {
        try {
            var file = Files.createTempFile("panelbook-fonts", ".properties");
            file.toFile().deleteOnExit();
            Files.writeString(file, "version=1\nsequence.allfonts=default\n");
            return file.toString();
        } catch (IOException failed) {
            throw new UncheckedIOException("A font configuration cannot be written", failed);
        }
    }
}
