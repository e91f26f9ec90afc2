package panelbook.app.testing;

import java.time.Duration;
import java.util.Random;
import java.util.UUID;
import java.util.function.UnaryOperator;
import org.jspecify.annotations.Nullable;
import panelbook.colorimetry.XYZ;
import panelbook.wire.Purpose;

/**
 * A hero and a follower with half a year behind them: calibrated, matched for one operator, checked each week since, and ageing.
 * There is one for all tests, since none of them changes it.
 */
public final class HalfYear {

    /** Checks of each. */
    public static final int WEEKS = 26;

    private static final int MATCHED = 2;
    private static @Nullable HalfYear measured;

    private final Studio studio;
    private final UUID follower;

    private HalfYear(Http engineer) {
        this.studio = new Studio(engineer, ServiceTest.unique("Half a year"));
        this.follower = studio.display("Client", "lcd");
        var random = new Random(11);
        var start = ServiceTest.START.minus(Duration.ofDays(7 * WEEKS + 1));
        for (var week = 0; week <= WEEKS; week++) {
            var at = start.plus(Duration.ofDays(7 * week));
            var purpose = week == 0 ? Purpose.AS_LEFT : Purpose.CHECK;
            var noise = 0.0001 * random.nextGaussian();
            studio.upload(Studio.atPanelHours(
                    studio.run(studio.hero(), purpose, at, aged(1 - week * 0.0006, noise, 0)), 900 + 70 * week));
            studio.upload(Studio.atPanelHours(
                    studio.run(
                            follower,
                            purpose,
                            at.plusSeconds(900),
                            aged(1 - week * 0.0015, noise + (week > MATCHED ? 0.003 : 0) + week * 0.00005, 0.001)),
                    400 + 70 * week));
            if (week == MATCHED) {
                var closing = Studio.atPanelHours(
                        studio.run(follower, Purpose.MATCH, at.plusSeconds(3600), aged(0.997, 0.003, 0.001)), 541);
                var heroClosing = studio.run(studio.hero(), Purpose.MATCH, at.plusSeconds(4500), aged(0.999, 0, 0));
                studio.upload(closing);
                studio.upload(heroClosing);
                studio.signOff(follower, "operator A", closing, heroClosing);
            }
        }
    }

    private static UnaryOperator<XYZ> aged(double factor, double du, double dv) {
        return xyz -> Studio.tinted(du, dv).apply(Studio.dimmed(factor).apply(xyz));
    }

    /** The one that there is, measured when it is asked for first. */
    public static synchronized HalfYear of(Http engineer) {
        if (measured == null) {
            measured = new HalfYear(engineer);
        }
        return measured;
    }

    /** Where they stand. */
    public Studio studio() {
        return studio;
    }

    /** The follower's preset. */
    public UUID follower() {
        return follower;
    }
}
