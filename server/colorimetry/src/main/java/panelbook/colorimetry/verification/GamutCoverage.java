package panelbook.colorimetry.verification;

import java.util.Optional;
import java.util.OptionalDouble;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.Polygon;
import panelbook.colorimetry.RgbSpace;
import panelbook.colorimetry.UV1976;
import panelbook.colorimetry.signal.Readings;

/** How much of a target's gamut a display holds, in the CIE 1976 diagram. */
final class GamutCoverage {
    private static final GeometryFactory GEOMETRY = new GeometryFactory();

    private GamutCoverage() {}

    /**
     * The share of the target's u'v' triangle that lies inside the measured one.
     *
     * @param target primaries aimed at
     * @param readings of a run; the brightest patch of each primary alone counts, with the display's black in it
     * @return 0 to 1; empty when a primary is missing or too dark to have a chromaticity
     */
    static OptionalDouble of(RgbSpace target, Readings readings) {
        Optional<UV1976> red = primary(readings, 0);
        Optional<UV1976> green = primary(readings, 1);
        Optional<UV1976> blue = primary(readings, 2);
        if (red.isEmpty() || green.isEmpty() || blue.isEmpty()) {
            return OptionalDouble.empty();
        }
        Polygon aim = triangle(
                target.red().toUV1976(),
                target.green().toUV1976(),
                target.blue().toUV1976());
        Polygon measured = triangle(red.get(), green.get(), blue.get());
        return OptionalDouble.of(Math.min(aim.intersection(measured).getArea() / aim.getArea(), 1));
    }

    private static Optional<UV1976> primary(Readings readings, int channel) {
        return readings.primary(channel).flatMap(r -> r.xyz().uv1976());
    }

    private static Polygon triangle(UV1976 a, UV1976 b, UV1976 c) {
        return GEOMETRY.createPolygon(new Coordinate[] {point(a), point(b), point(c), point(a)});
    }

    private static Coordinate point(UV1976 uv) {
        return new Coordinate(uv.u(), uv.v());
    }
}
