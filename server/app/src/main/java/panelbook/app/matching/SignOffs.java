package panelbook.app.matching;

import java.sql.Types;
import java.time.Clock;
import java.time.Instant;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.context.ApplicationEventPublisher;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import panelbook.app.access.Caller;
import panelbook.app.database.Rows;
import panelbook.app.rest.Added;
import panelbook.app.rest.Checks;
import panelbook.app.rest.Refusal;
import panelbook.app.runs.MeasuredRuns;
import panelbook.app.runs.PresetFacts;
import panelbook.app.runs.RunBook;
import panelbook.app.runs.StoredRun;
import panelbook.colorimetry.signal.Readings;
import panelbook.wire.Match;
import panelbook.wire.SignOffDraft;
import panelbook.wire.Trim;

/** Takes the sign-off of a match: what the operator accepted, measured. */
@Service
class SignOffs {

    private final JdbcClient jdbc;
    private final Pairs pairs;
    private final RunBook runs;
    private final MeasuredRuns measured;
    private final MatchRows rows;
    private final ApplicationEventPublisher events;
    private final Clock clock;

    SignOffs(
            JdbcClient jdbc,
            Pairs pairs,
            RunBook runs,
            MeasuredRuns measured,
            MatchRows rows,
            ApplicationEventPublisher events,
            Clock clock) {
        this.jdbc = jdbc;
        this.pairs = pairs;
        this.runs = runs;
        this.measured = measured;
        this.rows = rows;
        this.events = events;
        this.clock = clock;
    }

    /**
     * Signs a match off; the same draft again is answered with the match as it stands.
     *
     * @throws Refusal when the two are not a follower and the hero of its room for one target, when a closing run is not of
     *     its preset or holds no white, or another match has this id
     */
    @Transactional
    Added<Match> signOff(SignOffDraft draft, Caller caller) {
        var known = rows.find(draft.id());
        if (known.isPresent()) {
            return new Added<>(repeated(draft, known.get()), false);
        }
        var now = clock.instant();
        check(draft, now);
        var pair = pairs.of(draft.followerPresetId(), draft.heroPresetId());
        Pairs.mustShareTarget(pair);
        var follower = pair.follower();
        var hero = pair.hero();
        if (!insert(draft, offset(draft, follower, hero), now, caller)) {
            // a rival brought the same sign-off meanwhile: its transaction has ended by now
            return new Added<>(repeated(draft, rows.find(draft.id()).orElseThrow()), false);
        }
        draft.trims().forEach(trim -> insert(draft.id(), trim));
        events.publishEvent(new MatchSigned(draft.id(), follower.presetId(), hero.presetId(), caller.holder()));
        return new Added<>(rows.find(draft.id()).orElseThrow(), true);
    }

    private static Match repeated(SignOffDraft draft, Match known) {
        var same = known.followerPresetId().equals(draft.followerPresetId())
                && known.heroPresetId().equals(draft.heroPresetId())
                && known.operator().equals(draft.operator())
                && Objects.equals(known.followerRunId(), draft.followerRunId())
                && Objects.equals(known.heroRunId(), draft.heroRunId())
                && new HashSet<>(known.trims()).equals(new HashSet<>(draft.trims()))
                && Objects.equals(known.material(), draft.material())
                && Objects.equals(known.remarks(), draft.remarks())
                && (draft.signedAt() == null || Rows.kept(draft.signedAt()).equals(known.signedAt()));
        if (!same) {
            throw Refusal.conflict("Another match has the id " + draft.id() + ": nothing was changed.");
        }
        return known;
    }

    private static void check(SignOffDraft draft, Instant now) {
        var checks = new Checks()
                .line("/operator", draft.operator(), 200)
                .text("/material", draft.material(), 10_000)
                .text("/remarks", draft.remarks(), 10_000);
        DraftChecks.past(checks, "/signedAt", draft.signedAt(), now);
        DraftChecks.trims(checks, "/trims", draft.trims()).refuse();
    }

