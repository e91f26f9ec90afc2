package panelbook.app.sheet;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;
import panelbook.wire.AgreedOffset;
import panelbook.wire.Match;
import panelbook.wire.OperatorDifference;
import panelbook.wire.Trim;

/** How far what two operators signed off for the same pair lies apart. */
final class Apart {

    private Apart() {}

    /** The second less the first. */
    static OperatorDifference between(Match first, Match second) {
        var one = first.agreedOffset();
        var other = second.agreedOffset();
        var clicks = clicks(first.trims(), second.trims());
        if (one == null || other == null) {
            return between(first, second, null, null, null, null, clicks);
        }
        var du = other.du() - one.du();
        var dv = other.dv() - one.dv();
        return between(first, second, du, dv, Math.hypot(du, dv), 100 * (ratio(other) / ratio(one) - 1), clicks);
    }

    private static OperatorDifference between(
            Match first,
            Match second,
            @Nullable Double du,
            @Nullable Double dv,
            @Nullable Double duv,
            @Nullable Double luminancePercent,
            List<Trim> clicks) {
        return new OperatorDifference(
                first.followerPresetId(),
                first.follower(),
                first.heroPresetId(),
                first.hero(),
                first.operator(),
                second.operator(),
                du,
                dv,
                duv,
                luminancePercent,
                clicks);
    }

    private static double ratio(AgreedOffset offset) {
        return 1 + offset.luminancePercent() / 100;
    }

    /** Where the controls stand apart; one that is not listed stands at its calibrated setting. */
    private static List<Trim> clicks(List<Trim> first, List<Trim> second) {
        var clicks = new TreeMap<String, Map<String, Integer>>();
        first.forEach(trim -> add(clicks, trim, -trim.clicks()));
        second.forEach(trim -> add(clicks, trim, trim.clicks()));
        var apart = new ArrayList<Trim>();
        clicks.forEach((control, levels) -> levels.forEach((level, difference) -> {
            if (difference != 0) {
                apart.add(new Trim(control, level, difference));
            }
        }));
        return apart;
    }

    private static void add(Map<String, Map<String, Integer>> clicks, Trim trim, int difference) {
        clicks.computeIfAbsent(trim.control(), control -> new TreeMap<>())
                .merge(trim.level(), difference, Integer::sum);
    }
}
