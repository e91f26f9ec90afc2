package panelbook.cli.match;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.UUID;
import java.util.function.Predicate;
import org.jspecify.annotations.Nullable;
import panelbook.cli.match.KeptStory.State;
import panelbook.cli.service.Service;
import panelbook.cli.terminal.Failure;
import panelbook.wire.MatchStory;
import panelbook.wire.StepDraft;
import panelbook.wire.StepKind;
import panelbook.wire.StorySignOffDraft;
import panelbook.wire.Trim;

/**
 * A match under way on this machine. Whatever is added is in the journal, on the disk, before the call returns; sending is
 * another matter, and may fail as often as it likes.
 */
public final class KeptMatch implements AutoCloseable {

    private final Journal journal;
    private final Clock written;
    private final Clock happened;
    private final KeptStory story = new KeptStory();
    private boolean agreesWithService;

    private KeptMatch(Journal journal, Clock written, Clock happened) {
        this.journal = journal;
        this.written = written;
        this.happened = happened;
        journal.lines().forEach(story::apply);
    }

    /** Opens a match: the opening is on the disk when this returns. */
    static KeptMatch open(Path folder, Clock written, Clock happened, Opened opened) {
        var match = new KeptMatch(Journal.open(folder, opened.draft().id()), written, happened);
        match.write(Line.opening(match.moment(), opened));
        return match;
    }

    /** Takes up a match again. */
    static KeptMatch resume(Path folder, Clock written, Clock happened, UUID id) {
        var match = new KeptMatch(Journal.open(folder, id), written, happened);
        if (!match.story.hasOpening()) {
            match.journal.retire(); // killed before the opening was written: nobody was told that there is a match
            match.close();
            throw Failure.failed("Match " + id + " was never opened. Next: panelbook match open --help");
        }
        return match;
    }

    /** Takes up a match that was begun on another machine. */
    static KeptMatch takeOver(Path folder, Clock written, Clock happened, String service, MatchStory from) {
        var match = new KeptMatch(Journal.open(folder, from.id()), written, happened);
        if (!match.story.hasOpening()) {
            match.write(Line.opening(match.moment(), Opened.of(service, from)));
            match.write(Line.about(Line.Kind.OPENED, match.moment(), null, null));
        }
        return match;
    }

    static boolean isKept(Path folder, UUID id) {
        return Files.exists(Journal.file(folder, id));
    }

    /** The story as this machine knows it. */
    public KeptStory story() {
        return story;
    }

    /** The moment to stamp the next thing with that happens in the room. */
    public Instant now() {
        return happened.instant();
    }

    /** The moment to stamp a line of the journal with. */
    Instant moment() {
        return written.instant();
    }

    Path file() {
        return journal.file();
    }

    void write(Line line) {
        journal.append(line);
        story.apply(line);
    }

    /** What stands in the way of a step, said before anything else is done for it. */
    public void check(SaidStep said) {
        if (story.state() != State.OPEN) {
            throw Failure.failed("This match is over; nothing can be added. Next: panelbook match open --help");
        }
        draft(said, null, Instant.EPOCH);
    }

    /**
     * Adds a step; it is on the disk when this returns.
     *
     * @param runId for a reading: its run
     * @param ofHero for a reading: whether it is of the hero
     */
    public KeptStep add(SaidStep said, @Nullable UUID runId, @Nullable Boolean ofHero) {
        check(said);
        var draft = draft(said, runId, now().truncatedTo(ChronoUnit.MILLIS));
        write(Line.step(moment(), draft, ofHero));
        return story.steps().get(story.steps().size() - 1);
    }

    private StepDraft draft(SaidStep said, @Nullable UUID runId, Instant at) {
        var isOverride = said.kind() == StepKind.OVERRIDE;
        return new StepDraft(
                UUID.randomUUID(),
                story.last() + 1,
                said.kind(),
                said.observation(),
                said.kind() == StepKind.TRIM ? trim(said) : null,
                verdict(said),
                runId,
                said.kind() == StepKind.RETURN ? returnTo(said) : null,
                isOverride ? said.control() : null,
                isOverride ? said.level() : null,
                said.note(),
                at);
    }

