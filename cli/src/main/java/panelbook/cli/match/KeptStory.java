package panelbook.cli.match;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import panelbook.cli.match.KeptStep.Fate;
import panelbook.wire.GuardDecision;
import panelbook.wire.GuardReport;
import panelbook.wire.MatchStep;
import panelbook.wire.MatchStory;
import panelbook.wire.StepDraft;
import panelbook.wire.StepKind;
import panelbook.wire.StorySignOffDraft;
import panelbook.wire.Trim;

/**
 * The story of one match, made by reading the lines of its journal in order. The same lines give the same story: there is
 * no other state.
 */
public final class KeptStory {

    /** How far it has come, as far as this machine knows. */
    public enum State {
        /** Under way. */
        OPEN,
        /** The service refused to open it. */
        NOT_OPENED,
        /** The operator accepted, or it was given up, and the service does not have that yet. */
        ENDING,
        /** The service closed it. */
        CLOSED
    }

    private final List<KeptStep> steps = new ArrayList<>();
    private final List<KeptStep> setAside = new ArrayList<>();
    private @Nullable Opened opened;
    private boolean openingStored;
    private State state = State.OPEN;
    private @Nullable String word;
    private @Nullable StorySignOffDraft signOff;
    private @Nullable String givingUp;
    private List<GuardReport> guards = List.of();

    /** The story as the service has it. */
    public static KeptStory of(String service, MatchStory story) {
        var kept = new KeptStory();
        kept.apply(Line.opening(story.openedAt(), Opened.of(service, story)));
        kept.apply(Line.about(Line.Kind.OPENED, story.openedAt(), null, null));
        for (var step : story.steps()) {
            kept.apply(Line.takenIn(step.at(), draft(step), step.ofHero(), step.recordedBy()));
        }
        kept.guards = story.guards();
        return kept;
    }

    static StepDraft draft(MatchStep step) {
        return new StepDraft(
                step.id(),
                step.number(),
                step.kind(),
                step.observation(),
                step.trim(),
                step.verdict(),
                step.runId(),
                step.returnTo(),
                step.control(),
                step.level(),
                step.note(),
                step.at());
    }

    void apply(Line line) {
        switch (line.what()) {
            case OPENING -> opened = line.opened();
            case OPENED -> openingStored = true;
            case NOT_OPENED -> end(State.NOT_OPENED, line.text());
            case STEP -> takeIn(new KeptStep(needed(line.step()), line.ofHero(), Fate.UNSENT, null));
            case TAKEN_IN -> takeIn(new KeptStep(needed(line.step()), line.ofHero(), Fate.STORED, line.text()));
            case STORED -> {
                replace(needed(line.id()), Fate.STORED, null);
                guards = line.guards() == null ? guards : line.guards();
            }
            case REFUSED -> refuse(needed(line.id()), line.text());
            case LEFT -> leave(needed(line.id()));
            case SIGN_OFF -> {
                signOff = line.signOff();
                state = State.ENDING;
            }
            case GIVING_UP -> {
                givingUp = line.text();
                state = State.ENDING;
            }
            case NOT_ENDED -> {
                signOff = null;
                givingUp = null;
                state = State.OPEN;
            }
            case CLOSED -> end(State.CLOSED, line.text());
        }
    }

    private void end(State now, @Nullable String why) {
        state = now;
        word = why;
    }

    private static <T> T needed(@Nullable T part) {
        return Objects.requireNonNull(part, "a line of the journal lacks its part");
    }

    private void takeIn(KeptStep step) {
        steps.removeIf(s -> s.draft().id().equals(step.draft().id()));
        steps.add(step);
        steps.sort(Comparator.comparingInt(KeptStep::number));
    }

    private void replace(UUID id, Fate now, @Nullable String why) {
        steps.replaceAll(s -> s.draft().id().equals(id) ? s.with(now, why) : s);
    }

    private void refuse(UUID id, @Nullable String why) {
        for (var i = 0; i < steps.size(); i++) {
            var step = steps.get(i);
            if (step.draft().id().equals(id)) {
                steps.remove(i);
                setAside.add(step.with(Fate.REFUSED, why));
                closeGap(i, step.number());
                return;
            }
        }
    }

    // what follows was never sent, since steps go out in order: its numbers are free to change
    private void closeGap(int from, int gap) {
        for (var i = from; i < steps.size(); i++) {
            if (steps.get(i).fate() == Fate.UNSENT) {
                steps.set(i, steps.get(i).afterLossOf(gap));
            }
        }
    }

    private void leave(UUID id) {
        setAside.replaceAll(s -> s.draft().id().equals(id) ? s.with(Fate.LEFT, s.text()) : s);
    }

    void guards(List<GuardReport> now) {
        guards = now;
    }

    /** The opening. */
    public Opened opened() {
        return Objects.requireNonNull(opened, "a journal begins with the opening");
    }

    /** Id of the match. */
    public UUID id() {
        return opened().draft().id();
    }

    boolean hasOpening() {
        return opened != null;
    }

