package panelbook.colorimetry.drift;

import java.util.List;
import panelbook.colorimetry.uncertainty.Measured;

/** One signal level on follower and hero, now and then. */
record Quartet(Measured followerNow, Measured heroNow, Measured followerThen, Measured heroThen) {

    /** In the order in which coefficients 1, -1, -1, 1 give the residual. */
    List<Measured> all() {
        return List.of(followerNow, heroNow, followerThen, heroThen);
    }

    List<Measured> now() {
        return List.of(followerNow, heroNow);
    }

    List<Measured> then() {
        return List.of(followerThen, heroThen);
    }

    List<Measured> follower() {
        return List.of(followerNow, followerThen);
    }

    List<Measured> hero() {
        return List.of(heroNow, heroThen);
    }
}
