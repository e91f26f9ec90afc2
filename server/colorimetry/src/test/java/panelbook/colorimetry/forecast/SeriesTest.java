package panelbook.colorimetry.forecast;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import panelbook.colorimetry.forecast.DailyUse.CounterValue;
import panelbook.colorimetry.forecast.Series.Start;

class SeriesTest {
    private static final Instant START = Instant.parse("2026-01-05T08:00:00Z");

    @Test
    void aSeriesIsPartedAtResetsSwapsAndRecalibrations() {
        Series<String> series = Series.split(List.of(
                point(0, 1000, "first", "panel 1"),
                point(10, 1080, "first", "panel 1"),
                point(20, 1160, "second", "panel 1"),
                point(30, 12, "second", "panel 1"),
                point(40, 90, "second", "panel 1"),
                point(50, 170, "third", "panel 2"),
                point(60, 250, "third", "panel 2")));
        assertThat(series.segments().stream().map(Series.Segment::start))
                .containsExactly(Start.FIRST, Start.RECALIBRATION, Start.COUNTER_RESET, Start.PANEL_SWAP);
        assertThat(series.segments().stream().map(s -> s.points().size())).containsExactly(2, 1, 2, 2);
        assertThat(series.doubtful()).isEmpty();
        assertThat(series.latest().orElseThrow().observedHours()).isEqualTo(80);
    }

    @Test
    void aMistypedCounterValueIsSetAsideAndAskedAbout() {
        Series<String> series = Series.split(List.of(
                point(0, 1000, "b", "p"),
                point(10, 10_800, "b", "p"),
                point(20, 1160, "b", "p"),
                point(30, 1240, "b", "p")));
        assertThat(series.doubtful().stream().map(SeriesPoint::panelHours)).containsExactly(10_800.0);
        assertThat(series.segments()).hasSize(1);
        assertThat(series.segments().get(0).points()).hasSize(3);
    }

    @Test
    void aCounterThatJumpsAndStaysThereStartsAnew() {
        Series<String> series = Series.split(List.of(
                point(0, 1000, "b", "p"),
                point(10, 1080, "b", "p"),
                point(20, 9000, "b", "p"),
                point(30, 9080, "b", "p")));
        assertThat(series.segments().stream().map(Series.Segment::start))
                .containsExactly(Start.FIRST, Start.COUNTER_JUMP);
    }

    @Test
    void aLongTimeWithoutReadingsIsToldButPartsNothing() {
        Series<String> series =
                Series.split(List.of(point(0, 1000, "b", "p"), point(10, 1080, "b", "p"), point(200, 1500, "b", "p")));
        assertThat(series.segments()).hasSize(1);
        assertThat(series.segments().get(0).afterGapsOf(Duration.ofDays(90)))
                .extracting(SeriesPoint::panelHours)
                .containsExactly(1500.0);
    }

    /** Laws: no point is lost, and within a segment panel, baseline and the counter's direction stay. */
    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8, 9, 10})
    void noPointIsLostAndEachSegmentIsOfOnePanelAndBaseline(long seed) {
        Random random = new Random(seed);
        List<SeriesPoint<String>> points = new ArrayList<>();
        for (int i = 0; i < 40; i++) {
            points.add(
                    point(7 * i, random.nextInt(8) == 0 ? random.nextInt(5000) : 60 * i, "b" + i / 15, "p" + i / 27));
        }
        Collections.shuffle(points, random);
        Series<String> series = Series.split(points);
        List<SeriesPoint<String>> all = new ArrayList<>(series.doubtful());
        for (Series.Segment<String> s : series.segments()) {
            all.addAll(s.points());
            assertThat(s.points().stream().map(p -> p.panel() + p.baseline()).distinct())
                    .hasSize(1);
            assertThat(s.points().stream().map(SeriesPoint::panelHours)).isSorted();
        }
        assertThat(all).containsExactlyInAnyOrderElementsOf(points);
        assertThat(Series.split(List.<SeriesPoint<String>>of()).latest()).isEmpty();
    }

    @Test
    void datesGoByTheMedianOfRecentUseWhateverTheCounterDid() {
        List<CounterValue> values = new ArrayList<>();
        for (int week = 0; week < 12; week++) {
            values.add(value(7 * week, 2000 + 70 * week, "old"));
        }
        values.add(value(84, 5, "old"));
        values.add(value(91, 75, "old"));
        values.add(value(98, 99_999, "old"));
        values.add(value(105, 3, "new"));
        values.add(value(150, 3, "new"));
        values.add(value(157, 73, "new"));
        values.add(value(157.2, 77, "new"));
        DailyUse use = DailyUse.of(values).orElseThrow();
        assertThat(use.hoursPerDay()).as("hours per day").isCloseTo(10, within(1e-9));
        CounterValue latest = value(157, 73, "new");
        assertThat(use.when(latest, 173)).isEqualTo(latest.at().plus(Duration.ofDays(10)));
    }

    @Test
    void aDisplayThatStandsIdleOrWasSeenOnceHasNoDate() {
        assertThat(DailyUse.of(List.of())).isEmpty();
        assertThat(DailyUse.of(List.of(value(0, 10, "p")))).isEmpty();
        assertThat(DailyUse.of(List.of(value(0, 10, "p"), value(20, 10, "p"), value(40, 10, "p"))))
                .isEmpty();
    }

    private static CounterValue value(double day, double hours, String panel) {
        return new CounterValue(hours, START.plusSeconds((long) (day * 86_400)), panel);
    }

    private static SeriesPoint<String> point(int day, double hours, String baseline, String panel) {
        return new SeriesPoint<>(hours, START.plus(Duration.ofDays(day)), "figure", baseline, panel);
    }
}
