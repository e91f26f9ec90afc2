package panelbook.app.notifying;

import java.util.Optional;
import tools.jackson.databind.JsonNode;

/**
 * Whether an alert that lasts grew so much worse since people were last told that they should be told again. Figures that
 * merely wander must not wake anybody.
 */
final class Worsening {

    /** A figure must stand this many times further from its limit's zero than when people were told; our own choice. */
    static final double FACTOR = 1.5;

    private Worsening() {}

    /**
     * Why it is worse, in words; empty when it is not. It is worse when its gravest figure, as a multiple of its limit,
     * grew by half. How many figures are beyond says little: many of them follow from one movement.
     *
     * @param told what the alert held when people were last told: its {@code findings}
     * @param now what it holds now
     */
    static Optional<String> between(JsonNode told, JsonNode now) {
        var before = gravest(told);
        var after = gravest(now);
        if (before > 0 && after >= FACTOR * before) {
            return Optional.of(String.format(
                    java.util.Locale.ROOT,
                    "It grew worse: the gravest figure is at %.1f times its limit, from %.1f.",
                    after,
                    before));
        }
        return Optional.empty();
    }

    private static double gravest(JsonNode detail) {
        return detail.path("findings")
                .valueStream()
                .filter(finding -> finding.path("limit").asDouble(0) > 0)
                .mapToDouble(finding -> Math.abs(finding.path("value").asDouble(0))
                        / finding.path("limit").asDouble(0))
                .max()
                .orElse(0);
    }
}