    /** Whether the service has the opening. */
    public boolean openingStored() {
        return openingStored;
    }

    /** How far it has come. */
    public State state() {
        return state;
    }

    /** What became of it, once it is closed or was not opened. */
    public @Nullable String word() {
        return word;
    }

    /** The sign-off that the service does not have yet. */
    @Nullable
    StorySignOffDraft signOff() {
        return signOff;
    }

    /** Why it is given up, while the service does not know. */
    @Nullable
    String givingUp() {
        return givingUp;
    }

    /** Steps that count, by number. */
    public List<KeptStep> steps() {
        return List.copyOf(steps);
    }

    /** Steps that the service refused and that nobody has looked after yet, in the order typed. */
    public List<KeptStep> refused() {
        return setAside.stream()
                .filter(s -> s.fate() == Fate.REFUSED)
                .sorted(Comparator.comparing((KeptStep s) -> s.draft().at()).thenComparing(KeptStep::number))
                .toList();
    }

    /** Steps that the service does not have yet. */
    public List<KeptStep> unsent() {
        return steps.stream().filter(s -> s.fate() == Fate.UNSENT).toList();
    }

    /** Whether the service has all of it. */
    public boolean allSent() {
        return openingStored && unsent().isEmpty() && state != State.ENDING;
    }

    /** Whether a step of that id is here, whatever became of it. */
    boolean knows(UUID id) {
        return steps.stream().anyMatch(s -> s.draft().id().equals(id));
    }

    /** Number of the last step; 0 when there is none. */
    public int last() {
        return steps.isEmpty() ? 0 : steps.get(steps.size() - 1).number();
    }

    /** What the guards said when the service last told. */
    public List<GuardReport> guards() {
        return guards;
    }

    /** Guards that refuse, and that nobody has overridden. */
    public List<GuardReport> standingRefusals() {
        return guards.stream()
                .filter(g -> g.decision() == GuardDecision.REFUSED)
                .toList();
    }

    /** How the controls stand after the last step. */
    public List<Trim> settings() {
        return settingsAfter(last());
    }

    /**
     * How the controls stood after a step, from their calibrated settings; those at it are left out.
     *
     * @param number 0 for how the match began
     */
    public List<Trim> settingsAfter(int number) {
        var states = new ArrayList<List<Trim>>();
        states.add(off(opened().draft().startingTrims()));
        for (var step : steps) {
            if (step.number() > number) {
                break;
            }
            states.add(after(step.draft(), states));
        }
        return states.get(states.size() - 1);
    }

    private static List<Trim> after(StepDraft step, List<List<Trim>> states) {
        var now = states.get(states.size() - 1);
        if (step.kind() == StepKind.TRIM && step.trim() != null) {
            return turned(now, step.trim());
        }
        var to = step.returnTo();
        return step.kind() == StepKind.RETURN && to != null && to < states.size() ? states.get(to) : now;
    }

    private static List<Trim> turned(List<Trim> now, Trim change) {
        var turned = new ArrayList<Trim>();
        var clicks = change.clicks();
        for (var trim : now) {
            if (KeptStep.same(trim, change)) {
                clicks += trim.clicks();
            } else {
                turned.add(trim);
            }
        }
        turned.add(new Trim(change.control(), change.level(), clicks));
        return off(turned);
    }

    private static List<Trim> off(List<Trim> trims) {
        return trims.stream()
                .filter(t -> t.clicks() != 0)
                .sorted(Comparator.comparing(Trim::control).thenComparing(Trim::level))
                .toList();
    }

    /** How a control stands, in clicks from its calibrated setting. */
    public int clicks(String control, String level) {
        return settings().stream()
                .filter(t -> t.control().equals(control) && t.level().equals(level))
                .mapToInt(Trim::clicks)
                .findFirst()
                .orElse(0);
    }

    /** Whether a later return went back before a step. */
    public boolean undone(int number) {
        return steps.stream()
                .map(KeptStep::draft)
                .anyMatch(s -> s.returnTo() != null && s.returnTo() < number && number < s.number());
    }

    /** The step to go back to so that the last trim that still counts is undone; null when none counts. */
    public @Nullable Integer beforeLastTrim() {
        var at = last();
        while (at > 0) {
            var step = steps.get(at - 1).draft();
            if (step.kind() == StepKind.TRIM) {
                return at - 1;
            }
            at = step.returnTo() == null ? at - 1 : step.returnTo();
        }
        return null;
    }

    /**
     * The last reading of follower or hero; null when there is none. That of the follower must show it as its controls
     * stand now.
     */
    public @Nullable UUID closingRun(boolean ofHero) {
        for (var i = steps.size() - 1; i >= 0; i--) {
            var step = steps.get(i);
            if (step.draft().kind() == StepKind.READING
                    && Boolean.valueOf(ofHero).equals(step.ofHero())) {
                return ofHero || settingsAfter(step.number()).equals(settings())
                        ? step.draft().runId()
                        : null;
            }
        }
        return null;
    }
}
