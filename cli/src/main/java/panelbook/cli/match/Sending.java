package panelbook.cli.match;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.UUID;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import panelbook.cli.match.KeptStep.Fate;
import panelbook.cli.match.KeptStory.State;
import panelbook.cli.service.Refused;
import panelbook.cli.service.Service;
import panelbook.cli.service.ServiceAway;
import panelbook.cli.terminal.Failure;
import panelbook.wire.GivingUp;
import panelbook.wire.Match;
import panelbook.wire.MatchStep;
import panelbook.wire.MatchStory;
import panelbook.wire.StepAnswer;
import panelbook.wire.StepKind;
import panelbook.wire.StoryState;

/** One sending of what a match has and the service has not. */
final class Sending {

    private static final int NOT_FOUND = 404;
    private static final int CONFLICT = 409;
    private static final int MOST_LISTED = 3;

    private final KeptMatch match;
    private final KeptStory story;
    private final Service service;
    private final Predicate<UUID> runWaits;
    private final List<StepAnswer> answers = new ArrayList<>();
    private final List<String> news = new ArrayList<>();
    private boolean agrees;
    private @Nullable MatchStory opened;
    private @Nullable Match signed;
    private @Nullable Failure refusedEnd;

    /** A sending; {@code agrees} says that the last one found journal and service alike. */
    Sending(KeptMatch match, Service service, Predicate<UUID> runWaits, boolean agrees) {
        this.match = match;
        this.story = match.story();
        this.service = service;
        this.runWaits = runWaits;
        this.agrees = agrees;
    }

    Sent all() {
        @Nullable Failure stopped = null;
        try {
            mustBeOpened();
            open();
            if (!agrees) {
                reconcile();
            }
            steps();
            end();
        } catch (Failure e) {
            stopped = e;
        }
        return new Sent(opened, List.copyOf(answers), List.copyOf(news), signed, stopped, refusedEnd);
    }

    private void mustBeOpened() {
        if (story.state() == State.NOT_OPENED) {
            throw Failure.failed("The service refused to open this match: " + story.word()
                    + " Its steps stay on this machine, in " + match.file() + ".");
        }
    }

    private void open() {
        if (story.openingStored()) {
            return;
        }
        try {
            opened = service.post(
                            MatchStory.class, "/match-stories", story.opened().draft())
                    .value();
            match.write(Line.about(Line.Kind.OPENED, match.moment(), null, null));
        } catch (Refused e) {
            if (isTheSenders(e)) {
                throw e;
            }
            match.write(Line.about(Line.Kind.NOT_OPENED, match.moment(), null, whole(e)));
            if (!story.unsent().isEmpty()) {
                mustBeOpened();
            }
            throw e;
        }
    }

    private static boolean isTheSenders(Refused e) {
        return e.status() == 401 || e.status() == 403;
    }

    private static String whole(Failure e) {
        return e.places().isEmpty() ? e.text() : e.text() + " " + String.join("; ", e.places());
    }

    private String path() {
        return "/match-stories/" + story.id();
    }

    private MatchStory fetched() {
        try {
            return service.get(MatchStory.class, path());
        } catch (Refused e) {
            if (e.status() != NOT_FOUND) {
                throw e;
            }
            // its database was set back to a time before the opening: what this machine has is sent again
            service.post(MatchStory.class, "/match-stories", story.opened().draft());
            return service.get(MatchStory.class, path());
        }
    }

    /** Brings the journal in line with what the service has. */
    private void reconcile() {
        if (story.state() == State.CLOSED) {
            return;
        }
        var theirs = fetched();
        var unknown = theirs.steps().stream()
                .filter(step -> !story.knows(step.id()))
                .sorted(Comparator.comparingInt(MatchStep::number))
                .toList();
        noteStored(theirs);
        if (!unknown.isEmpty()) {
            setAsideUnsent("The place of this step was taken on another machine: " + listed(unknown) + ".");
            unknown.forEach(this::takeIn);
            tellTakenIn(unknown);
        }
        sendAgainWhatWasLost(theirs);
        story.guards(theirs.guards());
        if (theirs.state() != StoryState.OPEN) {
            closed(theirs);
        }
        agrees = true;
    }

    private static String listed(List<MatchStep> steps) {
        return steps.stream()
                .map(s -> s.number() + " " + StepText.of(KeptStory.draft(s), s.ofHero()) + " (" + s.recordedBy() + ")")
                .collect(Collectors.joining("; "));
    }

    // their answers were lost on the way
    private void noteStored(MatchStory theirs) {
        var ids = new HashSet<UUID>();
        theirs.steps().forEach(step -> ids.add(step.id()));
        story.unsent().stream()
                .filter(step -> ids.contains(step.draft().id()))
                .forEach(step ->
                        match.write(Line.stored(match.moment(), step.draft().id(), theirs.guards())));
    }

    // the last first, so that none of them changes its number
    private void setAsideUnsent(String why) {
        var unsent = new ArrayList<>(story.unsent());
        java.util.Collections.reverse(unsent);
        for (var step : unsent) {
            match.write(
                    Line.about(Line.Kind.REFUSED, match.moment(), step.draft().id(), why));
        }
        if (!unsent.isEmpty()) {
            news.add(why + " Not in the record, but kept here: "
                    + story.refused().stream().map(KeptStep::words).collect(Collectors.joining("; "))
                    + ". Type again to add them anew at the end, or leave to leave them out.");
        }
    }

