package panelbook.colorimetry.trim;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Random;
import java.util.stream.LongStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.MethodSource;
import panelbook.colorimetry.Chromaticity;
import panelbook.colorimetry.XYZ;
import panelbook.colorimetry.drift.MeasuredRun;
import panelbook.colorimetry.signal.Patch;
import panelbook.colorimetry.signal.Reading;
import panelbook.colorimetry.signal.Readings;
import panelbook.colorimetry.simulation.Instrument;
import panelbook.colorimetry.simulation.TrimmedDisplay;
import panelbook.colorimetry.uncertainty.InstrumentUncertainty;

class TrimGuardsTest {
    private static final Instrument METER = Instrument.COLORIMETER;

    static LongStream seeds() {
        return LongStream.rangeClosed(1, 20);
    }

    @ParameterizedTest
    @EnumSource(Channel.class)
    void aGainFarAboveCalibrationIsRefusedWithTheTwoReadingsOfTheTop(Channel channel) {
        Random random = new Random(4);
        TrimmedDisplay display = ClickEffectsTest.model(random);
        MeasuredRun before = Bench.ramp(display, METER, random);
        MeasuredRun after = Bench.ramp(display.gain(channel.ordinal(), 20), METER, random);
        assertThat(TrimGuards.gain(channel, before, after)).isInstanceOfSatisfying(Verdict.Refused.class, r -> {
            assertThat(r.reason()).isEqualTo(Verdict.Reason.CHANNEL_CLIPS);
            assertThat(r.second()).isEqualTo(after.readings().white().orElseThrow());
            assertThat(r.first().patch().isGrey()).isTrue();
            assertThat(r.first().patch().red()).isEqualTo(972);
            assertThat(r.figure().value()).isLessThan(r.limit());
        });
        for (Channel other : Channel.values()) {
            if (other != channel) {
                assertThat(TrimGuards.gain(other, before, after)).isInstanceOf(Verdict.Allowed.class);
            }
        }
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void aGainLoweredOrRaisedByAClickIsAllowed(long seed) {
        Random random = new Random(seed);
        TrimmedDisplay display = ClickEffectsTest.model(random);
        MeasuredRun before = Bench.ramp(display, METER, random);
        for (int clicks : new int[] {-8, -1, 1}) {
            MeasuredRun after = Bench.ramp(display.gain(0, clicks), METER, random);
            assertThat(TrimGuards.gain(Channel.RED, before, after)).isInstanceOf(Verdict.Allowed.class);
        }
    }

    @Test
    void aRampOfTheChannelAloneShowsItToo() {
        MeasuredRun before = run(red(1023, 21), red(900, 15.5), red(700, 8.5));
        MeasuredRun clipped = run(red(1023, 22), red(900, 21.9), red(700, 12.1));
        assertThat(TrimGuards.gain(Channel.RED, before, clipped)).isInstanceOfSatisfying(Verdict.Refused.class, r -> {
            assertThat(r.first()).isEqualTo(red(900, 21.9));
            assertThat(r.second()).isEqualTo(red(1023, 22));
        });
    }

    @Test
    void aDisplayThatIsFlatAtItsPeakByDesignIsNotBlamedForIt() {
        MeasuredRun before = run(red(1023, 21), red(900, 21), red(700, 8.5));
        MeasuredRun lowered = run(red(1023, 20), red(900, 20), red(700, 8.1));
        assertThat(TrimGuards.gain(Channel.RED, before, lowered)).isInstanceOf(Verdict.Allowed.class);
        MeasuredRun reachesDown = run(red(1023, 21), red(900, 21), red(700, 20.9));
        assertThat(TrimGuards.gain(Channel.RED, before, reachesDown)).isInstanceOf(Verdict.Refused.class);
    }

    @Test
    void greysWithoutPrimariesCannotTellTheChannelsApart() {
        MeasuredRun greys = run(grey(0, 0.02), grey(512, 20), grey(1023, 100));
        assertThat(TrimGuards.gain(Channel.BLUE, greys, greys))
                .isEqualTo(new Verdict.NotMeasured(Verdict.Missing.PRIMARIES));
        assertThat(TrimGuards.gain(Channel.BLUE, run(grey(0, 0.02)), greys))
                .isEqualTo(new Verdict.NotMeasured(Verdict.Missing.TOP_OF_RAMP));
    }

    @Test
    void aFloorLiftedBeyondToleranceIsRefusedWithBothBlacks() {
        MeasuredRun calibrated = run(grey(0, 0.020));
        assertThat(TrimGuards.blackLevel(calibrated, run(grey(0, 0.022)), 0.005))
                .isInstanceOf(Verdict.Allowed.class);
        assertThat(TrimGuards.blackLevel(calibrated, run(grey(0, 0.0252)), 0.005))
                .isInstanceOf(Verdict.Undecided.class);
        assertThat(TrimGuards.blackLevel(calibrated, run(grey(0, 0.030)), 0.005))
                .isInstanceOfSatisfying(Verdict.Refused.class, r -> {
                    assertThat(r.reason()).isEqualTo(Verdict.Reason.FLOOR_RISES);
                    assertThat(r.first()).isEqualTo(grey(0, 0.020));
                    assertThat(r.second()).isEqualTo(grey(0, 0.030));
                    assertThat(r.limit()).isEqualTo(0.005);
                });
        assertThat(TrimGuards.blackLevel(calibrated, run(grey(512, 20)), 0.005))
                .isEqualTo(new Verdict.NotMeasured(Verdict.Missing.BLACK));
    }

    private static MeasuredRun run(Reading... readings) {
        return new MeasuredRun(
                Readings.of(Bench.CODES, List.of(readings)),
                new InstrumentUncertainty(0.02, 0.002, 0.002, 0.0002, 0.0005, "guard"));
    }

    private static Reading grey(int code, double luminance) {
        return new Reading(Patch.grey(code), XYZ.of(Chromaticity.D65, luminance));
    }

    private static Reading red(int code, double luminance) {
        return new Reading(new Patch(code, 0, 0), XYZ.of(new Chromaticity(0.64, 0.33), luminance));
    }
}
