package panelbook.app.drawing;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.geom.Rectangle2D;
import java.util.ArrayList;
import java.util.List;
import javax.xml.parsers.DocumentBuilderFactory;
import javax.xml.parsers.ParserConfigurationException;
import org.apache.batik.svggen.SVGGeneratorContext;
import org.apache.batik.svggen.SVGGraphics2D;
import panelbook.wire.Paper;

/** What is drawn on: a document that the chart library paints into, and the marks that say what they are. */
final class Canvas {

    static final int WIDTH = 640;

    private static final String SVG = "http://www.w3.org/2000/svg";

    private final int height;
    private final Greys greys;
    private final SVGGraphics2D graphics;
    private final List<Mark> marks = new ArrayList<>();

    Canvas(Paper paper, int height) {
        this.height = height;
        this.greys = Greys.on(paper);
        this.graphics = new SVGGraphics2D(context(), false);
        graphics.setFont(Fonts.PLAIN);
        graphics.setColor(greys.ground());
        graphics.fill(new Rectangle2D.Double(0, 0, WIDTH, height));
    }

    private static SVGGeneratorContext context() {
        try {
            var factory = DocumentBuilderFactory.newInstance();
            factory.setNamespaceAware(true);
            var document = factory.newDocumentBuilder().getDOMImplementation().createDocument(SVG, "svg", null);
            var context = SVGGeneratorContext.createDefault(document);
            context.setComment("");
            // its own default is a font of the machine, which may have none
            var defaults = new SVGGeneratorContext.GraphicContextDefaults();
            defaults.setFont(Fonts.PLAIN);
            context.setGraphicContextDefaults(defaults);
            return context;
        } catch (ParserConfigurationException broken) {
            throw new IllegalStateException("The platform has no XML parser", broken);
        }
    }

    SVGGraphics2D graphics() {
        return graphics;
    }

    Greys greys() {
        return greys;
    }

    /** Writes words from a place to the right. */
    void text(double x, double y, Color grey, String words) {
        graphics.setFont(Fonts.PLAIN);
        graphics.setColor(grey);
        graphics.drawString(words, (float) x, (float) y);
    }

    /** Clears a place for words. */
    void ground(Rectangle2D place) {
        graphics.setColor(greys.ground());
        graphics.fill(place);
    }

    /** How wide words are. */
    double width(String words) {
        return Fonts.PLAIN
                .getStringBounds(words, graphics.getFontRenderContext())
                .getWidth();
    }

    void line(double x1, double y1, double x2, double y2, Color grey) {
        graphics.setColor(grey);
        graphics.setStroke(new BasicStroke(1));
        graphics.draw(new java.awt.geom.Line2D.Double(x1, y1, x2, y2));
    }

    /** Lets a place say what is there, and where to go from it. */
    void mark(Mark mark) {
        marks.add(mark);
    }

    /** All that was drawn, as text. */
    String written(String id, String title, String description) {
        return Writing.of(graphics.getRoot(), WIDTH, height, marks, id, title, description);
    }
}
