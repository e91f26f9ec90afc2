package panelbook.app.pictures;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.BufferedReader;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.UUID;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import panelbook.app.testing.HalfYear;
import panelbook.app.testing.ServiceTest;
import panelbook.app.testing.Studio;
import panelbook.app.testing.SvgDrawing;
import panelbook.wire.Drawing;
import panelbook.wire.DrawingName;
import panelbook.wire.DrawingSeries;
import panelbook.wire.SeriesKind;

/** The charts of a follower with half a year behind it: as data, and as SVG that shows the same. */
class PicturesTest extends ServiceTest {

    private static final int LIGHTEST = 0xb0;
    private Studio studio;
    private UUID follower;

    @BeforeEach
    void measure() {
        var halfYear = HalfYear.of(engineer());
        studio = halfYear.studio();
        follower = halfYear.follower();
    }

    @Test
    void everyChartShowsItsReadingsWhereTheyStandAndSaysInWordsWhatThereIsToBeSeen() throws Exception {
        var ids = new HashSet<String>();
        for (var name : DrawingName.values()) {
            var drawing = drawing(name);
            assertThat(drawing.series()).as("%s has something to show", name).isNotEmpty();
            var svg = svg(name, "");
            keep(name + ".svg", svg);
            var read = SvgDrawing.of(svg).keepsTheHouseRules(LIGHTEST).showsTheReadingsOf(drawing);
            assertThat(read.description()).isEqualTo(drawing.summary());
            assertThat(read.texts())
                    .as("labels of %s stand beside what they name", name)
                    .containsAll(drawing.series().stream()
                            .map(DrawingSeries::name)
                            .filter(label -> !label.isEmpty())
                            .toList())
                    .contains(
                            axis(drawing.x().name(), drawing.x().unit()),
                            axis(drawing.y().name(), drawing.y().unit()));
            assertThat(read.ids())
                    .as("ids of %s among those of the other charts of a page", name)
                    .allMatch(ids::add);
            assertThat(svg.length()).as("bytes of %s", name).isLessThan(40_000);
            assertThat(svg(name, "")).as("%s drawn again", name).isEqualTo(svg);

            var paper = svg(name, "?paper=white");
            keep(name + "-white.svg", paper);
            SvgDrawing.of(paper).keepsTheHouseRules(0xff).showsTheReadingsOf(drawing);
        }
    }

    private static String axis(String name, String unit) {
        return unit.isEmpty() ? name : name + ", " + unit;
    }

    @Test
    void theSameDrawingHasTheSameBytesInEveryLocale() {
        var before = Locale.getDefault();
        try {
            Locale.setDefault(Locale.GERMANY);
            var german = svg(DrawingName.PEAK_LUMINANCE, "");
            Locale.setDefault(Locale.ROOT);
            assertThat(svg(DrawingName.PEAK_LUMINANCE, "")).isEqualTo(german);
        } finally {
            Locale.setDefault(before);
        }
    }

    /** SMPTE ST 2084:2014, by the table of the colorimetry's own tests. */
    @Test
    void theCurveThatIsAimedAtIsTheOneOfTheStandard() throws Exception {
        var aim = series(drawing(DrawingName.EOTF), SeriesKind.AIM_CURVE).points();
        try (var table = new BufferedReader(new InputStreamReader(
                Objects.requireNonNull(getClass().getResourceAsStream("/panelbook/colorimetry/pq_eotf.csv")),
                StandardCharsets.UTF_8))) {
            var compared = table.lines()
                    .filter(line -> line.matches("[0-9].*"))
                    .map(line -> line.split(",", -1))
                    .filter(row -> Double.parseDouble(row[0]) >= 0.1 && Double.parseDouble(row[0]) <= 0.7)
                    .flatMap(row -> aim.stream()
                            .filter(point -> Math.abs(point.x() - 100 * Double.parseDouble(row[0])) < 1e-9)
                            .peek(point -> assertThat(point.y())
                                    .as("PQ at %s", row[0])
                                    .isCloseTo(Double.parseDouble(row[1]), within(1e-6 * point.y()))))
                    .count();
            assertThat(compared).as("signals of the table on the curve").isGreaterThanOrEqualTo(5);
        }
    }

    /** P3 primaries and D65 in u′v′: x, y of SMPTE RP 431-2 through u′ = 4x/(−2x+12y+3), v′ = 9y/(−2x+12y+3), CIE 15:2018. */
    @Test
    void theGamutIsComparedWithThePrimariesOfTheTarget() {
        var drawing = drawing(DrawingName.GAMUT);
        var aim = series(drawing, SeriesKind.AIM_OUTLINE).points();
        var published = new double[][] {{0.680, 0.320}, {0.265, 0.690}, {0.150, 0.060}};
        for (var i = 0; i < 3; i++) {
            var scale = -2 * published[i][0] + 12 * published[i][1] + 3;
            assertThat(aim.get(i).x()).isCloseTo(4 * published[i][0] / scale, within(1e-6));
            assertThat(aim.get(i).y()).isCloseTo(9 * published[i][1] / scale, within(1e-6));
        }
        assertThat(drawing.summary()).containsPattern("\\d+\\.\\d % of the target's triangle");
    }

