package panelbook.app.papers;

import static org.assertj.core.api.Assertions.assertThat;

import com.sun.net.httpserver.HttpServer;
import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.Map;
import java.util.concurrent.atomic.AtomicInteger;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.Test;
import org.thymeleaf.spring6.SpringTemplateEngine;
import org.thymeleaf.templateresolver.ClassLoaderTemplateResolver;

/** A PDF that can be kept, searched and read aloud, told by a reader that had no part in writing it. */
class PapersTest {

    private final Papers papers = new Papers(engine());

    @Test
    void aPaperKeepsTheRulesOfArchivingAndOfAccessibility() {
        var pdf = papers.print("papers/sample", model());
        assertThat(PdfRules.brokenOfArchiving(pdf)).as("PDF/A-2a, ISO 19005-2").isEmpty();
        assertThat(PdfRules.brokenOfAccessibility(pdf))
                .as("PDF/UA-1, ISO 14289-1")
                .isEmpty();
    }

    @Test
    void theReaderOfTheRulesFindsWhatIsBroken() throws IOException {
        try (var plain = new PDDocument();
                var out = new java.io.ByteArrayOutputStream()) {
            plain.addPage(new org.apache.pdfbox.pdmodel.PDPage());
            plain.save(out);
            assertThat(PdfRules.brokenOfArchiving(out.toByteArray())).isNotEmpty();
            assertThat(PdfRules.brokenOfAccessibility(out.toByteArray())).isNotEmpty();
        }
    }

    @Test
    void textCanBeSearchedAndPagesAreNumbered() throws IOException {
        try (var document = Loader.loadPDF(papers.print("papers/sample", model()))) {
            var reader = new PDFTextStripper();
            reader.setSortByPosition(true);
            var text = reader.getText(document).replaceAll("\\s+", " ");
            assertThat(text)
                    .contains("White lies at u′v′ 0.1978, 0.4683; ΔE ITP ≤ 1.0; peak 1,000 cd/m² ± 2 %")
                    .contains("<typed> & \"quoted\"")
                    .contains("Row 80")
                    .contains("the foot of the paper");
            assertThat(document.getNumberOfPages()).isGreaterThan(1);
            assertThat(text).contains("page 1 of " + document.getNumberOfPages(), "page 2 of ");
        }
    }

    @Test
    void titleLanguageAndBookmarksAreThere() throws IOException {
        try (var document = Loader.loadPDF(papers.print("papers/sample", model()))) {
            var catalogue = document.getDocumentCatalog();
            assertThat(document.getDocumentInformation().getTitle()).isEqualTo("A sample");
            assertThat(document.getDocumentInformation().getKeywords()).isEqualTo("sample-words:42");
            assertThat(catalogue.getLanguage()).isEqualTo("en");
            var names = new ArrayList<String>();
            catalogue.getDocumentOutline().children().forEach(bookmark -> names.add(bookmark.getTitle()));
            assertThat(names).containsExactly("Figures", "A drawing");
        }
    }

    @Test
    void nothingIsFetchedWhileAPaperIsLaidOut() throws IOException {
        var asked = new AtomicInteger();
        var server = HttpServer.create(new InetSocketAddress(InetAddress.getLoopbackAddress(), 0), 0);
        server.createContext("/", exchange -> {
            asked.incrementAndGet();
            exchange.sendResponseHeaders(404, -1);
            exchange.close();
        });
        server.start();
        try {
            var model = new HashMap<>(model());
            var address = "http://127.0.0.1:" + server.getAddress().getPort() + "/picture.png";
            model.put("address", address);
            model.put("drawing", drawing("<image width=\"9\" height=\"9\" xlink:href=\"" + address + "\"></image>"));
            papers.print("papers/sample", model);
            assertThat(asked).hasValue(0);
        } finally {
            server.stop(0);
        }
    }

    private static Map<String, Object> model() {
        return Map.of(
                "title",
                "A sample",
                "subject",
                "what the test prints",
                "keywords",
                "sample-words:42",
                "foot",
                "the foot of the paper",
                "text",
                "<typed> & \"quoted\"",
                "drawing",
                drawing("<rect x=\"0\" y=\"10\" width=\"200\" height=\"20\" fill=\"#888\" stroke=\"#000\"></rect>"));
    }

    private static String drawing(String marks) {
        return """
                <svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" width="400" height="60"
                     viewBox="0 0 400 60" alt="a bar" title="a bar">%s
                  <text x="4" y="50" font-family="Paper" font-size="12">drawn words</text>
                </svg>""".formatted(marks);
    }

    private static SpringTemplateEngine engine() {
        var resolver = new ClassLoaderTemplateResolver();
        resolver.setPrefix("templates/");
        resolver.setSuffix(".html");
        resolver.setCharacterEncoding("UTF-8");
        var engine = new SpringTemplateEngine();
        engine.setTemplateResolver(resolver);
        return engine;
    }
}
