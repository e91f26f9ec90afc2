package panelbook.app.mending;

import java.time.Clock;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import panelbook.app.access.Caller;
import panelbook.app.database.Rows;
import panelbook.app.fleet.Duplicates;
import panelbook.app.matching.MatchWithdrawals;
import panelbook.app.matching.MatchWithdrawals.Stead;
import panelbook.app.rest.Added;
import panelbook.app.rest.Refusal;
import panelbook.app.runs.AmendmentJudge;
import panelbook.app.runs.AmendmentJudge.Amendment;
import panelbook.app.runs.AmendmentJudge.Entered;
import panelbook.app.runs.MendingAnswers;
import panelbook.app.runs.StoredRun;
import panelbook.app.runs.Withdrawals;
import panelbook.wire.Display;
import panelbook.wire.Match;
import panelbook.wire.MergedDisplay;
import panelbook.wire.MergedDisplay.MergedPreset;
import panelbook.wire.MergerDraft;
import panelbook.wire.Preset;

/** Merges displays that were entered twice. */
@Service
class Mergers {

    private final JdbcClient jdbc;
    private final Duplicates fleet;
    private final Withdrawals runs;
    private final MatchWithdrawals matches;
    private final AmendmentJudge judge;
    private final MendingAnswers answers;
    private final Clock clock;

    Mergers(
            JdbcClient jdbc,
            Duplicates fleet,
            Withdrawals runs,
            MatchWithdrawals matches,
            AmendmentJudge judge,
            MendingAnswers answers,
            Clock clock) {
        this.jdbc = jdbc;
        this.fleet = fleet;
        this.runs = runs;
        this.matches = matches;
        this.judge = judge;
        this.answers = answers;
        this.clock = clock;
    }

    /** What passed from the one display to the other so far. */
    private static final class Passed {
        final List<StoredRun> withdrawn = new ArrayList<>();
        final List<Entered> entered = new ArrayList<>();
        final Map<UUID, UUID> runs = new HashMap<>();
        final Set<UUID> matches = new HashSet<>();
        final Set<UUID> presets = new LinkedHashSet<>();
        final Map<UUID, Integer> runsOf = new HashMap<>();
        final Map<UUID, Integer> matchesOf = new HashMap<>();
        final Set<UUID> heroes = new HashSet<>();
    }

    /**
     * Merges a duplicate into the display to keep, all or nothing; the same again is answered with the first answer.
     *
     * @throws Refusal when there is no such display, when the two cannot be one, or when presets have no counterpart
     */
    @Transactional
    Added<MergedDisplay> merge(UUID duplicateId, MergerDraft draft, Caller caller) {
        Withdrawals.reason(draft.reason());
        fleet.lock(duplicateId, draft.into());
        var duplicate = fleet.display(duplicateId);
        var before = mergedInto(duplicateId);
        if (before != null) {
            if (!before.equals(draft.into())) {
                throw Refusal.conflict("It was merged already, into "
                        + fleet.display(before).name() + " (" + before + "): nothing was changed.");
            }
            return new Added<>(answers.of(duplicateId, MergedDisplay.class), false);
        }
        var kept = keep(duplicate, draft.into());
        var from = fleet.presetsOf(duplicateId);
        var pairs = PresetPairs.of(from, fleet.presetsOf(draft.into()), draft.presets(), used(from));
        mustBeDone(duplicateId, pairs.keySet());
        judge.lock(new HashSet<>(concerned(pairs)));
        var reason = "\"" + duplicate.name() + "\" is the display \"" + kept.name() + "\": " + draft.reason();
        var passed = new Passed();
        passRuns(pairs, reason, caller, passed);
        passMatches(pairs, reason, caller, passed);
        pairs.forEach((old, preset) -> {
            if (fleet.passHeroes(old, preset)) {
                passed.heroes.add(old);
            }
        });
        return new Added<>(finish(duplicate, draft, from, pairs, passed, caller), true);
    }