    private panelbook.wire.@Nullable OperatorVerdict verdict(SaidStep said) {
        if (said.kind() == StepKind.VERDICT
                && story.steps().stream().noneMatch(s -> s.draft().kind() == StepKind.TRIM)) {
            throw Failure.usage("Nothing was trimmed yet, so there is nothing to be " + said.verdict()
                    + ". What was seen goes into: saw LOOK PLACE");
        }
        return said.verdict();
    }

    private Trim trim(SaidStep said) {
        var control = String.valueOf(said.control());
        var level = String.valueOf(said.level());
        var change = said.absolute() ? said.clicks() - story.clicks(control, level) : said.clicks();
        if (change == 0) {
            throw Failure.usage(
                    StepText.control(control, level) + " stands at " + StepText.clicks(said.clicks()) + " already.");
        }
        return new Trim(control, level, change);
    }

    private int returnTo(SaidStep said) {
        var to = said.returnTo() == null ? story.beforeLastTrim() : said.returnTo();
        if (to == null) {
            throw Failure.usage("There is no trim to go back on.");
        }
        if (to > story.last()) {
            throw Failure.usage("There is no step " + to + " yet; the last one is " + story.last() + ".");
        }
        return to;
    }

    /** Adds every refused step anew at the end, in the order typed; how many comes back. */
    public int addAgain() {
        var refused = story.refused();
        for (var step : refused) {
            var old = step.draft();
            var to = old.returnTo();
            write(Line.step(
                    moment(),
                    new StepDraft(
                            UUID.randomUUID(),
                            story.last() + 1,
                            old.kind(),
                            old.observation(),
                            old.trim(),
                            old.verdict(),
                            old.runId(),
                            to == null ? null : (Integer) Math.min(to, story.last()),
                            old.control(),
                            old.level(),
                            old.note(),
                            old.at()),
                    step.ofHero()));
            write(Line.about(Line.Kind.LEFT, moment(), old.id(), "added again"));
        }
        return refused.size();
    }

    /** Leaves every refused step at that; how many comes back. They stay in the journal. */
    public int leave() {
        var refused = story.refused();
        refused.forEach(
                step -> write(Line.about(Line.Kind.LEFT, moment(), step.draft().id(), null)));
        return refused.size();
    }

    /** The operator accepts; it is on the disk when this returns. */
    public void signOff(StorySignOffDraft draft) {
        checkEnding();
        write(Line.signOff(moment(), draft));
    }

    /** The match is given up; it is on the disk when this returns. */
    public void giveUp(String reason) {
        checkEnding();
        write(Line.about(Line.Kind.GIVING_UP, moment(), null, reason));
    }

    private void checkEnding() {
        if (story.state() != State.OPEN) {
            throw Failure.failed("This match is over already.");
        }
        if (!story.refused().isEmpty()) {
            throw Failure.failed(
                    "There are steps that the service refused. Type again to add them anew, or leave to leave"
                            + " them out; then end the match.");
        }
    }

    /**
     * Sends what the service does not have, in order, and takes in what it has from elsewhere. Never fails because of the
     * service: what could not be done is in the result.
     *
     * @param runWaits whether a run still waits on this machine to be sent
     */
    public Sent send(Service service, Predicate<UUID> runWaits) {
        var sending = new Sending(this, service, runWaits, agreesWithService);
        var sent = sending.all();
        agreesWithService = sent.stopped() == null && sent.refusedEnd() == null;
        return sent;
    }

    @Override
    public void close() {
        if (story.state() == State.CLOSED && story.refused().isEmpty()) {
            journal.retire();
        }
        journal.close();
    }
}
