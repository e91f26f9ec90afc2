package panelbook.cli.command;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import java.util.concurrent.TimeUnit;
import org.jspecify.annotations.Nullable;
import panelbook.cli.match.KeptMatch;
import panelbook.cli.match.KeptStep;
import panelbook.cli.match.KeptStory;
import panelbook.cli.match.KeptStory.State;
import panelbook.cli.match.SaidStep;
import panelbook.cli.match.Sent;
import panelbook.cli.match.StepText;
import panelbook.cli.match.StepWords;
import panelbook.cli.service.Refused;
import panelbook.cli.service.Service;
import panelbook.cli.service.ServiceAway;
import panelbook.cli.terminal.ExitCode;
import panelbook.cli.terminal.Failure;
import panelbook.cli.terminal.Printer;
import panelbook.wire.Advice;
import panelbook.wire.GuardReport;
import panelbook.wire.Match;
import panelbook.wire.Restoration;
import panelbook.wire.StepAnswer;
import panelbook.wire.StepKind;
import panelbook.wire.StorySignOffDraft;
import panelbook.wire.Trim;
import panelbook.wire.TrimChange;
import panelbook.wire.TrimSuggestion;

/**
 * A match at the keyboard, a line at a time; what a session and the single commands share. Each step is on the disk before it
 * is answered.
 */
final class MatchTalk {

    // a host that swallows packets is not waited for at every step
    private static final long SLOW_NANOS = TimeUnit.SECONDS.toNanos(1);
    private static final long PAUSE_NANOS = TimeUnit.SECONDS.toNanos(30);

    private static final int ADVICE_AGAIN_AFTER = 6;

    private final Connection connection;
    private final Printer printer;
    private final KeptMatch match;
    private final KeptStory story;
    private final Asking asking;
    private final MatchReading reading;
    private final Map<String, Integer> adviceShown = new HashMap<>();
    private List<GuardReport> guardsShown = List.of();
    private boolean awaySaid;
    private long notBefore;
    private boolean refusedAtTheEnd;

    MatchTalk(Connection connection, Printer printer, KeptMatch match, Asking asking) {
        this.connection = connection;
        this.printer = printer;
        this.match = match;
        this.story = match.story();
        this.asking = asking;
        this.reading = new MatchReading(connection, story.opened());
    }

    /** Brings machine and service together, and says only what is amiss. */
    void beginQuietly() {
        var sent = send(true);
        tell(sent, null);
        tellEnd(sent);
        guardsShown = story.guards();
    }

    /** Brings machine and service together, and says where the match stands. */
    void begin() {
        var sent = send(true);
        tell(sent, null);
        tellEnd(sent);
        if (sent.stopped() == null) {
            fetchAdvice(connection);
        }
        if (!printer.isJson()) {
            var opened = story.opened();
            printer.line(opened.follower() + " to " + opened.hero() + " (" + opened.target() + ") for "
                    + opened.draft().operator());
            printer.line(stands());
            guards(story.guards()).forEach(printer::line);
        }
        guardsShown = story.guards();
    }

    private String stands() {
        var last = story.last();
        return (last == 0 ? "No step yet" : "Step " + last) + "; controls: " + StepText.settings(story.settings()) + "."
                + (story.allSent() ? "" : " " + unsentText() + ".");
    }

    private String unsentText() {
        var unsent = story.unsent().size();
        return !story.openingStored() && unsent == 0
                ? "The opening is not sent"
                : unsent + (unsent == 1 ? " step is" : " steps are") + " not sent";
    }

    /** Remembers the table of advice for when the service is away. */
    static void fetchAdvice(Connection connection) {
        try {
            connection.names().remembered().advice(connection.plainService().list(Advice.class, "/advice"));
            connection.names().remembered().save();
        } catch (Failure e) {
            return; // the table as last fetched does
        }
    }

    /** What stands before the cursor: number of the step to come, follower, and what is amiss. */
    String prompt() {
        var parts = story.opened().follower().split("/");
        var follower = parts.length < 2 ? parts[0] : parts[parts.length - 2] + "/" + parts[parts.length - 1];
        var unsent = story.unsent().size() + (story.openingStored() ? 0 : 1);
        return (story.last() + 1) + " " + follower
                + (unsent == 0 ? "" : ", " + unsent + " not sent")
                + (story.refused().isEmpty() ? "" : ", " + story.refused().size() + " refused")
                + (story.standingRefusals().isEmpty() ? "" : ", guard refuses")
                + "> ";
    }

    /** Whether the match goes on. */
    boolean goesOn() {
        return story.state() == State.OPEN || !story.refused().isEmpty();
    }