    private MergedDisplay finish(
            Display duplicate,
            MergerDraft draft,
            List<Preset> from,
            Map<UUID, UUID> pairs,
            Passed passed,
            Caller caller) {
        var quirks = fleet.copyQuirks(duplicate.id(), draft.into());
        var hours = fleet.copyPanelHours(duplicate.id(), draft.into());
        fleet.copyControlRanges(duplicate.id(), draft.into());
        var now = Rows.kept(clock.instant());
        keep(duplicate.id(), draft, now, caller);
        var kept = fleet.display(draft.into());
        fleet.retire(duplicate.id(), shortened("Entered twice: it is \"" + kept.name() + "\". " + draft.reason()));
        passed.presets.addAll(pairs.values());
        var outcome = judge.judge(new Amendment(
                passed.withdrawn, passed.entered, passed.presets, passed.matches, draft.reason(), caller.holder()));
        outcome.verdicts().values().forEach(runs::keepAnswer);
        var to = new HashMap<UUID, Preset>();
        fleet.presetsOf(draft.into()).forEach(preset -> to.put(preset.id(), preset));
        var answer = new MergedDisplay(
                fleet.display(duplicate.id()),
                fleet.display(draft.into()),
                from.stream()
                        .filter(preset -> pairs.containsKey(preset.id()))
                        .map(preset -> merged(preset, Objects.requireNonNull(to.get(pairs.get(preset.id()))), passed))
                        .toList(),
                quirks,
                hours,
                draft.reason(),
                now,
                caller.holder(),
                outcome.judgedAnew(),
                outcome.alerts());
        answers.keep(duplicate.id(), answer);
        return answer;
    }

    private static MergedPreset merged(Preset from, Preset to, Passed passed) {
        return new MergedPreset(
                path(from),
                path(to),
                passed.runsOf.getOrDefault(from.id(), 0),
                passed.matchesOf.getOrDefault(from.id(), 0),
                passed.heroes.contains(from.id()));
    }

    private static String path(Preset preset) {
        var room = preset.room() == null ? "-" : preset.room();
        return preset.facility() + "/" + room + "/" + preset.display() + "/" + preset.name();
    }

    private static String shortened(String text) {
        return text.length() <= 10_000 ? text : text.substring(0, 10_000);
    }

    private Display keep(Display duplicate, UUID into) {
        if (duplicate.id().equals(into)) {
            throw Refusal.invalid("/into", "Must be another display than the duplicate.");
        }
        var kept = displayToKeep(into);
        if (kept.retiredAt() != null) {
            throw Refusal.invalid("/into", "\"" + kept.name() + "\" is retired: keep a display that is in use.");
        }
        if (!kept.facilityId().equals(duplicate.facilityId())) {
            throw Refusal.invalid(
                    "/into",
                    "\"" + kept.name() + "\" is of another facility: take the duplicate out of its room and edit its "
                            + "facility first.");
        }
        return kept;
    }

    private Display displayToKeep(UUID into) {
        try {
            return fleet.display(into);
        } catch (Refusal missing) {
            throw Refusal.invalid("/into", "There is no display " + into + ".");
        }
    }

    private @Nullable UUID mergedInto(UUID duplicateId) {
        return jdbc.sql("select into_id from display_merger where duplicate_id = :id")
                .param("id", duplicateId)
                .query(UUID.class)
                .optional()
                .orElse(null);
    }

    private void keep(UUID duplicateId, MergerDraft draft, java.time.Instant now, Caller caller) {
        jdbc.sql("""
                        insert into display_merger (duplicate_id, into_id, reason, merged_at, merged_by)
                        values (:id, :into, :reason, :now, :by)
                        """)
                .param("id", duplicateId)
                .param("into", draft.into())
                .param("reason", draft.reason())
                .param("now", Rows.at(now))
                .param("by", caller.holder())
                .update();
    }

    /** The presets that something in the book rests on. */
    private Set<UUID> used(List<Preset> presets) {
        return new HashSet<>(
                jdbc.sql("""
                        select p.id from preset p where p.id = any (:presets)
                          and (exists (select 1 from counted_run where preset_id = p.id)
                               or exists (select 1 from counted_match where follower_preset_id = p.id)
                               or exists (select 1 from counted_match where hero_preset_id = p.id)
                               or exists (select 1 from hero h where h.preset_id = p.id and upper_inf(h.during)))
                        """).param("presets", ids(presets)).query(UUID.class).list());
    }

    private static UUID[] ids(List<Preset> presets) {
        return presets.stream().map(Preset::id).toArray(UUID[]::new);
    }

