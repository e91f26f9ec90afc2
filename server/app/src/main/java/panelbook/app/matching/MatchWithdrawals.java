package panelbook.app.matching;

import java.nio.charset.StandardCharsets;
import java.sql.Types;
import java.time.Clock;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Propagation;
import org.springframework.transaction.annotation.Transactional;
import panelbook.app.access.Caller;
import panelbook.app.database.Rows;
import panelbook.app.rest.Added;
import panelbook.app.rest.Checks;
import panelbook.app.rest.Refusal;
import panelbook.app.runs.AmendmentJudge;
import panelbook.app.runs.AmendmentJudge.Amendment;
import panelbook.app.runs.MendingAnswers;
import panelbook.app.runs.Withdrawals;
import panelbook.wire.Match;
import panelbook.wire.MatchWithdrawalDraft;
import panelbook.wire.WithdrawnMatch;
import panelbook.wire.files.RunIds;

/** Withdraws matches that were signed by mistake, and enters them again as they should have been. */
@Service
public class MatchWithdrawals {

    private final JdbcClient jdbc;
    private final MatchRows rows;
    private final AmendmentJudge judge;
    private final MendingAnswers answers;
    private final Clock clock;

    MatchWithdrawals(JdbcClient jdbc, MatchRows rows, AmendmentJudge judge, MendingAnswers answers, Clock clock) {
        this.jdbc = jdbc;
        this.rows = rows;
        this.judge = judge;
        this.answers = answers;
        this.clock = clock;
    }

    /**
     * A match as it should have been signed; trims, material, remarks and the time of the sign-off are those of the other.
     *
     * @param followerRunId closing run, null when unmeasured
     * @param heroRunId closing run, null when unmeasured
     */
    public record Stead(
            UUID followerPresetId,
            UUID heroPresetId,
            String operator,
            @Nullable UUID followerRunId,
            @Nullable UUID heroRunId) {}

    /**
     * Withdraws a match and judges both presets anew; the same again is answered with the first answer.
     *
     * @throws Refusal when there is no such match, when it was withdrawn otherwise, or when it is the operator's already
     */
    @Transactional
    Added<WithdrawnMatch> withdraw(UUID matchId, MatchWithdrawalDraft draft, Caller caller) {
        Withdrawals.reason(draft.reason());
        var operator = draft.operator();
        if (operator != null) {
            new Checks().line("/operator", operator, 200).refuse();
        }
        var match = lock(matchId).orElseThrow(() -> Refusal.notFound("match", matchId));
        var before = match.withdrawn();
        if (before != null) {
            mustBeSame(before.replacedBy(), operator, before.by());
            return new Added<>(answers.of(matchId, WithdrawnMatch.class), false);
        }
        var stead = operator == null ? null : enter(match, forOperator(match, operator), caller);
        withdraw(matchId, draft.reason(), stead, caller);
        var outcome = judge.judge(new Amendment(
                List.of(),
                List.of(),
                Set.of(match.followerPresetId(), match.heroPresetId()),
                Set.of(matchId),
                draft.reason(),
                caller.holder()));
        var answer = new WithdrawnMatch(
                rows.find(matchId).orElseThrow(),
                stead == null ? null : rows.find(stead).orElseThrow(),
                outcome.judgedAnew(),
                outcome.alerts());
        answers.keep(matchId, answer);
        return new Added<>(answer, true);
    }

    private static Stead forOperator(Match match, String operator) {
        if (operator.equals(match.operator())) {
            throw Refusal.invalid("/operator", "the match was signed for " + operator + " already");
        }
        return new Stead(
                match.followerPresetId(), match.heroPresetId(), operator, match.followerRunId(), match.heroRunId());
    }

    /** The match, which no rival can withdraw until the transaction under way has ended. */
    @Transactional(propagation = Propagation.MANDATORY)
    public Optional<Match> lock(UUID matchId) {
        jdbc.sql("select from match where id = :id for no key update")
                .param("id", matchId)
                .query(row -> {});
        return rows.find(matchId);
    }

    /** The matches that count and in which one of the presets is follower or hero, in the order signed. */
    @Transactional(propagation = Propagation.MANDATORY)
    public List<Match> of(Set<UUID> presetIds) {
        return jdbc.sql("""
                        select id from counted_match
                        where follower_preset_id = any (:presets) or hero_preset_id = any (:presets)
                        order by signed_at, recorded_at
                        """).param("presets", presetIds.toArray(new UUID[0])).query(UUID.class).list().stream()
                .map(id -> lock(id).orElseThrow())
                .toList();
    }

    /** Keeps that a match counts no longer; nothing is judged yet. */
    @Transactional(propagation = Propagation.MANDATORY)
    public void withdraw(UUID matchId, String reason, @Nullable UUID replacedBy, Caller caller) {
        jdbc.sql("""
                        insert into match_withdrawal (match_id, reason, replaced_by, withdrawn_at, withdrawn_by)
                        values (:match, :reason, :by, :at, :holder)
                        """)
                .param("match", matchId)
                .param("reason", reason)
                .param("by", replacedBy, Types.OTHER)
                .param("at", Rows.at(clock.instant()))
                .param("holder", caller.holder())
                .update();
    }

    /** Enters a match again as it should have been signed; nothing is judged yet. The id comes back. */
    @Transactional(propagation = Propagation.MANDATORY)
    public UUID enter(Match match, Stead stead, Caller caller) {
        var id = RunIds.nameBased(
                match.id(),
                (stead.followerPresetId() + " " + stead.heroPresetId() + " " + stead.operator())
                        .getBytes(StandardCharsets.UTF_8));
        jdbc.sql("""
                        insert into match (id, follower_preset_id, hero_preset_id, operator, follower_run_id, hero_run_id,
                                           follower_baseline_id, hero_baseline_id, white_du, white_dv, luminance_ln_ratio,
                                           material, remarks, signed_at, recorded_at, recorded_by, story_id)
                        select :id, :follower, :hero, :operator, :followerRun, :heroRun,
                               case when follower_preset_id = :follower then follower_baseline_id end,
                               case when hero_preset_id = :hero then hero_baseline_id end,
                               case when :measured then white_du end, case when :measured then white_dv end,
                               case when :measured then luminance_ln_ratio end,
                               material, remarks, signed_at, :now, :by, story_id
                        from match where id = :old
                        """)
                .param("id", id)
                .param("old", match.id())
                .param("follower", stead.followerPresetId())
                .param("hero", stead.heroPresetId())
                .param("operator", stead.operator())
                .param("followerRun", stead.followerRunId(), Types.OTHER)
                .param("heroRun", stead.heroRunId(), Types.OTHER)
                .param("measured", stead.followerRunId() != null)
                .param("now", Rows.at(clock.instant()))
                .param("by", caller.holder())
                .update();
        jdbc.sql("""
                        insert into trim (match_id, control, level, clicks)
                        select :id, control, level, clicks from trim where match_id = :old
                        """).param("id", id).param("old", match.id()).update();
        return id;
    }

    private void mustBeSame(@Nullable UUID replacedBy, @Nullable String operator, String by) {
        var stead = replacedBy == null ? null : rows.find(replacedBy).orElseThrow();
        if (!Objects.equals(stead == null ? null : stead.operator(), operator)) {
            throw Refusal.conflict("The match was withdrawn by " + by + " already, "
                    + (stead == null
                            ? "without being entered again: sign off anew."
                            : "and entered again for " + stead.operator() + " as " + replacedBy
                                    + ". If that is wrong too, withdraw that one."));
        }
    }
}