    /** Exit code as things stand: 3 while a guard refuses and nobody has let it stand. */
    int code() {
        var refuses = goesOn() && !story.standingRefusals().isEmpty();
        return refuses || refusedAtTheEnd ? ExitCode.BEYOND : ExitCode.DONE;
    }

    /**
     * Does what a line says; false when that was to leave.
     *
     * @throws Failure when it could not be done; the match is as it was
     */
    boolean line(String text) {
        var command = StepWords.command(text);
        if (command == null) {
            return true;
        }
        if (command.step() != null) {
            step(command.step());
            return true;
        }
        return other(command);
    }

    private boolean other(StepWords.Command command) {
        switch (command.word()) {
            case "show" -> show();
            case "where" -> where();
            case "suggest" -> suggest();
            case "restore" -> restore(command);
            case "send" -> sendNow();
            case "again" -> again();
            case "leave" -> leave();
            case "sign" -> sign(signWords(command.rest()));
            case "give" -> giveUp(command);
            case "help" -> MatchHelp.LINES.forEach(printer::line);
            default -> {
                return false;
            }
        }
        return goesOn();
    }

    /** Takes a step down, sends it if it can be sent, and shows it. */
    void step(SaidStep said) {
        match.check(said);
        var taken = said.kind() == StepKind.READING ? reading.take(said.run()) : null;
        var step = taken == null ? match.add(said, null, null) : match.add(said, taken.runId(), taken.ofHero());
        var sent = send(false);
        var id = step.draft().id();
        var stillThere =
                story.steps().stream().filter(s -> s.draft().id().equals(id)).findFirst();
        tell(sent, id);
        if (stillThere.isPresent()) {
            show(stillThere.get(), sent);
        } else if (sent.stopped() != null && story.refused().isEmpty()) {
            throw sent.stopped();
        }
    }

    private void show(KeptStep step, Sent sent) {
        var answer = sent.answers().stream()
                .filter(a -> a.step().id().equals(step.draft().id()))
                .findFirst();
        var guards = answer.map(StepAnswer::guards).orElse(List.of());
        var advice = answer.map(StepAnswer::advice).orElseGet(() -> adviceHere(step));
        var shown = new MatchText.StepShown(
                step.number(),
                step.words(),
                step.fate() == KeptStep.Fate.STORED,
                story.settingsAfter(step.number()),
                printer.isJson() ? advice : notJustSaid(advice, step.number()),
                printer.isJson() ? guards : fresh(guards));
        if (answer.isPresent()) {
            guardsShown = guards;
        }
        if (printer.isJson()) {
            printer.streamed(MatchText.StepShown.class, shown, List.of());
        } else {
            shown.lines().forEach(printer::line);
        }
    }

    private List<String> adviceHere(KeptStep step) {
        var trim = step.draft().trim();
        var standsAt = trim == null ? 0 : story.clicks(trim.control(), trim.level());
        return MatchAdvice.of(connection.names().remembered().advice(), step.draft(), standsAt);
    }

    // advice that comes at every step is not read at any
    private List<String> notJustSaid(List<String> advice, int number) {
        var fresh = advice.stream()
                .filter(text -> number - adviceShown.getOrDefault(text, -ADVICE_AGAIN_AFTER) >= ADVICE_AGAIN_AFTER)
                .toList();
        fresh.forEach(text -> adviceShown.put(text, number));
        return fresh;
    }

    // what was said of a guard is not said again at every step; the prompt reminds of it
    private List<GuardReport> fresh(List<GuardReport> guards) {
        return guards.stream().filter(g -> !guardsShown.contains(g)).toList();
    }

    private static List<String> guards(List<GuardReport> guards) {
        return guards.stream().map(MatchText::guard).toList();
    }

    private Sent send(boolean now) {
        if (!now && System.nanoTime() - notBefore < 0) {
            return new Sent(null, List.of(), List.of(), null, null, null);
        }
        var start = System.nanoTime();
        sendSpool();
        var sent = match.send(connection.plainService(), reading::waits);
        if (sent.stopped() instanceof ServiceAway && System.nanoTime() - start > SLOW_NANOS) {
            notBefore = System.nanoTime() + PAUSE_NANOS;
        }
        return sent;
    }

    private void sendSpool() {
        connection.leaveSpool();
        if (connection.spool().isEmpty()) {
            return;
        }
        var outcome = SpoolSending.send(connection, connection.logIn().service());
        if (!(outcome.sending().stopped() instanceof ServiceAway)) {
            SpoolSending.report(connection, outcome.sending());
        }
    }

