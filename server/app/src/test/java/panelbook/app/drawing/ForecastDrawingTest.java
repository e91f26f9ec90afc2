package panelbook.app.drawing;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.UUID;
import java.util.stream.IntStream;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import panelbook.wire.FigureForecast;
import panelbook.wire.ForecastAnswer;
import panelbook.wire.ForecastCrossing;
import panelbook.wire.ForecastPoint;
import panelbook.wire.ForecastValue;
import panelbook.wire.Metric;
import panelbook.wire.PresetForecast;
import panelbook.wire.SegmentStart;

/** A forecast as SVG, read back by the platform's XML parser. */
class ForecastDrawingTest {

    private static final Instant FIRST = Instant.parse("2026-01-01T10:00:00Z");

    @Test
    void aForecastNamesItsMarksWhereTheyStandAndItsReadingsWhenPointedAt() throws Exception {
        var svg = ForecastDrawing.svg(forecast(SegmentStart.RECALIBRATION));
        keep("forecast.svg", svg);
        var drawing = parse(svg);

        assertThat(texts(drawing, "text"))
                .contains(
                        "Peak luminance, cd/m\u00b2",
                        "panel hours, h",
                        "limit 950.0",
                        "as it was left 1000.0",
                        "expected 1000 h, 2026-04-11",
                        "earliest at 90 % 864 h",
                        "since recalibration, 2026-01-15",
                        "band, 90 % to each side",
                        "No forecast: the tolerance set has no limit for it.");
        assertThat(texts(drawing, "title"))
                .contains(
                        "Forecast of North/Suite 1/Main/HDR",
                        "trend",
                        "2026-01-01: 1000.0 cd/m\u00b2 at 0 panel hours, not counted in",
                        "2026-01-15: 993.0 cd/m\u00b2 at 140 panel hours",
                        "2026-02-19: 972.0 cd/m\u00b2 at 490 panel hours, out of line with those around it");
        assertThat(texts(drawing, "desc").get(0)).contains("Peak luminance crosses its limit.");
        assertThat(drawing.getElementsByTagName("circle").getLength()).isEqualTo(8);
    }

    /** House rule: neutral, and no lighter than 70 % grey, since it may be opened in a grading room. */
    @Test
    void everyColourIsANeutralDarkGrey() {
        assertThat(ForecastDrawing.svg(forecast(SegmentStart.FIRST)).replaceAll("(?s)>[^<]*<", "><"))
                .containsPattern("#[0-9a-f]{6}")
                .satisfies(svg -> {
                    var colours = java.util.regex.Pattern.compile("#([0-9a-f]{2})([0-9a-f]{2})([0-9a-f]{2})\\b")
                            .matcher(svg);
                    while (colours.find()) {
                        assertThat(List.of(colours.group(2), colours.group(3))).containsOnly(colours.group(1));
                        assertThat(Integer.parseInt(colours.group(1), 16)).isLessThanOrEqualTo(0xb2);
                    }
                });
    }

    @Test
    void theSameForecastHasTheSameBytesInEveryLocale() {
        var forecast = forecast(SegmentStart.FIRST);
        var before = java.util.Locale.getDefault();
        try {
            java.util.Locale.setDefault(java.util.Locale.GERMANY);
            var german = ForecastDrawing.svg(forecast);
            java.util.Locale.setDefault(java.util.Locale.ROOT);
            assertThat(ForecastDrawing.svg(forecast)).isEqualTo(german);
        } finally {
            java.util.Locale.setDefault(before);
        }
    }

    @ParameterizedTest
    @EnumSource(names = {"PANEL_SWAP", "COUNTER_RESET", "COUNTER_JUMP"})
    void readingsOfAnotherCounterAreLeftOutAndSaidSo(SegmentStart start) throws Exception {
        var drawing = parse(ForecastDrawing.svg(forecast(start)));
        assertThat(drawing.getElementsByTagName("circle").getLength()).isEqualTo(6);
        assertThat(texts(drawing, "text")).contains("3 readings of the counter before are not drawn");
    }

