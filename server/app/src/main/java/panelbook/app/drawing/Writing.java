package panelbook.app.drawing;

import java.io.StringWriter;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import javax.xml.stream.XMLOutputFactory;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamWriter;
import org.jspecify.annotations.Nullable;
import org.w3c.dom.Element;
import org.w3c.dom.Node;

/**
 * Writes what the chart library painted as small SVG: each thing painted with the few attributes that differ from what holds
 * anyway, places to a tenth of a pixel, in the order painted. Presentation attributes only, since a strict content security policy
 * lets no style through.
 */
final class Writing {

    private static final String NAMESPACE = "http://www.w3.org/2000/svg";
    private static final Set<String> PAINTED =
            Set.of("line", "rect", "circle", "ellipse", "path", "polygon", "polyline", "text");
    private static final String LINES = "lines";
    private static final List<String> GEOMETRY =
            List.of("x", "y", "x1", "y1", "x2", "y2", "cx", "cy", "r", "rx", "ry", "width", "height", "d", "points");
    private static final List<String> LOOKS = List.of("fill", "stroke", "stroke-width", "stroke-dasharray");
    private static final Map<String, String> NAMED =
            Map.of("white", "#ffffff", "black", "#000000", "gray", "#808080", "silver", "#c0c0c0");
    private static final Pattern RGB = Pattern.compile("rgb\\((\\d+),\\s*(\\d+),\\s*(\\d+)\\)");
    private static final Pattern NUMBER = Pattern.compile("-?\\d+(\\.\\d+)?([eE]-?\\d+)?");
    private static final Pattern FOUR_ARCS = Pattern.compile("M[^A-Z]+(C[^A-Z]+){4}Z?");
    private static final double LEAST_REACH = 6;

    private final StringWriter text = new StringWriter();
    private final XMLStreamWriter xml;

    /** Something painted, with its looks. */
    private record Painted(String name, Map<String, String> geometry, Map<String, String> looks, String words) {}

    private Writing() throws XMLStreamException {
        xml = XMLOutputFactory.newInstance().createXMLStreamWriter(text);
    }

    /**
     * Writes a drawing.
     *
     * @param id that the ids in it begin with
     */
    static String of(
            Element root, int width, int height, List<Mark> marks, String id, String title, String description) {
        try {
            return new Writing().write(root, width, height, marks, id, title, description);
        } catch (XMLStreamException broken) {
            throw new IllegalStateException("Writing XML to memory failed", broken);
        }
    }

    private String write(
            Element root, int width, int height, List<Mark> marks, String id, String title, String description)
            throws XMLStreamException {
        xml.writeStartElement("svg");
        xml.writeDefaultNamespace(NAMESPACE);
        attribute("viewBox", "0 0 " + width + " " + height);
        attribute("width", Integer.toString(width));
        attribute("height", Integer.toString(height));
        // an image may hold no links (WAI-ARIA 1.2, children presentational); a graphics document may (WAI-ARIA
        // Graphics 1.0)
        attribute("role", marks.stream().anyMatch(mark -> mark.link() != null) ? "graphics-document" : "img");
        attribute("aria-labelledby", id + "-title " + id + "-desc");
        attribute("font-family", Fonts.FAMILY);
        attribute("font-size", Integer.toString(Math.round(Fonts.SIZE)));
        words("title", title, "id", id + "-title");
        words("desc", description, "id", id + "-desc");
        var painted = new ArrayList<Painted>();
        gather(root, Map.of(), painted);
        paint(joined(painted));
        marks(marks);
        xml.writeEndElement();
        xml.close();
        return text + "\n";
    }

