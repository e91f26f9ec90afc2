package panelbook.app.papers;

import com.openhtmltopdf.outputdevice.helper.BaseRendererBuilder.FontStyle;
import com.openhtmltopdf.outputdevice.helper.ExternalResourceControlPriority;
import com.openhtmltopdf.pdfboxout.PdfRendererBuilder;
import com.openhtmltopdf.svgsupport.BatikSVGDrawer;
import com.openhtmltopdf.svgsupport.BatikSVGDrawer.SvgExternalResourceMode;
import com.openhtmltopdf.svgsupport.BatikSVGDrawer.SvgScriptMode;
import com.openhtmltopdf.util.XRLog;
import java.awt.color.ColorSpace;
import java.awt.color.ICC_Profile;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.Locale;
import java.util.Map;
import org.apache.pdfbox.pdmodel.font.FontMappers;
import org.springframework.stereotype.Component;
import org.thymeleaf.ITemplateEngine;
import org.thymeleaf.context.Context;

/**
 * Prints templates on paper: PDF/A-2a (ISO 19005-2), tagged by the rules of PDF/UA-1 (ISO 14289-1), so that it can be kept, searched
 * and read aloud. Fonts and colour profile are embedded: those of the DejaVu family, and sRGB as the Java platform ships it.
 */
@Component
public class Papers {

    private static final String FAMILY = "Paper";

    private final ITemplateEngine templates;

    Papers(ITemplateEngine templates) {
        this.templates = templates;
        XRLog.setLoggingEnabled(false);
        FontMappers.set(new OwnFonts());
    }

    /**
     * A template on paper. Nothing is fetched while it is laid out: a picture, style or font that lies elsewhere is left out.
     *
     * @param template name of a template that writes well-formed XHTML within {@code papers/paper}
     * @param model what the template names
     * @return a PDF
     */
    public byte[] print(String template, Map<String, Object> model) {
        return pdf(templates.process(template, new Context(Locale.ENGLISH, model)));
    }

    private static byte[] pdf(String xhtml) {
        try (var drawer = new BatikSVGDrawer(SvgScriptMode.SECURE, SvgExternalResourceMode.SECURE);
                var out = new ByteArrayOutputStream()) {
            new PdfRendererBuilder()
                    .usePdfAConformance(PdfRendererBuilder.PdfAConformance.PDFA_2_A)
                    .usePdfUaAccessibility(true)
                    .useColorProfile(ICC_Profile.getInstance(ColorSpace.CS_sRGB).getData())
                    .useFont(() -> OwnFonts.open(OwnFonts.PLAIN), FAMILY, 400, FontStyle.NORMAL, true)
                    // the name by which drawings ask for it
                    .useFont(() -> OwnFonts.open(OwnFonts.PLAIN), "DejaVu Sans", 400, FontStyle.NORMAL, true)
                    .useFont(() -> OwnFonts.open(OwnFonts.BOLD), FAMILY, 700, FontStyle.NORMAL, true)
                    .useFont(() -> OwnFonts.open(OwnFonts.OBLIQUE), FAMILY, 400, FontStyle.ITALIC, true)
                    .useSVGDrawer(drawer)
                    .useUnicodeLineBreaker(new LineEnds())
                    .useUriResolver((base, uri) -> uri.startsWith("#") ? uri : null)
                    .useExternalResourceAccessControl(
                            (uri, kind) -> false, ExternalResourceControlPriority.RUN_BEFORE_RESOLVING_URI)
                    .useExternalResourceAccessControl(
                            (uri, kind) -> false, ExternalResourceControlPriority.RUN_AFTER_RESOLVING_URI)
                    .withProducer("Panelbook")
                    .withHtmlContent(xhtml, null)
                    .toStream(out)
                    .run();
            return out.toByteArray();
        } catch (IOException failed) {
            throw new UncheckedIOException("A paper could not be laid out", failed);
        }
    }
}
