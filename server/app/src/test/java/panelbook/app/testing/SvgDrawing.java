package panelbook.app.testing;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.function.DoubleUnaryOperator;
import java.util.regex.Pattern;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import javax.xml.parsers.DocumentBuilderFactory;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import panelbook.wire.AxisScale;
import panelbook.wire.Drawing;
import panelbook.wire.DrawingPoint;
import panelbook.wire.SeriesKind;

/** A drawing as SVG, read back by the platform's XML parser: what stands where, by the ticks of its own axes. */
public final class SvgDrawing {

    private static final Pattern COLOUR = Pattern.compile("#([0-9a-f]{2})([0-9a-f]{2})([0-9a-f]{2})");
    private static final Pattern TICK_ACROSS = Pattern.compile("M([0-9.]+) ([0-9.]+)V([0-9.]+).*");
    private static final Pattern TICK_UP = Pattern.compile("M([0-9.]+) ([0-9.]+)H([0-9.]+).*");
    private static final double TICK = 2.5;
    private static final double NEAR = 0.8;

    private final Document document;

    private SvgDrawing(Document document) {
        this.document = document;
    }

    /** Reads it. */
    public static SvgDrawing of(String svg) {
        try {
            return new SvgDrawing(DocumentBuilderFactory.newInstance()
                    .newDocumentBuilder()
                    .parse(new ByteArrayInputStream(svg.getBytes(StandardCharsets.UTF_8))));
        } catch (Exception broken) {
            throw new AssertionError("The drawing is no XML: " + svg, broken);
        }
    }

    private Stream<Element> all(String name) {
        var found = document.getElementsByTagName(name);
        return IntStream.range(0, found.getLength()).mapToObj(i -> (Element) found.item(i));
    }

    /** The words that are to be seen. */
    public List<String> texts() {
        return all("text").map(Element::getTextContent).toList();
    }

    /** The words that marks say when pointed at. */
    public List<String> titles() {
        return all("title").map(Element::getTextContent).toList();
    }

    /** The words for those who do not see it. */
    public String description() {
        return all("desc").findFirst().orElseThrow().getTextContent();
    }

    /** House rules: neutral greys, none lighter than {@code lightest} of 255 unless on paper; no styles; ids of its own. */
    public SvgDrawing keepsTheHouseRules(int lightest) {
        var ids = new HashSet<String>();
        all("*").forEach(element -> {
            assertThat(element.hasAttribute("style")).as("a style attribute").isFalse();
            assertThat(element.getTagName()).isNotIn("style", "script", "image", "foreignObject");
            Stream.of("fill", "stroke")
                    .map(element::getAttribute)
                    .filter(colour -> !colour.isEmpty() && !colour.equals("none"))
                    .forEach(colour -> {
                        var grey = COLOUR.matcher(colour);
                        assertThat(grey.matches()).as("%s is a grey", colour).isTrue();
                        assertThat(List.of(grey.group(2), grey.group(3)))
                                .as("%s has no hue", colour)
                                .containsOnly(grey.group(1));
                        assertThat(Integer.parseInt(grey.group(1), 16))
                                .as("brightness of %s", colour)
                                .isLessThanOrEqualTo(lightest);
                    });
            if (element.hasAttribute("id")) {
                assertThat(ids.add(element.getAttribute("id")))
                        .as("id %s is there once", element.getAttribute("id"))
                        .isTrue();
            }
        });
        var root = document.getDocumentElement();
        assertThat(ids)
                .containsExactlyInAnyOrder(root.getAttribute("aria-labelledby").split(" ", -1));
        assertThat(root.getAttribute("role")).isIn("img", "graphics-document");
        assertThat(description()).isNotBlank();
        assertThat(Double.parseDouble(root.getAttribute("font-size"))).isGreaterThanOrEqualTo(11);
        return this;
    }

    /** Ids of all elements. */
    public List<String> ids() {
        return all("*").map(element -> element.getAttribute("id"))
                .filter(id -> !id.isEmpty())
                .toList();
    }

    /** Each reading of the drawing has a mark that names it, stands where the ticks say, and leads to its run. */
    public SvgDrawing showsTheReadingsOf(Drawing drawing) {
        var across = axis(drawing.x().scale(), TICK_ACROSS, true);
        var up = axis(drawing.y().scale(), TICK_UP, false);
        drawing.series().stream()
                .filter(series -> series.kind().form() == SeriesKind.Form.MARKS)
                .flatMap(series -> series.points().stream())
                .forEach(point -> {
                    var mark = mark(point, across.applyAsDouble(point.x()), up.applyAsDouble(point.y()));
                    assertThat(mark)
                            .as("a mark at %s, %s says \"%s\"", point.x(), point.y(), point.words())
                            .isPresent();
                    if (point.runId() != null) {
                        assertThat(((Element) mark.orElseThrow().getParentNode()).getAttribute("href"))
                                .isEqualTo("/board/runs/" + point.runId());
                    }
                });
        return this;
    }

    private Optional<Element> mark(DrawingPoint point, double x, double y) {
        return all("ellipse")
                .filter(ellipse -> ellipse.getTextContent().equals(point.words()))
                .filter(ellipse -> Math.abs(number(ellipse, "cx") - x) < NEAR)
                .filter(ellipse -> Math.abs(number(ellipse, "cy") - y) < NEAR)
                .findFirst();
    }

    private static double number(Element element, String attribute) {
        return Double.parseDouble(element.getAttribute(attribute));
    }

    /** From values to places, by the first and the last tick: a short line that follows its label. */
    private DoubleUnaryOperator axis(AxisScale scale, Pattern tick, boolean across) {
        var ticks = new ArrayList<double[]>();
        var painted = Stream.concat(all("text"), all("path")).toList();
        assertThat(painted).isNotEmpty();
        all("text")
                .forEach(text -> next(text).ifPresent(path -> {
                    var match = tick.matcher(path.getAttribute("d"));
                    if (match.matches()) {
                        var from = Double.parseDouble(match.group(across ? 2 : 1));
                        var to = Double.parseDouble(match.group(3));
                        if (Math.abs(from - to) < TICK) {
                            ticks.add(new double[] {
                                plotted(scale, text.getTextContent()), Double.parseDouble(match.group(across ? 1 : 2))
                            });
                        }
                    }
                }));
        assertThat(ticks).as("ticks of an axis").hasSizeGreaterThanOrEqualTo(2);
        var first = ticks.get(0);
        var last = ticks.get(ticks.size() - 1);
        return value -> first[1]
                + ((scale == AxisScale.LOGARITHMIC ? Math.log10(value) : value) - first[0])
                        * (last[1] - first[1])
                        / (last[0] - first[0]);
    }

    private static Optional<Element> next(Element element) {
        var next = element.getNextSibling();
        return next instanceof Element found && found.getTagName().equals("path")
                ? Optional.of(found)
                : Optional.empty();
    }

    private static double plotted(AxisScale scale, String label) {
        return switch (scale) {
            case LINEAR -> Double.parseDouble(label);
            case LOGARITHMIC -> Math.log10(Double.parseDouble(label));
            case TIME -> LocalDate.parse(label).toEpochDay();
        };
    }
}