    private static void gather(Element element, Map<String, String> around, List<Painted> painted) {
        var name = element.getLocalName();
        if ("defs".equals(name)) {
            return;
        }
        var looks = new LinkedHashMap<>(around);
        for (var look : LOOKS) {
            if (element.hasAttribute(look)) {
                looks.put(look, element.getAttribute(look));
            }
        }
        if (PAINTED.contains(name)) {
            add(element, looks, painted);
            return;
        }
        for (Node child = element.getFirstChild(); child != null; child = child.getNextSibling()) {
            if (child instanceof Element) {
                gather((Element) child, looks, painted);
            }
        }
    }

    private static void add(Element element, Map<String, String> looks, List<Painted> painted) {
        var kept = kept(looks);
        if (!"none".equals(kept.get("fill")) || kept.containsKey("stroke")) {
            var round = "path".equals(element.getLocalName()) ? ellipse(element.getAttribute("d")) : null;
            painted.add(
                    round != null
                            ? new Painted("ellipse", round, kept, "")
                            : new Painted(
                                    element.getLocalName(),
                                    geometry(element),
                                    kept,
                                    "text".equals(element.getLocalName()) ? element.getTextContent() : ""));
        }
    }

    /** Those that differ from what SVG takes for granted. */
    private static Map<String, String> kept(Map<String, String> looks) {
        var kept = new LinkedHashMap<String, String>();
        kept.put("fill", grey(looks.getOrDefault("fill", "black")));
        var stroke = grey(looks.getOrDefault("stroke", "none"));
        if (!"none".equals(stroke)) {
            kept.put("stroke", stroke);
            keep(looks, "stroke-width", "1", kept);
            keep(looks, "stroke-dasharray", "none", kept);
        }
        return kept;
    }

    private static void keep(Map<String, String> looks, String look, String usual, Map<String, String> kept) {
        var value = looks.getOrDefault(look, usual);
        if (!value.equals(usual)) {
            kept.put(look, rounded(value));
        }
    }

    private static String grey(String colour) {
        var rgb = RGB.matcher(colour);
        return rgb.matches()
                ? String.format(
                        Locale.ROOT,
                        "#%02x%02x%02x",
                        Integer.parseInt(rgb.group(1)),
                        Integer.parseInt(rgb.group(2)),
                        Integer.parseInt(rgb.group(3)))
                : NAMED.getOrDefault(colour, colour);
    }

    /** A path of the four arcs in which the platform draws an ellipse, from its right, as an ellipse; null for any other. */
    private static @Nullable Map<String, String> ellipse(String path) {
        if (!FOUR_ARCS.matcher(path).matches()) {
            return null;
        }
        var n = NUMBER.matcher(path)
                .results()
                .mapToDouble(found -> Double.parseDouble(found.group()))
                .toArray();
        var ellipse = new LinkedHashMap<String, String>();
        ellipse.put("cx", px((n[0] + n[12]) / 2));
        ellipse.put("cy", px((n[7] + n[19]) / 2));
        ellipse.put("rx", px(Math.abs(n[0] - n[12]) / 2));
        ellipse.put("ry", px(Math.abs(n[7] - n[19]) / 2));
        return ellipse;
    }

    private static Map<String, String> geometry(Element element) {
        var geometry = new LinkedHashMap<String, String>();
        for (var name : GEOMETRY) {
            if (element.hasAttribute(name)) {
                geometry.put(name, rounded(element.getAttribute(name)).replaceAll(" (?=[A-Z])|(?<=[A-Z]) ", ""));
            }
        }
        return geometry;
    }

    private static String rounded(String numbers) {
        return NUMBER.matcher(numbers)
                .replaceAll(found -> Matcher.quoteReplacement(px(Double.parseDouble(found.group()))));
    }

    /** A length to a tenth of a pixel. */
    static String px(double length) {
        var tenths = Math.round(length * 10);
        return tenths % 10 == 0
                ? Long.toString(tenths / 10)
                : (tenths < 0 ? "-" : "") + Math.abs(tenths) / 10 + "." + Math.abs(tenths) % 10;
    }