    @Test
    void whiteIsShownBesideWhatTheOperatorAgreedToWithTheToleranceInForce() {
        var drawing = drawing(DrawingName.WHITE);
        var hero = series(drawing, SeriesKind.HERO).points().get(0);
        var agreed = series(drawing, SeriesKind.AGREED).points().get(0);
        assertThat(agreed.x() - hero.x()).as("agreed offset, u′").isCloseTo(0.003, within(2e-4));
        assertThat(agreed.y() - hero.y()).as("agreed offset, v′").isCloseTo(0.001, within(2e-4));
        var region = series(drawing, SeriesKind.TOLERANCE_REGION).points().get(0);
        var limit = finding("hero-drift-white");
        assertThat(Objects.requireNonNull(region.xHigh()) - region.x())
                .as("radius is the limit that findings name")
                .isCloseTo(limit, within(1e-12));
        assertThat(series(drawing, SeriesKind.TRAIL).points()).hasSizeGreaterThan(HalfYear.WEEKS - 3);
    }

    private double finding(String metric) {
        for (var finding : engineer()
                .get("/presets/" + follower + "/findings")
                .expect(200)
                .asListOf(panelbook.wire.Finding.class)) {
            if (finding.metric().toString().equals(metric)) {
                return finding.limit();
            }
        }
        throw new AssertionError("no finding of " + metric);
    }

    @Test
    void theForecastIsDrawnWithToleranceBandAndCrossings() {
        var drawing = drawing(DrawingName.PEAK_LUMINANCE);
        assertThat(drawing.series().stream().map(DrawingSeries::kind).distinct())
                .contains(
                        SeriesKind.TOLERANCE,
                        SeriesKind.LIMIT,
                        SeriesKind.REFERENCE,
                        SeriesKind.BAND,
                        SeriesKind.TREND,
                        SeriesKind.READINGS,
                        SeriesKind.BASELINES,
                        SeriesKind.MOMENT);
        assertThat(names(drawing))
                .anyMatch(name -> name.startsWith("expected "))
                .anyMatch(name -> name.startsWith("earliest at 90 % "))
                .anyMatch(name -> name.startsWith("since sign-off, "));
        assertThat(SvgDrawing.of(engineer()
                                .get("/presets/" + follower + "/forecast.svg")
                                .expect(200)
                                .text())
                        .keepsTheHouseRules(LIGHTEST)
                        .texts())
                .contains("peak luminance, cd/m²", "distance, Δu′v′");
    }

    @Test
    void residualsAreThoseThatWereFound() {
        var points =
                series(drawing(DrawingName.MATCH_WHITE), SeriesKind.READINGS).points();
        assertThat(points).hasSizeGreaterThan(HalfYear.WEEKS - 3).allMatch(point -> point.yHigh() != null);
        var last = points.stream()
                .filter(point -> point.runId() != null)
                .reduce((one, other) -> other)
                .orElseThrow();
        assertThat(engineer()
                        .get("/runs/" + last.runId() + "/findings")
                        .expect(200)
                        .asListOf(panelbook.wire.Finding.class))
                .anyMatch(finding ->
                        finding.value() == last.y() && finding.preset().contains("Client"));
    }

    @Test
    void asOfThisMomentTheChartsAreThoseOfNow() {
        for (var name : DrawingName.values()) {
            var then = engineer()
                    .get("/presets/" + follower + "/drawings/" + name + "?as-of=" + clock.instant())
                    .expect(200)
                    .as(Drawing.class);
            assertThat(then).as("%s as of now", name).isEqualTo(drawing(name));
        }
    }

    @Test
    void aPresetThatNobodyMeasuredHasChartsThatSaySo() throws Exception {
        var fresh = new Studio(engineer(), unique("Fresh"));
        for (var name : DrawingName.values()) {
            var drawing = drawing(fresh.hero(), name);
            assertThat(drawing.series()).isEmpty();
            assertThat(drawing.summary()).isNotBlank();
            var read = SvgDrawing.of(engineer()
                            .get("/presets/" + fresh.hero() + "/drawings/" + name + ".svg")
                            .expect(200)
                            .text())
                    .keepsTheHouseRules(LIGHTEST);
            assertThat(String.join(" ", read.texts())).contains(drawing.summary());
        }
    }

    @Test
    void anUnknownDrawingOrPaperIsAnsweredWithTheOnesThereAre() {
        assertThat(engineer()
                        .get("/presets/" + follower + "/drawings/colours")
                        .expect(400)
                        .text())
                .contains("peak-luminance", "gamut");
        assertThat(engineer()
                        .get("/presets/" + follower + "/drawings/gamut.svg?paper=pink")
                        .expect(400)
                        .text())
                .contains("dark", "white");
        engineer()
                .get("/presets/" + UUID.randomUUID() + "/drawings/gamut.svg")
                .expect(404)
                .problem();
    }

    private Drawing drawing(DrawingName name) {
        return drawing(follower, name);
    }

    private Drawing drawing(UUID preset, DrawingName name) {
        return engineer()
                .get("/presets/" + preset + "/drawings/" + name)
                .expect(200)
                .as(Drawing.class);
    }

    private String svg(DrawingName name, String query) {
        return engineer()
                .get("/presets/" + follower + "/drawings/" + name + ".svg" + query)
                .expect(200)
                .text();
    }

    private static DrawingSeries series(Drawing drawing, SeriesKind kind) {
        return drawing.series().stream()
                .filter(series -> series.kind() == kind)
                .findFirst()
                .orElseThrow();
    }

    private static List<String> names(Drawing drawing) {
        return drawing.series().stream().map(DrawingSeries::name).toList();
    }

    /** For whoever wants to look at it. */
    private static void keep(String name, String svg) throws Exception {
        var folder = Path.of("target", "drawings");
        Files.createDirectories(folder);
        Files.writeString(folder.resolve(name), svg);
    }
}
