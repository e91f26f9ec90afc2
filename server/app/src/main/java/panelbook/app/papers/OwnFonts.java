package panelbook.app.papers;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import org.apache.fontbox.FontBoxFont;
import org.apache.fontbox.ttf.TTFParser;
import org.apache.fontbox.ttf.TrueTypeFont;
import org.apache.pdfbox.io.RandomAccessReadBuffer;
import org.apache.pdfbox.pdmodel.font.CIDFontMapping;
import org.apache.pdfbox.pdmodel.font.FontMapper;
import org.apache.pdfbox.pdmodel.font.FontMapping;
import org.apache.pdfbox.pdmodel.font.PDCIDSystemInfo;
import org.apache.pdfbox.pdmodel.font.PDFontDescriptor;
import org.jspecify.annotations.Nullable;
import org.springframework.core.io.ClassPathResource;

/**
 * The fonts that papers are set in. Whatever font the PDF library looks for, it is given one of them: by itself it would read all fonts of
 * the machine and leave a list of them in the home folder.
 */
final class OwnFonts implements FontMapper {

    static final String PLAIN = "DejaVuSans.ttf";
    static final String BOLD = "DejaVuSans-Bold.ttf";
    static final String OBLIQUE = "DejaVuSans-Oblique.ttf";

    private static final String FOLDER = "net/sf/jasperreports/fonts/dejavu/";

    private final TrueTypeFont plain = parsed();

    /** A font file from the class path. */
    static InputStream open(String name) {
        try {
            return new ClassPathResource(FOLDER + name).getInputStream();
        } catch (IOException missing) {
            throw new UncheckedIOException("The font " + name + " is missing", missing);
        }
    }

    private static TrueTypeFont parsed() {
        try (var in = open(PLAIN)) {
            return new TTFParser().parse(new RandomAccessReadBuffer(in));
        } catch (IOException broken) {
            throw new UncheckedIOException("The font " + PLAIN + " cannot be read", broken);
        }
    }

    @Override
    public FontMapping<TrueTypeFont> getTrueTypeFont(String baseFont, @Nullable PDFontDescriptor descriptor) {
        return new FontMapping<>(plain, false);
    }

    @Override
    public FontMapping<FontBoxFont> getFontBoxFont(String baseFont, @Nullable PDFontDescriptor descriptor) {
        return new FontMapping<>(plain, false);
    }

    @Override
    public @Nullable CIDFontMapping getCIDFont(
            String baseFont, @Nullable PDFontDescriptor descriptor, @Nullable PDCIDSystemInfo systemInfo) {
        return new CIDFontMapping(null, plain, false);
    }
}
