package panelbook.app.matching;

import java.time.Instant;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.bind.annotation.RestController;
import panelbook.app.access.Caller;
import panelbook.app.database.Rows;
import panelbook.app.rest.Adds;
import panelbook.app.rest.AnswersAsOf;
import panelbook.app.rest.Paging;
import panelbook.app.rest.Refusal;
import panelbook.app.runs.Rivals;
import panelbook.wire.Match;
import panelbook.wire.MatchWithdrawalDraft;
import panelbook.wire.Page;
import panelbook.wire.RoomTrims;
import panelbook.wire.SignOffDraft;
import panelbook.wire.WithdrawnMatch;

@RestController
class MatchController {

    private static final String MATCHES = "/api/v1/matches";

    private final SignOffs signOffs;
    private final MatchRows rows;
    private final TrimBook trims;
    private final MatchWithdrawals withdrawals;

    MatchController(SignOffs signOffs, MatchRows rows, TrimBook trims, MatchWithdrawals withdrawals) {
        this.signOffs = signOffs;
        this.withdrawals = withdrawals;
        this.rows = rows;
        this.trims = trims;
    }

    @Adds
    @PostMapping(MATCHES)
    ResponseEntity<Match> signMatchOff(@RequestBody SignOffDraft draft) {
        return signOffs.signOff(draft, Caller.current()).at(MATCHES + "/" + draft.id());
    }

    @Adds
    @PostMapping(MATCHES + "/{id}/withdrawal")
    ResponseEntity<WithdrawnMatch> withdrawMatch(@PathVariable UUID id, @RequestBody MatchWithdrawalDraft draft) {
        return Rivals.untilDone(() -> withdrawals.withdraw(id, draft, Caller.current()))
                .at(MATCHES + "/" + id);
    }

    @GetMapping(MATCHES + "/{id}")
    @AnswersAsOf
    Match match(@PathVariable UUID id) {
        return rows.find(id).orElseThrow(() -> Refusal.notFound("match", id));
    }

    @GetMapping(MATCHES)
    @AnswersAsOf
    Page<Match> matches(
            Paging paging,
            @RequestParam(required = false) @Nullable UUID follower,
            @RequestParam(required = false) @Nullable UUID hero,
            @RequestParam(required = false) @Nullable String operator) {
        var at = paging.parsed(0, Instant::parse);
        var found = rows.list(rows.select("""
                         where (:follower::uuid is null or m.follower_preset_id = :follower)
                           and (:hero::uuid is null or m.hero_preset_id = :hero)
                           and (:operator::text is null or m.operator = :operator)
                           and (:at::timestamptz is null or (m.signed_at, m.id) < (:at::timestamptz, :id::uuid))
                         order by m.signed_at desc, m.id desc limit :limit
                        """)
                .param("follower", follower)
                .param("hero", hero)
                .param("operator", operator)
                .param("at", Rows.atOrNull(at))
                .param("id", paging.keyId(1))
                .param("limit", paging.fetch()));
        return paging.page(
                found, match -> List.of(match.signedAt().toString(), match.id().toString()));
    }

    @GetMapping("/api/v1/rooms/{id}/trims")
    @AnswersAsOf
    RoomTrims roomTrims(@PathVariable UUID id) {
        return trims.of(id);
    }
}