    private void takeIn(MatchStep step) {
        match.write(Line.takenIn(match.moment(), KeptStory.draft(step), step.ofHero(), step.recordedBy()));
    }

    private void tellTakenIn(List<MatchStep> unknown) {
        news.add(
                unknown.size() > MOST_LISTED
                        ? "Taken in " + unknown.size() + " steps from another machine; show lists them."
                        : "Taken in from another machine: " + listed(unknown) + ".");
    }

    // a service that was set back to an earlier backup gets the later steps once more
    private void sendAgainWhatWasLost(MatchStory theirs) {
        var last = theirs.steps().size();
        story.steps().stream()
                .filter(step -> step.fate() == Fate.STORED && step.number() > last)
                .forEach(step -> match.write(Line.step(match.moment(), step.draft(), step.ofHero())));
    }

    private void closed(MatchStory theirs) {
        var end = theirs.state() == StoryState.SIGNED ? "signed off" : "given up";
        var ours = story.state() == State.ENDING;
        setAsideUnsent("The match was " + end + " before this step arrived.");
        match.write(Line.about(Line.Kind.CLOSED, match.moment(), null, end));
        signed = ours ? theirs.signOff() : null;
        if (!ours) {
            news.add("The match was " + end + " on another machine.");
        }
    }

    private void steps() {
        while (story.refused().isEmpty() && !story.unsent().isEmpty()) {
            var step = story.unsent().get(0);
            var run = step.draft().runId();
            if (step.draft().kind() == StepKind.READING && run != null && runWaits.test(run)) {
                throw Failure.failed("Step " + step.number()
                        + " waits for its run, which is still in the spool. Next: panelbook spool send");
            }
            send(step);
        }
        if (!story.refused().isEmpty()) {
            throw Failure.failed("Steps that the service refused are in the way: "
                    + story.refused().stream().map(KeptStep::words).collect(Collectors.joining("; "))
                    + ". Type again to add them anew at the end, or leave to leave them out.");
        }
    }

    private void send(KeptStep step) {
        try {
            var answer = service.post(StepAnswer.class, path() + "/steps", step.draft())
                    .value();
            match.write(Line.stored(match.moment(), step.draft().id(), answer.guards()));
            answers.add(answer);
            compare(step, answer);
        } catch (Refused e) {
            if (isTheSenders(e)) {
                throw e;
            }
            if (e.status() == CONFLICT && conflictIsTheirs(step)) {
                return;
            }
            refuse(step, e);
        }
    }

    private void compare(KeptStep step, StepAnswer answer) {
        var here = StepText.settings(story.settingsAfter(step.number()));
        var there = StepText.settings(answer.settings().stream()
                .sorted(Comparator.comparing(panelbook.wire.Trim::control).thenComparing(panelbook.wire.Trim::level))
                .toList());
        if (!here.equals(there)) {
            news.add("After step " + step.number() + " the service takes the controls to stand at " + there
                    + ", this machine at " + here + ". Look at the display, and set it right with trims.");
        }
    }

    // whether the service has gone on without this machine, so that the step was not at fault
    private boolean conflictIsTheirs(KeptStep step) {
        var before = story.steps();
        agrees = false;
        reconcile();
        return !before.equals(story.steps())
                || story.state() == State.CLOSED
                || !story.unsent().contains(step);
    }

    // alone, whoever typed it hears of it at once; with others behind it, which may rest on it, a person must decide
    private void refuse(KeptStep step, Refused e) {
        var alone = story.unsent().size() == 1;
        match.write(Line.about(Line.Kind.REFUSED, match.moment(), step.draft().id(), whole(e)));
        if (alone) {
            match.write(Line.about(Line.Kind.LEFT, match.moment(), step.draft().id(), null));
            throw Failure.failed("Not taken down: " + step.words() + ". " + whole(e), e);
        }
        news.add("Step " + step.number() + " was refused: " + step.words() + ". " + whole(e));
    }

    private void end() {
        if (story.state() != State.ENDING) {
            return;
        }
        try {
            var signOff = story.signOff();
            if (signOff != null) {
                signed =
                        service.post(Match.class, path() + "/sign-off", signOff).value();
                match.write(Line.about(Line.Kind.CLOSED, match.moment(), null, "signed off"));
            } else {
                service.post(MatchStory.class, path() + "/giving-up", new GivingUp(String.valueOf(story.givingUp())));
                match.write(Line.about(Line.Kind.CLOSED, match.moment(), null, "given up"));
            }
        } catch (ServiceAway e) {
            throw e;
        } catch (Refused e) {
            endRefused(e);
        }
    }

    private void endRefused(Refused e) {
        if (isTheSenders(e)) {
            throw e;
        }
        reconcile(); // a lost answer: it may have ended after all
        if (story.state() == State.CLOSED) {
            return;
        }
        match.write(Line.about(Line.Kind.NOT_ENDED, match.moment(), null, whole(e)));
        refusedEnd = e;
    }
}
