package panelbook.app.matching;

import java.sql.Types;
import java.time.Clock;
import java.time.Instant;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.UUID;
import java.util.function.Function;
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
import panelbook.app.runs.RunMeasured;
import panelbook.app.runs.StoredRun;
import panelbook.colorimetry.drift.AgreedOffset;
import panelbook.colorimetry.drift.UvShift;
import panelbook.colorimetry.uncertainty.Estimate;
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
        return signOff(draft, null, caller);
    }

    /** As {@link #signOff(SignOffDraft, Caller)}, of a match that was opened. */
    @Transactional
    Added<Match> signOff(SignOffDraft draft, @Nullable UUID storyId, Caller caller) {
        var known = rows.find(draft.id());
        if (known.isPresent()) {
            return new Added<>(repeated(draft, storyId, known.get()), false);
        }
        var now = clock.instant();
        check(draft, now);
        var pair = pairs.of(draft.followerPresetId(), draft.heroPresetId());
        Pairs.mustShareTarget(pair);
        if (!insert(draft, storyId, offset(draft, pair), now, caller)) {
            // a rival brought the same sign-off meanwhile: its transaction has ended by now
            return new Added<>(repeated(draft, storyId, rows.find(draft.id()).orElseThrow()), false);
        }
        draft.trims().forEach(trim -> insert(draft.id(), trim));
        events.publishEvent(
                new MatchSigned(draft.id(), draft.followerPresetId(), draft.heroPresetId(), caller.holder()));
        return new Added<>(rows.find(draft.id()).orElseThrow(), true);
    }

    /** Whether there is such a sign-off, be it withdrawn by now. */
    boolean isKnown(UUID id) {
        return rows.find(id).isPresent();
    }

    private static Match repeated(SignOffDraft draft, @Nullable UUID storyId, Match known) {
        var same = Objects.equals(known.storyId(), storyId)
                && known.followerPresetId().equals(draft.followerPresetId())
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
    private @Nullable AgreedOffset offset(SignOffDraft draft, Pair pair) {
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
        return Offsets.between(
                withWhite("/followerRunId", ofFollower, pair.follower()), withWhite("/heroRunId", ofHero, pair.hero()));
    }

    private RunMeasured withWhite(String pointer, UUID runId, PresetFacts preset) {
        var run = runs.counted(runId)
                .filter(found -> found.presetId().equals(preset.presetId()))
                .map(StoredRun::id)
                .orElseThrow(() -> Refusal.invalid(pointer, "there is no such run that counts on " + preset.path()));
        var greys = Objects.requireNonNull(measured.greysOf(List.of(run), Map.of(preset.presetId(), preset))
                .get(run));
        // against itself a run has an offset of its white as soon as that is lit
        if (Offsets.between(greys, greys).white().isEmpty()) {
            throw Refusal.invalid(
                    pointer, "the run holds no reading of white, so no offset can be taken from it: measure white");
        }
        return greys;
    }

    /** False when there is a match of that id. */
    private boolean insert(
            SignOffDraft draft, @Nullable UUID storyId, @Nullable AgreedOffset offset, Instant now, Caller caller) {
        return jdbc.sql("""
                        insert into match (id, follower_preset_id, hero_preset_id, operator, follower_run_id, hero_run_id,
                                           follower_baseline_id, hero_baseline_id, white_du, white_dv, luminance_ln_ratio,
                                           material, remarks, signed_at, recorded_at, recorded_by, story_id)
                        values (:id, :follower, :hero, :operator, :followerRun, :heroRun,
                                (select id from counted_baseline where preset_id = :follower and upper_inf(during)),
                                (select id from counted_baseline where preset_id = :hero and upper_inf(during)),
                                :du, :dv, :ln, :material, :remarks, :signedAt, :now, :by, :story::uuid)
                        on conflict (id) do nothing
                        """)
                        .param("id", draft.id())
                        .param("follower", draft.followerPresetId())
                        .param("hero", draft.heroPresetId())
                        .param("operator", draft.operator())
                        .param("followerRun", draft.followerRunId(), Types.OTHER)
                        .param("heroRun", draft.heroRunId(), Types.OTHER)
                        .param("du", whiteOf(offset, UvShift::u), Types.DOUBLE)
                        .param("dv", whiteOf(offset, UvShift::v), Types.DOUBLE)
                        .param(
                                "ln",
                                offset == null
                                        ? null
                                        : offset.luminance().orElseThrow().value(),
                                Types.DOUBLE)
                        .param("material", draft.material())
                        .param("remarks", draft.remarks())
                        .param("signedAt", Rows.at(Rows.kept(orNow(draft.signedAt(), now))))
                        .param("now", Rows.at(now))
                        .param("by", caller.holder())
                        .param("story", storyId)
                        .update()
                == 1;
    }

    private static @Nullable Double whiteOf(@Nullable AgreedOffset offset, Function<UvShift, Estimate> coordinate) {
        return offset == null
                ? null
                : (Double) coordinate.apply(offset.white().orElseThrow()).value();
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
