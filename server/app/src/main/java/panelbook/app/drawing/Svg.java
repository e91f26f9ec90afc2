package panelbook.app.drawing;

import java.io.StringWriter;
import java.util.Locale;
import javax.xml.stream.XMLOutputFactory;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamWriter;

/**
 * Writes the elements of an SVG drawing. On the platform's own XML writer rather than a chart library: those lay text out by the
 * fonts of the machine, which a service need not have, and none lets each mark say what it is.
 */
final class Svg {

    private static final String NAMESPACE = "http://www.w3.org/2000/svg";

    private final StringWriter text = new StringWriter();
    private final XMLStreamWriter xml;

    /** A drawing with a name and a description for those who do not see it. */
    Svg(int width, int height, String title, String description) {
        try {
            xml = XMLOutputFactory.newInstance().createXMLStreamWriter(text);
            xml.writeStartElement("svg");
            xml.writeDefaultNamespace(NAMESPACE);
            attributes(
                    "viewBox",
                    "0 0 " + width + " " + height,
                    "width",
                    width,
                    "height",
                    height,
                    "role",
                    "img",
                    "aria-labelledby",
                    "title desc",
                    "font-family",
                    "sans-serif",
                    "font-size",
                    13);
            words("title", title, "id", "title");
            words("desc", description, "id", "desc");
        } catch (XMLStreamException broken) {
            throw cannotFail(broken);
        }
    }

    /** An element without content; attributes are names and values in turn. */
    Svg mark(String name, Object... attributes) {
        try {
            xml.writeEmptyElement(name);
            attributes(attributes);
            return this;
        } catch (XMLStreamException broken) {
            throw cannotFail(broken);
        }
    }

    /** An element that says what it is to whoever points at it. */
    Svg told(String name, String what, Object... attributes) {
        try {
            xml.writeStartElement(name);
            attributes(attributes);
            words("title", what);
            xml.writeEndElement();
            return this;
        } catch (XMLStreamException broken) {
            throw cannotFail(broken);
        }
    }

    /** Text. */
    Svg text(double x, double y, String anchor, String fill, String words) {
        try {
            words("text", words, "x", px(x), "y", px(y), "text-anchor", anchor, "fill", fill);
            return this;
        } catch (XMLStreamException broken) {
            throw cannotFail(broken);
        }
    }

    private void words(String name, String words, Object... attributes) throws XMLStreamException {
        xml.writeStartElement(name);
        attributes(attributes);
        xml.writeCharacters(words);
        xml.writeEndElement();
    }

    private void attributes(Object... namesAndValues) throws XMLStreamException {
        for (var i = 0; i < namesAndValues.length; i += 2) {
            xml.writeAttribute((String) namesAndValues[i], String.valueOf(namesAndValues[i + 1]));
        }
    }

    /** A place to a tenth of a pixel, so that the same drawing has the same bytes. */
    static String px(double place) {
        return String.format(Locale.ROOT, "%.1f", place);
    }

    /** The whole drawing. */
    String end() {
        try {
            xml.writeEndElement();
            xml.close();
            return text + "\n";
        } catch (XMLStreamException broken) {
            throw cannotFail(broken);
        }
    }

    private static IllegalStateException cannotFail(XMLStreamException broken) {
        return new IllegalStateException("Writing XML to memory failed", broken);
    }
}