    /** Null when the match is unmeasured. */
    private @Nullable Offset offset(SignOffDraft draft, PresetFacts follower, PresetFacts hero) {
        var ofFollower = draft.followerRunId();
        var ofHero = draft.heroRunId();
        if (ofFollower == null && ofHero == null) {
            return null;
        }
        if (ofFollower == null || ofHero == null) {
            throw Refusal.invalid(
                    ofFollower == null ? "/followerRunId" : "/heroRunId",
                    "give both closing runs, or neither for an unmeasured match");
        }
        return new Offset(white("/followerRunId", ofFollower, follower), white("/heroRunId", ofHero, hero));
    }

    private Readings white(String pointer, UUID runId, PresetFacts preset) {
        var run = runs.find(runId)
                .filter(found -> found.presetId().equals(preset.presetId()))
                .map(StoredRun::id)
                .orElseThrow(() -> Refusal.invalid(pointer, "there is no such run on " + preset.path()));
        var greys = Objects.requireNonNull(measured.greysOf(List.of(run), Map.of(preset.presetId(), preset))
                        .get(run))
                .readings();
        var lit = greys.white()
                .filter(white -> white.luminance() > 0 && white.xyz().hasChromaticity())
                .isPresent();
        if (!lit) {
            throw Refusal.invalid(
                    pointer, "the run holds no reading of white, so no offset can be taken from it: measure white");
        }
        return greys;
    }

    /** Follower less hero, of white. */
    private record Offset(Readings follower, Readings hero) {

        double du() {
            return uv(follower).u() - uv(hero).u();
        }

        double dv() {
            return uv(follower).v() - uv(hero).v();
        }

        double lnRatio() {
            return Math.log(luminance(follower) / luminance(hero));
        }

        private static panelbook.colorimetry.UV1976 uv(Readings readings) {
            return readings.white().orElseThrow().xyz().uv1976().orElseThrow();
        }

        private static double luminance(Readings readings) {
            return readings.white().orElseThrow().luminance();
        }
    }

    /** False when there is a match of that id. */
    private boolean insert(SignOffDraft draft, @Nullable Offset offset, Instant now, Caller caller) {
        return jdbc.sql("""
                        insert into match (id, follower_preset_id, hero_preset_id, operator, follower_run_id, hero_run_id,
                                           follower_baseline_id, hero_baseline_id, white_du, white_dv, luminance_ln_ratio,
                                           material, remarks, signed_at, recorded_at, recorded_by)
                        values (:id, :follower, :hero, :operator, :followerRun, :heroRun,
                                (select id from baseline where preset_id = :follower and upper_inf(during)),
                                (select id from baseline where preset_id = :hero and upper_inf(during)),
                                :du, :dv, :ln, :material, :remarks, :signedAt, :now, :by)
                        on conflict (id) do nothing
                        """)
                        .param("id", draft.id())
                        .param("follower", draft.followerPresetId())
                        .param("hero", draft.heroPresetId())
                        .param("operator", draft.operator())
                        .param("followerRun", draft.followerRunId(), Types.OTHER)
                        .param("heroRun", draft.heroRunId(), Types.OTHER)
                        .param("du", offset == null ? null : offset.du(), Types.DOUBLE)
                        .param("dv", offset == null ? null : offset.dv(), Types.DOUBLE)
                        .param("ln", offset == null ? null : offset.lnRatio(), Types.DOUBLE)
                        .param("material", draft.material())
                        .param("remarks", draft.remarks())
                        .param("signedAt", Rows.at(Rows.kept(orNow(draft.signedAt(), now))))
                        .param("now", Rows.at(now))
                        .param("by", caller.holder())
                        .update()
                == 1;
    }

    private static Instant orNow(@Nullable Instant given, Instant now) {
        return given == null ? now : given;
    }

    private void insert(UUID matchId, Trim trim) {
        jdbc.sql("insert into trim (match_id, control, level, clicks) values (:match, :control, :level, :clicks)")
                .param("match", matchId)
                .param("control", trim.control())
                .param("level", trim.level())
                .param("clicks", trim.clicks())
                .update();
    }
}
