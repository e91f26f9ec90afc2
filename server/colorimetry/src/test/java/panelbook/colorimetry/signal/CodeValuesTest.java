package panelbook.colorimetry.signal;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import panelbook.colorimetry.XYZ;

class CodeValuesTest {
    /** ITU-R BT.2100-2, Table 9 (10 and 12 bits); BT.709-6, item 5.3 to 5.6 (8 and 10 bits). */
    @ParameterizedTest
    @CsvSource({
        "NARROW, 8, 16, 235, 1, 254",
        "NARROW, 10, 64, 940, 4, 1019",
        "NARROW, 12, 256, 3760, 16, 4079",
        "FULL, 8, 0, 255, 0, 255",
        "FULL, 10, 0, 1023, 0, 1023",
        "FULL, 12, 0, 4095, 0, 4095",
        "FULL, 16, 0, 65535, 0, 65535"
    })
    void levelsAreThoseOfTheRecommendations(
            SignalRange range, int bits, int black, int white, int least, int greatest) {
        CodeValues codes = new CodeValues(range, bits);
        assertThat(codes.black()).isEqualTo(black);
        assertThat(codes.white()).isEqualTo(white);
        assertThat(codes.least()).isEqualTo(least);
        assertThat(codes.greatest()).isEqualTo(greatest);
    }

    static Stream<Arguments> everyDepth() {
        return Stream.of(SignalRange.values())
                .flatMap(range -> Stream.of(8, 9, 10, 11, 12, 14, 16).map(bits -> Arguments.of(range, bits)));
    }

    @ParameterizedTest
    @MethodSource("everyDepth")
    void everyCodeSurvivesTheWayToASignalAndBack(SignalRange range, int bits) {
        CodeValues codes = new CodeValues(range, bits);
        for (int code = codes.least(); code <= codes.greatest(); code++) {
            assertThat(codes.toCode(codes.toSignal(code))).isEqualTo(code);
        }
        assertThat(codes.toSignal(codes.black())).isEqualTo(0);
        assertThat(codes.toSignal(codes.white())).isEqualTo(1);
    }

    @Test
    void aCodeThatIsNoVideoIsRefusedWithWhatToDo() {
        CodeValues codes = new CodeValues(SignalRange.NARROW, 10);
        assertThatThrownBy(() -> codes.toSignal(1020))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("the value is code 1020, but 10-bit narrow range holds 4 to 1019; check range and bit depth"
                        + " of the target");
        assertThatThrownBy(() -> codes.toCode(1.2)).hasMessageContaining("signal 1.2 has no code");
        assertThatThrownBy(() -> codes.toCode(Double.NaN)).hasMessageContaining("signal must be a finite number");
        assertThatThrownBy(() -> new CodeValues(SignalRange.FULL, 17))
                .hasMessage("bit depth must lie from 8 to 16, but is 17");
    }

    @Test
    void readingsNameTheOneThatIsWrong() {
        CodeValues codes = new CodeValues(SignalRange.FULL, 8);
        Reading white = new Reading(Patch.grey(255), new XYZ(95, 100, 109));
        assertThatThrownBy(() -> Readings.of(codes, List.of(white, new Reading(new Patch(256, 0, 0), XYZ.BLACK))))
                .hasMessageStartingWith("reading 2: patch 256/0/0 is not within 8-bit full range");
        assertThatThrownBy(() -> Readings.of(codes, List.of(white, white)))
                .hasMessageStartingWith("reading 2: patch 255/255/255 was read before");
        assertThatThrownBy(() -> new Reading(Patch.grey(0), new XYZ(0, -0.1, 0)))
                .hasMessage("measured Y of patch 0/0/0 in cd/m2 must not be negative, but is -0.1");
    }

    /** From either side: the same two patches are found to be one level, or not. */
    @ParameterizedTest
    @MethodSource("everyDepth")
    void whoIsMatchedWithWhomDoesNotDependOnWhoAsks(SignalRange range, int bits) {
        CodeValues own = new CodeValues(range, bits);
        CodeValues other = new CodeValues(SignalRange.NARROW, 10);
        for (int i = 0; i <= 40; i++) {
            Reading here = new Reading(Patch.grey(own.toCode(i / 40.0)), XYZ.BLACK);
            Reading there = new Reading(Patch.grey(other.toCode(i / 40.0)), XYZ.BLACK);
            assertThat(Readings.of(own, List.of(here))
                            .atLevelOf(there.patch(), other)
                            .isPresent())
                    .as("level %d of 40", i)
                    .isEqualTo(Readings.of(other, List.of(there))
                            .atLevelOf(here.patch(), own)
                            .isPresent());
        }
        Reading white = new Reading(Patch.grey(own.white()), XYZ.BLACK);
        assertThat(Readings.of(own, List.of(white)).atLevelOf(Patch.grey(940), other))
                .contains(white);
    }

    @Test
    void patchesOfDifferentRangesMeetAtTheSameSignal() {
        Reading half = new Reading(Patch.grey(64 + 438), new XYZ(19, 20, 21));
        Readings narrow = Readings.of(new CodeValues(SignalRange.NARROW, 10), List.of(half));
        CodeValues full = new CodeValues(SignalRange.FULL, 12);
        assertThat(narrow.atLevelOf(Patch.grey(2048), full)).contains(half);
        assertThat(narrow.atLevelOf(Patch.grey(2060), full)).isEmpty();
        assertThat(narrow.codes().toSignal(502)).isCloseTo(full.toSignal(2048), within(1e-3));
    }
}
