package panelbook.app.mending;

import static org.assertj.core.api.Assertions.assertThat;
import static panelbook.app.testing.Studio.asAimed;
import static panelbook.app.testing.Studio.dimmed;
import static panelbook.app.testing.Studio.tinted;

import java.util.List;
import java.util.Random;
import java.util.UUID;
import java.util.function.UnaryOperator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import panelbook.colorimetry.XYZ;
import panelbook.wire.Alert;
import panelbook.wire.AlertCause;
import panelbook.wire.Purpose;

/** Steps after a mistake was put right are those of a room in which it was never made. */
class StepWithdrawalTest extends TwinRooms {

    private Random noise;

    private UnaryOperator<XYZ> aged(int check, UnaryOperator<XYZ> bend) {
        var factor = Math.exp(-0.0005 * check + 0.001 * noise.nextGaussian());
        return xyz -> bend.apply(xyz).times(factor);
    }

    private UUID mistake(int preset, UnaryOperator<XYZ> bend) {
        tick();
        var run = mistaken.studio.run(mistaken.preset(preset), Purpose.CHECK, now, bend);
        mistaken.studio.upload(run);
        return run.id();
    }

    private long steppedIn(Twin twin) {
        return engineer().get("/alerts?limit=500&room=" + twin.studio.room()).asPageOf(Alert.class).items().stream()
                .filter(alert -> alert.cause() == AlertCause.STEPPED)
                .count();
    }

    @Test
    void aStepThatARunOfAnotherDisplayMadeIsGoneAndLeavesNothing() {
        noise = new Random(1);
        for (var preset = 0; preset < 3; preset++) {
            measure(preset, Purpose.AS_LEFT, asAimed());
        }
        for (var check = 1; check < 11; check++) {
            measure(0, Purpose.CHECK, aged(check, asAimed()));
        }
        var one = mistake(0, dimmed(0.9));
        var other = mistake(0, dimmed(0.9));
        assertThat(steppedIn(mistaken)).as("the mistake opened an alert").isEqualTo(1);
        withdraw(one, null);
        withdraw(other, mistaken.preset(1));
        right.studio.upload(right.studio.run(right.preset(1), Purpose.CHECK, now, dimmed(0.9)));
        assertThat(steppedIn(mistaken)).isZero();
        bothSayTheSame("a step that was none");
    }

    /** Law: whatever steps and whatever is mistaken, the book then says what it says of the room without the mistake. */
    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5, 6})
    void whateverStepsAMistakeThatIsPutRightLeavesNothing(long seed) {
        noise = new Random(seed * 0x9E3779B97F4A7C15L);
        var bends = List.<UnaryOperator<XYZ>>of(dimmed(0.93), dimmed(1.045), tinted(0.005, 0.002));
        var bend = bends.get((int) (seed % 3));
        var steps = 1 + noise.nextInt(3);
        var mistakeAt = 8 + noise.nextInt(4);
        for (var preset = 0; preset < 3; preset++) {
            measure(preset, Purpose.AS_LEFT, asAimed());
        }
        UUID wrong = null;
        for (var check = 1; check < 13; check++) {
            for (var preset = 0; preset < 3; preset++) {
                measure(preset, Purpose.CHECK, aged(check, check >= 9 && preset < steps ? bend : asAimed()));
            }
            if (check == mistakeAt) {
                wrong = mistake(noise.nextInt(3), noise.nextBoolean() ? asAimed() : dimmed(0.8));
            }
        }
        withdraw(wrong, null);
        bothSayTheSame(steps + " that stepped, a mistake after check " + mistakeAt);
        assertThat(steppedIn(right)).as("alerts of steps").isGreaterThanOrEqualTo(steps);
    }
}
