package panelbook.app.matching;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.UUID;
import java.util.function.ToDoubleFunction;
import org.springframework.stereotype.Component;
import panelbook.app.rest.Days;
import panelbook.colorimetry.drift.AgreedOffset;
import panelbook.colorimetry.drift.AgreedOffset.Grey;
import panelbook.colorimetry.drift.UvShift;
import panelbook.colorimetry.uncertainty.Estimate;
import panelbook.wire.Match;
import panelbook.wire.OffsetSource;

/** Finds the offset that an operator is expected to accept. */
@Component
class Aims {

    /** More matches than this of one operator tell no more of what is usual. */
    private static final int ENOUGH = 200;

    private static final Estimate NOTHING = new Estimate(0, 0);

    private final MatchRows matches;
    private final Offsets offsets;

    Aims(MatchRows matches, Offsets offsets) {
        this.matches = matches;
        this.offsets = offsets;
    }

    /**
     * The offset that this operator last signed off for the pair, in question or not; else the mean of what they signed off
     * between such panel technologies; else none.
     *
     * @param now the offset that there is, whose greys an aim without an offset takes
     */
    Aim of(Pair pair, String operator, AgreedOffset now) {
        return agreed(pair, operator)
                .or(() -> usual(pair, operator))
                .orElseGet(() -> new Aim(
                        OffsetSource.NONE,
                        none(now),
                        "like the hero, since nothing is known of what " + operator + " accepts between such panels"));
    }

    private Optional<Aim> agreed(Pair pair, String operator) {
        var signed = matches.list(matches.select("""
                         where m.follower_preset_id = :follower and m.hero_preset_id = :hero and m.operator = :operator
                           and %s
                         order by m.signed_at desc, m.recorded_at desc limit 1
                        """.formatted(MatchRows.RESTS_ON_RUNS))
                .param("follower", pair.follower().presetId())
                .param("hero", pair.hero().presetId())
                .param("operator", operator));
        return signed.stream()
                .findFirst()
                .flatMap(match -> Optional.ofNullable(offsets.of(signed).get(match.id()))
                        .filter(Aims::isWhole)
                        .map(offset -> new Aim(
                                OffsetSource.AGREED,
                                offset,
                                "the hero and what " + operator + " accepted on " + Days.of(match.signedAt())
                                        + ": "
                                        + figures(offset)
                                        + (match.inQuestion() == null ? "" : "; in question, " + match.inQuestion()))));
    }

    private Optional<Aim> usual(Pair pair, String operator) {
        var signed = matches.list(matches.select("""
                         where m.operator = :operator and %s
                           and fd.panel_technology = :follower and hd.panel_technology = :hero
                         order by m.signed_at desc, m.recorded_at desc limit :limit
                        """.formatted(MatchRows.RESTS_ON_RUNS))
                .param("operator", operator)
                .param("follower", pair.follower().panelTechnology())
                .param("hero", pair.hero().panelTechnology())
                .param("limit", ENOUGH));
        var newest = newestOfEachPair(signed);
        var all = offsets.of(newest).values().stream().filter(Aims::isWhole).toList();
        if (all.isEmpty()) {
            return Optional.empty();
        }
        var mean = mean(all);
        return Optional.of(new Aim(
                OffsetSource.USUAL,
                mean,
                "the hero and what " + operator + " usually accepts between "
                        + pair.follower().panelTechnology() + " and "
                        + pair.hero().panelTechnology() + ", the mean of "
                        + all.size() + (all.size() == 1 ? " match: " : " matches: ") + figures(mean)));
    }

    private static List<Match> newestOfEachPair(List<Match> newestFirst) {
        var seen = new HashSet<List<UUID>>();
        return newestFirst.stream()
                .filter(match -> seen.add(List.of(match.followerPresetId(), match.heroPresetId())))
                .toList();
    }

    private static boolean isWhole(AgreedOffset offset) {
        return offset.white().isPresent() && offset.luminance().isPresent();
    }

    private static AgreedOffset none(AgreedOffset now) {
        var nowhere = new UvShift(NOTHING, NOTHING, NOTHING);
        return new AgreedOffset(
                Optional.of(nowhere),
                Optional.of(NOTHING),
                now.greys().stream()
                        .map(grey -> new Grey(grey.signal(), NOTHING, nowhere))
                        .toList());
    }

    /** The mean, at white and at the greys that all hold. What the single ones are worth is left out: it is an aim. */
    private static AgreedOffset mean(List<AgreedOffset> all) {
        var greys = new ArrayList<Grey>();
        for (var grey : all.get(0).greys()) {
            var alike = all.stream()
                    .flatMap(offset -> offset.greys().stream()
                            .filter(other -> Math.abs(other.signal() - grey.signal()) < 0.005)
                            .limit(1))
                    .toList();
            if (alike.size() == all.size()) {
                greys.add(new Grey(
                        grey.signal(),
                        mean(alike, one -> one.luminance().value()),
                        shift(
                                mean(alike, one -> one.chromaticity().u().value()),
                                mean(alike, one -> one.chromaticity().v().value()))));
            }
        }
        return new AgreedOffset(
                Optional.of(shift(
                        mean(all, one -> one.white().orElseThrow().u().value()),
                        mean(all, one -> one.white().orElseThrow().v().value()))),
                Optional.of(mean(all, one -> one.luminance().orElseThrow().value())),
                greys);
    }

    private static <T> Estimate mean(List<T> all, ToDoubleFunction<T> figure) {
        return new Estimate(all.stream().mapToDouble(figure).average().orElseThrow(), 0);
    }

    private static UvShift shift(Estimate u, Estimate v) {
        return new UvShift(u, v, new Estimate(Math.hypot(u.value(), v.value()), 0));
    }

    private static String figures(AgreedOffset offset) {
        var white = offset.white().orElseThrow();
        return String.format(
                Locale.ROOT,
                "Δu′ %+.4f, Δv′ %+.4f, luminance %+.1f %%",
                white.u().value(),
                white.v().value(),
                100 * Math.expm1(offset.luminance().orElseThrow().value()));
    }
}
