package panelbook.app.matching;

import java.time.Duration;
import java.time.Instant;
import java.util.HashSet;
import java.util.List;
import org.jspecify.annotations.Nullable;
import panelbook.app.rest.Checks;
import panelbook.wire.Trim;

/** Checks that drafts of matches share. */
final class DraftChecks {

    /** No control has more clicks. */
    static final int MOST_CLICKS = 100_000;

    private static final Duration CLOCK_SKEW = Duration.ofMinutes(10);

    private DraftChecks() {}

    /** Notes a time that has not come yet. */
    static Checks past(Checks checks, String pointer, @Nullable Instant given, Instant now) {
        return checks.that(
                given == null || !given.isAfter(now.plus(CLOCK_SKEW)),
                pointer,
                "is in the future: check the clock and the time zone");
    }

    /** Notes what is wrong with a list of trims, each control once. */
    static Checks trims(Checks checks, String pointer, List<Trim> trims) {
        var seen = new HashSet<List<String>>();
        for (var i = 0; i < trims.size(); i++) {
            var trim = trims.get(i);
            trim(checks, pointer + "/" + i, trim)
                    .that(
                            seen.add(List.of(trim.control(), trim.level())),
                            pointer + "/" + i,
                            trim.control() + " at " + trim.level() + " stands in the list already");
        }
        return checks;
    }

    /** Notes what is wrong with a trim. */
    static Checks trim(Checks checks, String pointer, Trim trim) {
        return control(checks, pointer, trim.control(), trim.level())
                .that(
                        Math.abs((long) trim.clicks()) <= MOST_CLICKS,
                        pointer + "/clicks",
                        "takes at most " + MOST_CLICKS + " clicks either way");
    }

    /** Notes what is wrong with the name and the level of a control. */
    static Checks control(Checks checks, String pointer, String control, String level) {
        return checks.line(pointer + "/control", control, 100).line(pointer + "/level", level, 100);
    }
}