    /** Refuses while a match is open on the duplicate, or a correction holds for it, since neither can pass by itself. */
    private void mustBeDone(UUID duplicateId, Collection<UUID> presets) {
        var open = jdbc.sql("""
                        select exists (select 1 from match_story s
                                       where (s.follower_preset_id = any (:presets) or s.hero_preset_id = any (:presets))
                                         and not exists (select 1 from match_given_up g where g.story_id = s.id)
                                         and not exists (select 1 from counted_match m where m.story_id = s.id))
                        """)
                .param("presets", presets.toArray(new UUID[0]))
                .query(Boolean.class)
                .single();
        if (open) {
            throw Refusal.conflict("A match is open on the duplicate: sign it off or give it up first.");
        }
        var corrected =
                jdbc.sql("""
                        select exists (select 1 from instrument_correction c where c.display_id = :display
                            and not exists (select 1 from instrument_correction_withdrawal w where w.correction_id = c.id))
                        """).param("display", duplicateId).query(Boolean.class).single();
        if (corrected) {
            throw Refusal.conflict("A correction of a meter was made for the duplicate: withdraw it first, and make it"
                    + " anew for the display to keep once they are merged.");
        }
    }

    /** All presets that the merger can touch: those of both displays, and the other halves of their matches. */
    private List<UUID> concerned(Map<UUID, UUID> pairs) {
        var both = new HashSet<>(pairs.keySet());
        both.addAll(pairs.values());
        return jdbc.sql("""
                        select unnest(:presets::uuid[]) union
                        select follower_preset_id from match where hero_preset_id = any (:presets) union
                        select hero_preset_id from match where follower_preset_id = any (:presets)
                        """)
                .param("presets", both.toArray(new UUID[0]))
                .query(UUID.class)
                .list();
    }

    private void passRuns(Map<UUID, UUID> pairs, String reason, Caller caller, Passed passed) {
        var counted = jdbc.sql("""
                        select id from counted_run where preset_id = any (:presets) order by taken_at, received_at, id
                        """)
                .param("presets", pairs.keySet().toArray(new UUID[0]))
                .query(UUID.class)
                .list();
        for (var id : counted) {
            var run = runs.lock(id).orElseThrow();
            var to = Objects.requireNonNull(pairs.get(run.presetId()));
            var replacement = runs.replace(run, to, "/presets", caller);
            runs.withdraw(run, shortened(reason), replacement.runId(), caller);
            passed.withdrawn.add(run);
            passed.runs.put(run.id(), replacement.runId());
            passed.runsOf.merge(run.presetId(), 1, Integer::sum);
            if (replacement.entered() != null) {
                passed.entered.add(replacement.entered());
            }
        }
    }

    private void passMatches(Map<UUID, UUID> pairs, String reason, Caller caller, Passed passed) {
        for (var match : matches.of(pairs.keySet())) {
            var follower = pairs.getOrDefault(match.followerPresetId(), match.followerPresetId());
            var hero = pairs.getOrDefault(match.heroPresetId(), match.heroPresetId());
            // the two entries of one display, matched to each other: there is nothing to enter again
            var stead =
                    follower.equals(hero) ? null : matches.enter(match, stead(match, follower, hero, passed), caller);
            matches.withdraw(match.id(), shortened(reason), stead, caller);
            passed.matches.add(match.id());
            passed.presets.addAll(List.of(match.followerPresetId(), match.heroPresetId(), follower, hero));
            passed.matchesOf.merge(
                    pairs.containsKey(match.followerPresetId()) ? match.followerPresetId() : match.heroPresetId(),
                    1,
                    Integer::sum);
        }
    }

    /** Closing runs pass along; where one was withdrawn before, the match is unmeasured. */
    private static Stead stead(Match match, UUID follower, UUID hero, Passed passed) {
        var ofFollower = closing(match.followerRunId(), !follower.equals(match.followerPresetId()), passed);
        var ofHero = closing(match.heroRunId(), !hero.equals(match.heroPresetId()), passed);
        return ofFollower == null || ofHero == null
                ? new Stead(follower, hero, match.operator(), null, null)
                : new Stead(follower, hero, match.operator(), ofFollower, ofHero);
    }

    private static @Nullable UUID closing(@Nullable UUID run, boolean passes, Passed passed) {
        return run == null || !passes ? run : passed.runs.get(run);
    }
}
