package panelbook.app.matching.story;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import panelbook.app.matching.story.Step.Half;
import panelbook.wire.StepKind;

/** What happened in a match, step by step, and where the controls of the follower stood after each. Immutable. */
public final class Story {

    private final List<Step> steps;
    /** At the opening, then after each step. */
    private final List<Settings> settings;

    private Story(List<Step> steps, List<Settings> settings) {
        this.steps = List.copyOf(steps);
        this.settings = List.copyOf(settings);
    }

    /**
     * A story.
     *
     * @param start how the controls stood at the opening
     * @param steps numbered from 1 without gaps; a return leads to an earlier step
     */
    public static Story of(Settings start, List<Step> steps) {
        var settings = new ArrayList<Settings>();
        settings.add(start);
        for (var step : steps) {
            settings.add(after(step, settings));
        }
        return new Story(steps, settings);
    }

    private static Settings after(Step step, List<Settings> before) {
        var last = before.get(before.size() - 1);
        var trim = step.said().trim();
        var returnTo = step.said().returnTo();
        if (step.said().kind() == StepKind.TRIM && trim != null) {
            return last.turned(Controls.of(trim), trim.clicks());
        }
        return step.said().kind() == StepKind.RETURN && returnTo != null ? before.get(returnTo) : last;
    }

    /** The story with one more step. */
    public Story with(Step step) {
        var more = new ArrayList<>(steps);
        more.add(step);
        return of(settings.get(0), more);
    }

    /** The story as it stood when a step had just been made; 0 for the opening. */
    public Story until(int number) {
        return new Story(steps.subList(0, number), settings.subList(0, number + 1));
    }

    /** All steps. */
    public List<Step> steps() {
        return steps;
    }

    /** How the controls stood after a step, 0 for the opening. */
    public Settings after(int number) {
        return settings.get(number);
    }

    /** How they stand after the last step. */
    public Settings now() {
        return after(steps.size());
    }

    /**
     * The steps that led to where the controls stand now: those that a return went back before are not among them, unless a
     * later return led to them again.
     */
    public Set<Integer> inForce() {
        var inForce = new HashSet<Integer>();
        var number = steps.size();
        while (number > 0) {
            inForce.add(number);
            var said = steps.get(number - 1).said();
            number = said.kind() == StepKind.RETURN && said.returnTo() != null ? said.returnTo() : number - 1;
        }
        return inForce;
    }

    /**
     * A run of the follower, and how its controls stood.
     *
     * @param step number of the reading
     */
    public record Taken(int step, UUID runId, Settings settings) {}

    /** The readings of the follower, in the order taken. */
    public List<Taken> followerReadings() {
        var readings = new ArrayList<Taken>();
        for (var step : steps) {
            var run = step.runOf(Half.FOLLOWER);
            if (run != null) {
                readings.add(new Taken(step.number(), run, after(step.number())));
            }
        }
        return readings;
    }

    /** The last run of one half. */
    public Optional<UUID> lastRunOf(Half half) {
        for (var number = steps.size(); number > 0; number--) {
            var run = steps.get(number - 1).runOf(half);
            if (run != null) {
                return Optional.of(run);
            }
        }
        return Optional.empty();
    }
}