    /** Tells what a sending did besides the step at hand. */
    private void tell(Sent sent, @Nullable UUID atHand) {
        sent.news().forEach(printer::say);
        var late = sent.answers().stream()
                .filter(a -> !a.step().id().equals(atHand))
                .toList();
        if (!late.isEmpty()) {
            printer.say("Sent " + late.size() + (late.size() == 1 ? " step" : " steps") + " that waited.");
            guards(fresh(late.get(late.size() - 1).guards())).forEach(printer::say);
        }
        if (sent.opened() != null) {
            printer.say("The service has the opening.");
            MatchText.conditions(sent.opened().conditions()).forEach(printer::say);
        }
        var stopped = sent.stopped();
        if (stopped == null) {
            awaySaid = false;
        } else if (atHand == null
                || story.steps().stream().anyMatch(s -> s.draft().id().equals(atHand))) {
            sayStopped(stopped);
        }
    }

    private void sayStopped(Failure stopped) {
        if (!(stopped instanceof ServiceAway)) {
            printer.say(stopped.text());
        } else if (!awaySaid) {
            awaySaid = true;
            printer.say(stopped.text() + " The match goes on: what you type is kept here and sent when it is back.");
        }
    }

    /** Tells of an end that went out late. */
    private void tellEnd(Sent sent) {
        if (sent.refusedEnd() != null) {
            printer.say("The match is not over: " + sent.refusedEnd().text());
        } else if (sent.signed() != null) {
            tellSigned(sent.signed());
        } else if (story.state() == State.CLOSED && sent.news().isEmpty()) {
            printer.say("The match is over: it was " + story.word() + ".");
        } else if (story.state() == State.ENDING) {
            printer.say("Its end is kept here and goes out when the service is back.");
        }
    }

    // with --json what is printed is JSON only
    private void told(String text) {
        if (printer.isJson()) {
            printer.say(text);
        } else {
            printer.line(text);
        }
    }

    private void sendNow() {
        awaySaid = false;
        var sent = send(true);
        tell(sent, null);
        tellEnd(sent);
        told(story.allSent() ? "Everything is sent." : unsentText() + ".");
    }

    private void again() {
        if (story.state() != State.OPEN) {
            throw Failure.failed(
                    "The match is over, so nothing can be added to it. Type leave to leave these steps out.");
        }
        var count = match.addAgain();
        tell(send(true), null);
        told(count + (count == 1 ? " step" : " steps") + " added again. " + stands());
    }

    private void leave() {
        var count = match.leave();
        tell(send(true), null);
        told(count + (count == 1 ? " step" : " steps") + " left out; the journal on this machine keeps them.");
    }

    private void show() {
        var rows = MatchText.rows(story, story.guards());
        printer.list(MatchText.Row.class, rows, MatchText.rows().columns());
    }

    private void where() {
        if (printer.isJson()) {
            printer.printJson(story.settings());
            return;
        }
        printer.line(stands());
        guards(story.guards()).forEach(printer::line);
    }

    private void suggest() {
        var draft = story.opened().draft();
        if (!story.unsent().isEmpty()) {
            printer.say(unsentText() + ", and the suggestion knows nothing of that.");
        }
        suggestion(
                connection.plainService(),
                printer,
                draft.followerPresetId(),
                draft.heroPresetId(),
                draft.operator(),
                story.id());
    }

    /** Shows the trims that the service suggests. */
    static void suggestion(
            Service service, Printer printer, UUID follower, UUID hero, String operator, @Nullable UUID story) {
        var path = Service.with("/trim-suggestions?follower=" + follower + "&hero=" + hero, "operator", operator);
        var suggestion =
                service.get(TrimSuggestion.class, Service.with(path, "story", story == null ? null : story.toString()));
        if (printer.isJson()) {
            printer.one(TrimSuggestion.class, suggestion, List.of());
            return;
        }
        printer.list(TrimChange.class, suggestion.changes(), MatchText.changes().columns());
        MatchText.below(suggestion).forEach(printer::line);
    }

    private void restore(StepWords.Command command) {
        if (!command.text().matches("\\d{1,6}")) {
            throw Failure.usage("Type restore N, with the number of a step, 0 for how it began.");
        }
        var number = Integer.parseInt(command.text());
        if (number > story.last()) {
            throw Failure.usage("There is no step " + number + " yet; the last one is " + story.last() + ".");
        }
        showRestoration(printer, restoration(story, number));
        printer.say("When the display stands so, type: back " + number);
    }

    static void showRestoration(Printer printer, Restoration restoration) {
        if (printer.isJson()) {
            printer.one(Restoration.class, restoration, List.of());
            return;
        }
        printer.list(
                TrimChange.class, restoration.changes(), MatchText.changes().columns());
        MatchText.restoration(restoration).forEach(printer::line);
    }