    /** Ticks are multiples of 1, 2 or 5 times a power of ten and hold all values. */
    @ParameterizedTest
    @MethodSource("seeds")
    void anAxisHoldsAllValuesAndItsTicksAreRound(long seed) {
        var random = new Random(seed);
        var size = Math.pow(10, random.nextInt(12) - 5);
        var values = random.doubles(1 + random.nextInt(20))
                .map(x -> (x - 0.3) * size)
                .toArray();
        var scale = Scale.of(java.util.Arrays.stream(values), 6, 100, 500);

        for (var value : values) {
            assertThat(scale.at(value)).isBetween(100 - 1e-6, 500 + 1e-6);
        }
        assertThat(scale.ticks().size()).isBetween(2, 13);
        var mantissa = scale.step() / Math.pow(10, Math.floor(Math.log10(scale.step()) + 1e-9));
        assertThat(Math.round(mantissa * 1e6) / 1e6).isIn(1.0, 2.0, 5.0);
        assertThat(scale.ticks().stream().map(scale::label).distinct().count())
                .as("labels tell ticks apart")
                .isEqualTo(scale.ticks().size());
    }

    static IntStream seeds() {
        return IntStream.rangeClosed(1, 60);
    }

    private static PresetForecast forecast(SegmentStart start) {
        var points = new ArrayList<ForecastPoint>();
        for (var hours = 0; hours <= 560; hours += 70) {
            points.add(new ForecastPoint(
                    UUID.randomUUID(),
                    FIRST.plus(Duration.ofDays(hours / 10)),
                    hours,
                    hours == 490 ? 972 : 1000 - hours / 20.0,
                    hours >= 140 && hours != 490,
                    hours == 490));
        }
        var fit = new ArrayList<ForecastValue>();
        for (var hours = 140; hours <= 1200; hours += 20) {
            fit.add(new ForecastValue(hours, 1000 - hours / 20.0, 998 - hours / 18.0, 1002 - hours / 22.0));
        }
        var luminance = new FigureForecast(
                Metric.OWN_DRIFT_LUMINANCE,
                "cd/m\u00b2",
                ForecastAnswer.CROSSES,
                "Peak luminance crosses its limit.",
                1000.0,
                950.0,
                start,
                6,
                points,
                fit,
                new ForecastCrossing(1000, Instant.parse("2026-04-11T10:00:00Z")),
                new ForecastCrossing(864, null),
                3360.0);
        var white = new FigureForecast(
                Metric.OWN_DRIFT_WHITE,
                "u\u2032v\u2032",
                ForecastAnswer.NO_LIMIT,
                "No forecast: the tolerance set has no limit for it.",
                null,
                null,
                null,
                0,
                List.of(),
                List.of(),
                null,
                null,
                null);
        return new PresetForecast(
                UUID.randomUUID(),
                "North/Suite 1/Main/HDR",
                Instant.parse("2026-02-27T10:00:00Z"),
                "House",
                10.0,
                0,
                List.of(luminance, white));
    }

    /** For whoever wants to look at it. */
    private static void keep(String name, String svg) throws Exception {
        var folder = Path.of("target", "drawings");
        Files.createDirectories(folder);
        Files.writeString(folder.resolve(name), svg);
    }

    private static Document parse(String svg) throws Exception {
        var factory = DocumentBuilderFactory.newInstance();
        return factory.newDocumentBuilder().parse(new ByteArrayInputStream(svg.getBytes(StandardCharsets.UTF_8)));
    }

    private static List<String> texts(Document drawing, String element) {
        var found = drawing.getElementsByTagName(element);
        return IntStream.range(0, found.getLength())
                .mapToObj(i -> ((Element) found.item(i)).getTextContent())
                .toList();
    }
}