    /** Lines that follow each other and look alike as one path. */
    private static List<Painted> joined(List<Painted> painted) {
        var joined = new ArrayList<Painted>();
        for (var one : painted) {
            if (!"line".equals(one.name())) {
                joined.add(one);
                continue;
            }
            var last = joined.isEmpty() ? null : joined.get(joined.size() - 1);
            if (last != null && LINES.equals(last.name()) && last.looks().equals(one.looks())) {
                last.geometry().merge("d", line(one.geometry()), String::concat);
            } else {
                var path = new LinkedHashMap<String, String>();
                path.put("d", line(one.geometry()));
                joined.add(new Painted(LINES, path, one.looks(), ""));
            }
        }
        return joined;
    }

    private static String line(Map<String, String> ends) {
        var x2 = ends.getOrDefault("x2", "0");
        var y2 = ends.getOrDefault("y2", "0");
        return "M" + ends.get("x1") + " " + ends.get("y1")
                + (y2.equals(ends.get("y1")) ? "H" + x2 : x2.equals(ends.get("x1")) ? "V" + y2 : "L" + x2 + " " + y2);
    }

    /** Neighbours that look alike share a group. */
    private void paint(List<Painted> painted) throws XMLStreamException {
        for (var i = 0; i < painted.size(); ) {
            var end = i + 1;
            while (end < painted.size()
                    && painted.get(end).looks().equals(painted.get(i).looks())) {
                end++;
            }
            if (end - i > 1) {
                xml.writeStartElement("g");
                attributes(painted.get(i).looks());
                for (var one : painted.subList(i, end)) {
                    paint(one, Map.of());
                }
                xml.writeEndElement();
            } else {
                paint(painted.get(i), painted.get(i).looks());
            }
            i = end;
        }
    }

    private void paint(Painted one, Map<String, String> looks) throws XMLStreamException {
        if (one.words().isEmpty()) {
            xml.writeEmptyElement(LINES.equals(one.name()) ? "path" : one.name());
        } else {
            xml.writeStartElement(one.name());
        }
        attributes(one.geometry());
        attributes(looks);
        if (!one.words().isEmpty()) {
            xml.writeCharacters(one.words());
            xml.writeEndElement();
        }
    }

    /** Not to be seen, but to be pointed at. Out of the order of the Tab key: the table beside the chart has the same links. */
    private void marks(List<Mark> marks) throws XMLStreamException {
        if (marks.isEmpty()) {
            return;
        }
        xml.writeStartElement("g");
        attribute("fill", "none");
        attribute("pointer-events", "all");
        for (var mark : marks) {
            if (mark.link() != null) {
                xml.writeStartElement("a");
                attribute("href", mark.link());
                attribute("tabindex", "-1");
            }
            place(mark);
            if (mark.link() != null) {
                xml.writeEndElement();
            }
        }
        xml.writeEndElement();
    }

    private void place(Mark mark) throws XMLStreamException {
        xml.writeStartElement("ellipse");
        attribute("cx", px(mark.place().getCenterX()));
        attribute("cy", px(mark.place().getCenterY()));
        attribute("rx", px(Math.max(LEAST_REACH, mark.place().getWidth() / 2)));
        attribute("ry", px(Math.max(LEAST_REACH, mark.place().getHeight() / 2)));
        words("title", mark.words());
        xml.writeEndElement();
    }

    private void words(String name, String words, String... idAndValue) throws XMLStreamException {
        xml.writeStartElement(name);
        for (var i = 0; i < idAndValue.length; i += 2) {
            attribute(idAndValue[i], idAndValue[i + 1]);
        }
        xml.writeCharacters(words);
        xml.writeEndElement();
    }

    private void attributes(Map<String, String> attributes) throws XMLStreamException {
        for (var attribute : attributes.entrySet()) {
            attribute(attribute.getKey(), attribute.getValue());
        }
    }

    private void attribute(String name, String value) throws XMLStreamException {
        xml.writeAttribute(name, value);
    }
}