    /** What to set to get back, from what this machine knows. */
    static Restoration restoration(KeptStory story, int number) {
        var to = story.settingsAfter(number);
        var words = number == 0
                ? "as the match began"
                : "after step " + number + ", " + story.steps().get(number - 1).words();
        var last = story.last();
        return new Restoration(
                story.id(),
                number,
                story.opened().follower(),
                words,
                last == 0 ? "as the match began" : "after step " + last,
                changes(story.settings(), to));
    }

    private static List<TrimChange> changes(List<Trim> from, List<Trim> to) {
        var all = new ArrayList<>(from);
        all.addAll(to);
        var seen = new HashSet<String>();
        return all.stream()
                .filter(t -> seen.add(t.control() + "@" + t.level()))
                .map(t -> new TrimChange(t.control(), t.level(), clicks(from, t), clicks(to, t)))
                .toList();
    }

    private static int clicks(List<Trim> settings, Trim of) {
        return settings.stream()
                .filter(t -> t.control().equals(of.control()) && t.level().equals(of.level()))
                .mapToInt(Trim::clicks)
                .findFirst()
                .orElse(0);
    }

    private SignWords signWords(List<String> words) {
        return words.isEmpty() ? asked() : SignWords.of(words);
    }

    private SignWords asked() {
        var material = asking.ask("What was looked at (several shots are better than one)? ");
        if (material == null) {
            return SignWords.of(List.of());
        }
        var remarks = asking.ask("Remarks? ");
        for (var ofHero : new boolean[] {false, true}) {
            if (story.closingRun(ofHero) == null) {
                var file = asking.ask("File of the closing run of the " + (ofHero ? "hero" : "follower")
                        + " (empty: sign without closing runs, unmeasured)? ");
                if (file == null || file.isBlank()) {
                    return new SignWords(null, null, given(material), given(remarks), true);
                }
                step(StepWords.step("read " + file));
            }
        }
        return new SignWords(null, null, given(material), given(remarks), false);
    }

    private static @Nullable String given(@Nullable String answer) {
        return answer == null || answer.isBlank() ? null : answer.strip();
    }

    /** The operator accepts. */
    void sign(SignWords words) {
        var draft = new StorySignOffDraft(
                UUID.randomUUID(),
                words.unmeasured() ? null : closing(words.followerRun(), false),
                words.unmeasured() ? null : closing(words.heroRun(), true),
                words.material(),
                words.remarks(),
                match.now().truncatedTo(java.time.temporal.ChronoUnit.MILLIS));
        match.signOff(draft);
        var sent = send(true);
        tell(sent, null);
        checkEnd(sent);
        var signed = sent.signed();
        if (signed != null) {
            tellSigned(signed);
        } else {
            printer.say("The sign-off is kept here and goes out when the service is back: panelbook match session "
                    + story.id());
        }
    }

    private void tellSigned(Match signed) {
        printer.one(Match.class, signed, Views.matches().fields());
        printer.say((signed.measured() ? "Signed off" : "Signed off, unmeasured") + ": " + signed.follower() + " to "
                + signed.hero() + " for " + signed.operator() + ". To get back to it: panelbook match restore "
                + signed.id());
    }

    private UUID closing(@Nullable UUID given, boolean ofHero) {
        var run = given != null ? given : story.closingRun(ofHero);
        if (run == null) {
            throw Failure.failed("There is no reading of the "
                    + (ofHero ? "hero" : "follower as its controls stand now")
                    + ". Take one and type read FILE, name the runs, or sign --unmeasured: then no residual is judged against"
                    + " this match.");
        }
        return run;
    }

    private void giveUp(StepWords.Command command) {
        var words = command.rest();
        if (words.size() < 2 || !words.get(0).equals("up")) {
            throw Failure.usage("Type give up REASON; the reason stays on the record.");
        }
        giveUp(String.join(" ", words.subList(1, words.size())));
    }

    /** The match is given up. */
    void giveUp(String reason) {
        match.giveUp(reason);
        var sent = send(true);
        tell(sent, null);
        checkEnd(sent);
        printer.say(
                story.state() == State.CLOSED
                        ? "Given up. What was tried is kept: panelbook match story " + story.id()
                        : "That it is given up is kept here and goes out when the service is back.");
    }

    private void checkEnd(Sent sent) {
        var refused = sent.refusedEnd();
        if (refused != null) {
            refusedAtTheEnd = refused instanceof Refused r && r.status() == 409;
            throw refused;
        }
    }

    /** Whether the last refusal was one of what the controls show, rather than of how it was asked. */
    boolean refusedAtTheEnd() {
        return refusedAtTheEnd;
    }
}
