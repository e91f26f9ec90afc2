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
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.bind.annotation.RestController;
import panelbook.app.access.Caller;
import panelbook.app.database.Rows;
import panelbook.app.rest.Adds;
import panelbook.app.rest.Paging;
import panelbook.wire.GivingUp;
import panelbook.wire.Match;
import panelbook.wire.MatchStory;
import panelbook.wire.OpeningDraft;
import panelbook.wire.Page;
import panelbook.wire.StepAnswer;
import panelbook.wire.StepDraft;
import panelbook.wire.StorySignOffDraft;
import panelbook.wire.StoryState;

/** Matches as they happen in the room. */
@RestController
@RequestMapping(StoryController.PATH)
class StoryController {

    static final String PATH = "/api/v1/match-stories";

    private final Stories stories;
    private final StoryRows rows;
    private final StoryViews views;
    private final StorySignOffs signOffs;

    StoryController(Stories stories, StoryRows rows, StoryViews views, StorySignOffs signOffs) {
        this.signOffs = signOffs;
        this.stories = stories;
        this.rows = rows;
        this.views = views;
    }

    /** Opens a match. */
    @Adds
    @PostMapping
    ResponseEntity<MatchStory> openMatch(@RequestBody OpeningDraft draft) {
        return stories.open(draft, Caller.current()).at(PATH + "/" + draft.id());
    }

    /** A match from its opening to its end. */
    @GetMapping("/{id}")
    MatchStory matchStory(@PathVariable UUID id) {
        return stories.get(id);
    }

    /** Matches from their opening to their end, newest first. */
    @GetMapping
    Page<MatchStory> matchStories(
            Paging paging,
            @RequestParam(required = false) @Nullable UUID follower,
            @RequestParam(required = false) @Nullable UUID hero,
            @RequestParam(required = false) @Nullable String operator,
            @RequestParam(required = false) @Nullable StoryState state) {
        var at = paging.parsed(0, Instant::parse);
        var found = rows.list(rows.select("""
                         where (:follower::uuid is null or s.follower_preset_id = :follower)
                           and (:hero::uuid is null or s.hero_preset_id = :hero)
                           and (:operator::text is null or s.operator = :operator)
                           and (:state::text is null or :state = case
                                    when exists (select 1 from counted_match m where m.story_id = s.id) then 'signed'
                                    when g.story_id is not null then 'given-up' else 'open' end)
                           and (:at::timestamptz is null or (s.opened_at, s.id) < (:at::timestamptz, :id::uuid))
                         order by s.opened_at desc, s.id desc limit :limit
                        """)
                .param("follower", follower)
                .param("hero", hero)
                .param("operator", operator)
                .param("state", state == null ? null : state.toString())
                .param("at", Rows.atOrNull(at))
                .param("id", paging.keyId(1))
                .param("limit", paging.fetch()));
        return paging.page(
                found.stream().map(views::of).toList(),
                story -> List.of(story.openedAt().toString(), story.id().toString()));
    }

    /** Adds a step. */
    @Adds
    @PostMapping("/{id}/steps")
    ResponseEntity<StepAnswer> addStep(@PathVariable UUID id, @RequestBody StepDraft draft) {
        return stories.add(id, draft, Caller.current()).at(PATH + "/" + id);
    }

    /** Signs a match off as its last step left it. */
    @Adds
    @PostMapping("/{id}/sign-off")
    ResponseEntity<Match> signStoryOff(@PathVariable UUID id, @RequestBody StorySignOffDraft draft) {
        return signOffs.signOff(id, draft, Caller.current()).at("/api/v1/matches/" + draft.id());
    }

    /** Closes a match without a sign-off. */
    @PostMapping("/{id}/giving-up")
    MatchStory giveUpMatch(@PathVariable UUID id, @RequestBody GivingUp givingUp) {
        return stories.giveUp(id, givingUp, Caller.current());
    }
}
