package panelbook.app.papers;

import java.io.ByteArrayInputStream;
import java.util.List;
import org.verapdf.gf.foundry.VeraGreenfieldFoundryProvider;
import org.verapdf.pdfa.Foundries;
import org.verapdf.pdfa.flavours.PDFAFlavour;
import org.verapdf.pdfa.results.TestAssertion;

/** What an independent reader says of a PDF by the rules of the standards that it claims to keep. */
public final class PdfRules {

    static {
        VeraGreenfieldFoundryProvider.initialise();
    }

    private PdfRules() {}

    /** Rules of PDF/A-2a, ISO 19005-2, that a file breaks; each with its clause. */
    public static List<String> brokenOfArchiving(byte[] pdf) {
        return broken(pdf, PDFAFlavour.PDFA_2_A);
    }

    /** Rules of PDF/UA-1, ISO 14289-1, that a file breaks, as far as a machine can tell; each with its clause. */
    public static List<String> brokenOfAccessibility(byte[] pdf) {
        return broken(pdf, PDFAFlavour.PDFUA_1);
    }

    private static List<String> broken(byte[] pdf, PDFAFlavour flavour) {
        try (var parser = Foundries.defaultInstance().createParser(new ByteArrayInputStream(pdf), flavour);
                var validator = Foundries.defaultInstance().createValidator(flavour, false)) {
            return validator.validate(parser).getTestAssertions().stream()
                    .filter(assertion -> assertion.getStatus() == TestAssertion.Status.FAILED)
                    .map(assertion -> assertion.getRuleId().getClause() + ": " + assertion.getMessage())
                    .distinct()
                    .toList();
        } catch (Exception unreadable) {
            throw new AssertionError("The independent reader could not read the PDF", unreadable);
        }
    }
}
